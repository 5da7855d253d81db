//! Which panels travel in which box, bag or bundle: stacks on its base, heights, weights, and what does not fit. The
//! way the container is filled (which side is its base) is the one that needs the fewest; first fit otherwise.

use super::lots::Lot;
use super::parcel::{Filling, Parcel, Refusal};
use crate::data::week::{Limit, Pack};
use crate::length::Length;

/// Everything packed.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Packing {
    /// Length and width of the base and the height above it, as the panels are stacked; `None` for plain bundles.
    pub inside: Option<[Length; 3]>,
    /// Boxes, bags or bundles in the order they are filled.
    pub parcels: Vec<Parcel>,
    /// What does not fit, and why.
    pub misfits: Vec<Misfit>,
    /// True where weights are not known and so the weight limit was not kept.
    pub weight_unknown: bool,
    /// What the carrier's limit says about the inside size, if one was named.
    pub carrier: Option<Carrier>,
}

/// Panels that cannot be packed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Misfit {
    /// Index into `Plan::panels`.
    pub panel: usize,
    /// How many.
    pub count: u32,
    /// Why.
    pub why: Refusal,
}

/// A container held against a carrier's usual limit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Carrier {
    /// The limit.
    pub limit: Limit,
    /// Length + width + height of the container, inside.
    pub linear: Length,
    /// Whether the inside size alone keeps the limit; the outside must too.
    pub keeps: bool,
}

/// Packs the lots. Weights are kilograms.
pub fn pack_lots(lots: &[Lot], pack: &Pack) -> Packing {
    let ways = pack.inside.map_or_else(Vec::new, ways);
    let packed = ways.into_iter().map(|inside| pack_one_way(lots, pack, Some(inside)));
    let best = packed.min_by_key(|packing| (unpacked(packing), packing.parcels.len()));
    let mut packing = best.unwrap_or_else(|| pack_one_way(lots, pack, None));
    packing.weight_unknown = lots.iter().any(|lot| lot.weight.is_none() || lot.thickness.is_none());
    packing.carrier = pack.limit.zip(pack.inside).map(|(limit, inside)| carrier(limit, inside));
    packing
}

fn unpacked(packing: &Packing) -> u32 {
    packing.misfits.iter().map(|misfit| misfit.count).sum()
}

/// The three sides a container can be filled from, the flat one first.
fn ways(mut inside: [Length; 3]) -> Vec<[Length; 3]> {
    inside.sort_unstable();
    let [low, middle, high] = inside;
    vec![[high, middle, low], [high, low, middle], [middle, low, high]]
}

fn pack_one_way(lots: &[Lot], pack: &Pack, inside: Option<[Length; 3]>) -> Packing {
    let mut order: Vec<&Lot> = lots.iter().collect();
    order.sort_by_key(|lot| {
        (std::cmp::Reverse(lot.width.max(lot.height)), std::cmp::Reverse(lot.width.min(lot.height)), lot.panel)
    });
    let mut packing = Packing { inside, ..Packing::default() };
    let mut open: Vec<Filling> = Vec::new();
    for lot in order {
        let mut left = lot.count;
        for filling in &mut open {
            left -= filling.take(lot, left, pack);
        }
        while left > 0 {
            let mut filling = Filling::new(inside, pack);
            let taken = filling.take(lot, left, pack);
            if taken == 0 {
                packing.misfits.push(Misfit { panel: lot.panel, count: left, why: filling.refusal(lot, pack) });
                break;
            }
            left -= taken;
            open.push(filling);
        }
    }
    packing.parcels = open.into_iter().map(Filling::close).collect();
    packing
}

/// The limits as named in `Limit`: common practice, each carrier's own rule holds.
fn carrier(limit: Limit, inside: [Length; 3]) -> Carrier {
    let mut sides = inside;
    sides.sort_unstable();
    let linear = inside.into_iter().sum();
    let keeps = match limit {
        Limit::CheckedBag => linear <= Length::inches(62),
        Limit::CabinBag => {
            sides[2] <= Length::inches(22) && sides[1] <= Length::inches(14) && sides[0] <= Length::inches(9)
        }
    };
    Carrier { limit, linear, keeps }
}
