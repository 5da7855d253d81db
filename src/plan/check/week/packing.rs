//! Packing: every panel in exactly one box, bag or bundle, or said not to fit where not even an empty one takes it;
//! and what the carrier's limit says of the box.

use super::super::Rule;
use super::super::findings::Findings;
use super::made::Made;
use super::{floor, parcel};
use crate::data::Job;
use crate::data::week::{Limit, Pack};
use crate::length::Length;
use crate::plan::Plan;
use crate::plan::week::{Carrier, Packing, Refusal};

/// Checks the packing, if there is any.
pub(super) fn check(job: &Job, plan: &Plan, made: &[Made], found: &mut Findings) {
    let Some((pack, packing)) = job.week.pack.as_ref().zip(plan.week.packing.as_ref()) else { return };
    base(pack, packing, found);
    for (at, one) in packing.parcels.iter().enumerate() {
        let place = format!("{} {}", pack.kind.word(), at + 1);
        parcel::check(pack, packing.inside, one, made, &place, found);
    }
    for (at, line) in made.iter().enumerate() {
        counts(pack, packing, line, at, found);
    }
    let unknown = made.iter().any(|line| line.count > 0 && (line.weight.is_none() || line.thickness.is_none()));
    found.equal(Rule::Weight, "packing", "\"weights are not known\"", packing.weight_unknown, unknown);
    let thick = made.iter().all(|line| line.count == 0 || line.thickness.is_some());
    found.equal(Rule::Parcel, "packing", "\"heights are not known\"", packing.height_unknown, !thick);
    floor::packing(pack, packing, made, found);
    carrier(pack, packing, found);
}

/// The base and the height are the sides of the box, whichever way it stands.
fn base(pack: &Pack, packing: &Packing, found: &mut Findings) {
    let sorted = |sides: Option<[Length; 3]>| {
        sides.map(|mut sides| {
            sides.sort_unstable();
            sides
        })
    };
    let same = sorted(pack.inside) == sorted(packing.inside);
    found.hold(Rule::Parcel, same, "packing", || "the inside is not that of the job".into());
}

fn counts(pack: &Pack, packing: &Packing, line: &Made, at: usize, found: &mut Findings) {
    let place = format!("packing, {}", line.name);
    let layers = packing.parcels.iter().flat_map(|parcel| &parcel.stacks).flat_map(|stack| &stack.layers);
    let packed: u64 = layers.filter(|layer| layer.0 == at).map(|layer| u64::from(layer.1)).sum();
    let refused = packing.misfits.iter().filter(|misfit| misfit.panel == at);
    let left: u64 = refused.clone().map(|misfit| u64::from(misfit.count)).sum();
    found.equal(Rule::Count, &place, "panels packed or said not to fit", packed + left, u64::from(line.count));
    let why = packing.inside.map_or_else(|| refusal(pack, None, line), |inside| refusal(pack, Some(inside), line));
    let held = refused.clone().all(|misfit| Some(misfit.why) == why && misfit.count > 0) && refused.count() <= 1;
    found.hold(Rule::Misfit, held, &place, || format!("said not to fit; of an empty one holds {why:?}"));
}

/// Why not even an empty box takes one panel.
fn refusal(pack: &Pack, inside: Option<[Length; 3]>, line: &Made) -> Option<Refusal> {
    let (long, short) = line.sides();
    let too_large = inside.is_some_and(|[length, width, _]| long > length.max(width) || short > length.min(width));
    let high = parcel::ground(pack) + parcel::rise(pack, line);
    let too_high = inside.map(|[.., height]| height).or(pack.highest).is_some_and(|highest| high > highest);
    let weight = line.weight.map(|weight| pack.empty + parcel::boards(pack, line) + weight);
    let too_heavy = parcel::over(pack, weight);
    match (too_large, too_high, too_heavy) {
        (true, ..) => Some(Refusal::TooLarge),
        (_, true, _) => Some(Refusal::TooHigh),
        (.., true) => Some(Refusal::TooHeavy),
        _ => None,
    }
}

/// The limits by their names: 62 in. in all, or 22 x 14 x 9 in. (common practice; each airline's own rule holds).
fn carrier(pack: &Pack, packing: &Packing, found: &mut Findings) {
    let is = pack.limit.zip(pack.inside).map(|(limit, mut sides)| {
        sides.sort_unstable();
        let linear = sides[0] + sides[1] + sides[2];
        let keeps = match limit {
            Limit::CheckedBag => linear <= Length::inches(62),
            Limit::CabinBag => sides.iter().zip([9, 14, 22]).all(|(side, most)| *side <= Length::inches(most)),
        };
        Carrier { limit, linear, keeps }
    });
    let says = packing.carrier;
    found.hold(Rule::Parcel, says == is, "packing", || format!("the carrier's limit: {is:?}, not {says:?}"));
}
