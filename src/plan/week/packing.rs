//! Which panels travel in which box, bag or bundle: stacks on its base, heights, weights, and what does not fit. The
//! way the container is filled (which side is its base, which rule places the stacks) is the one that needs the fewest;
//! otherwise the largest panels first, each into the first that takes it. That is not proved to be the fewest, so a
//! number that no packing can be under stands beside it.

use super::board::Fit;
use super::lots::Lot;
use super::parcel::{Filling, Parcel, Refusal, ground, rise};
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
    /// No fewer can hold what is packed.
    pub floor: u32,
    /// True where weights are not known and so the weight limit was not kept.
    pub weight_unknown: bool,
    /// True where thicknesses are not known and so the height was not kept.
    pub height_unknown: bool,
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
    let ways = pack.inside.map_or_else(|| vec![None], |inside| ways(inside).into_iter().map(Some).collect());
    let packed = ways.iter().flat_map(|inside| Fit::ALL.map(|fit| pack_one_way(lots, pack, *inside, fit)));
    let best = packed.min_by_key(|packing| (unpacked(packing), packing.parcels.len()));
    let mut packing = best.unwrap_or_default();
    packing.floor = floor(lots, pack, &packing.misfits);
    packing.height_unknown = lots.iter().any(|lot| lot.thickness.is_none());
    packing.weight_unknown = packing.height_unknown || lots.iter().any(|lot| lot.weight.is_none());
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

fn pack_one_way(lots: &[Lot], pack: &Pack, inside: Option<[Length; 3]>, fit: Fit) -> Packing {
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
            let mut filling = Filling::new(inside, pack, fit);
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

/// No fewer hold what is packed, by weight alone and by room alone, whichever way they stand.
fn floor(lots: &[Lot], pack: &Pack, misfits: &[Misfit]) -> u32 {
    let refused = |lot: &Lot| -> u32 {
        misfits.iter().filter(|misfit| misfit.panel == lot.panel).map(|misfit| misfit.count).sum()
    };
    let sum = |each: &dyn Fn(&Lot) -> f64| -> f64 {
        lots.iter().map(|lot| each(lot) * f64::from(lot.count - refused(lot))).sum()
    };
    let packed = sum(&|_| 1.0);
    let weight = sum(&|lot| lot.weight.unwrap_or(0.0));
    let by_weight = pack.heaviest.map_or(0.0, |heaviest| weight / (heaviest - pack.empty));
    let by_room = match (pack.inside, pack.highest) {
        (Some(inside), _) => sum(&|lot| volume([lot.width, lot.height, rise(lot, pack)])) / room(inside, pack),
        (None, Some(highest)) => sum(&|lot| rise(lot, pack).to_mm()) / (highest - ground(pack)).to_mm(),
        (None, None) => 0.0,
    };
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)] // at most as many as panels
    let fewest = [by_weight, by_room].map(|part| if packed > 0.0 { (part * (1.0 - 1e-9)).ceil() as u32 } else { 0 });
    fewest.into_iter().max().unwrap_or(0).max(u32::from(packed > 0.0))
}

fn volume(sides: [Length; 3]) -> f64 {
    sides.into_iter().map(Length::to_mm).product()
}

/// The most room for panels in any way it stands, since every stack has its boards.
fn room(inside: [Length; 3], pack: &Pack) -> f64 {
    let ways = ways(inside).into_iter();
    ways.map(|[length, width, height]| volume([length, width, height - ground(pack)])).fold(0.0, f64::max)
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
