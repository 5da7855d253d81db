//! Weights from thickness and density, and the load that goes into the car from the yard.

use super::Rule;
use super::findings::Findings;
use super::leftovers::{Fell, Leftovers};
use crate::data::Job;
use crate::length::{Area, Length};
use crate::plan::{Origin, Plan, Strip};

/// Weights that differ by less than this share are the same: they are added up in floating point.
const SAME: f64 = 1e-9;

/// Checks the weight of every strip and panel, and the load.
pub(super) fn check(job: &Job, plan: &Plan, left: &Leftovers, found: &mut Findings) {
    for strip in &plan.strips {
        let weight = of_strip(job, strip);
        same(found, &format!("strip {}", strip.letter), strip.weight, weight);
    }
    for (at, line) in plan.panels.iter().enumerate() {
        let weight =
            heaviest(job, plan, at).map(|per_metre| per_metre * (line.cut_width * line.cut_height).to_square_metres());
        same(found, &format!("panel {}", line.name), line.weight, weight);
    }
    load(job, plan, left, found);
}

/// Kilograms a square metre of a sheet kind, where known.
fn per_metre(job: &Job, sheet: Option<usize>) -> Option<f64> {
    let sheet = &job.sheets[sheet?];
    Some(sheet.density? * sheet.thickness?.to_mm() / 1000.0)
}

fn kind(job: &Job, strip: &Strip) -> Option<usize> {
    match strip.origin {
        Origin::Sheet { sheet, .. } => Some(sheet),
        Origin::OnHand { strip } => job.strips[strip].sheet,
    }
}

fn weigh(job: &Job, sheet: Option<usize>, area: Area) -> Option<f64> {
    per_metre(job, sheet).map(|weight| weight * area.to_square_metres())
}

fn of_strip(job: &Job, strip: &Strip) -> Option<f64> {
    weigh(job, kind(job, strip), strip.width * strip.length)
}

/// The heaviest wood that a line's panels are cut from; nothing where any of it is unknown.
fn heaviest(job: &Job, plan: &Plan, panel: usize) -> Option<f64> {
    let holds = |strip: &&Strip| strip.pieces.iter().any(|piece| piece.panel == panel);
    let woods: Option<Vec<f64>> =
        plan.strips.iter().filter(holds).map(|strip| per_metre(job, kind(job, strip))).collect();
    woods?.into_iter().reduce(f64::max)
}

fn same(found: &mut Findings, place: &str, says: Option<f64>, is: Option<f64>) {
    let holds = match (says, is) {
        (Some(says), Some(is)) => (says - is).abs() <= SAME * is.abs().max(1.0),
        (says, is) => says.is_none() && is.is_none(),
    };
    found.hold(Rule::Weight, holds, place, || format!("it weighs {is:?} kg, not {says:?}"));
}

/// What comes home from the yard: the strips, and all that fell off beside them.
fn load(job: &Job, plan: &Plan, left: &Leftovers, found: &mut Findings) {
    let (mut longest, mut widest) = (Length::ZERO, Length::ZERO);
    let mut weight = Some(0.0);
    let mut take = |width: Length, length: Length, sheet: Option<usize>, count: f64| {
        longest = longest.max(length);
        widest = widest.max(width);
        weight = weight.zip(weigh(job, sheet, width * length)).map(|(sum, one)| sum + one * count);
    };
    for strip in plan.strips.iter().filter(|strip| matches!(strip.origin, Origin::Sheet { .. })) {
        take(strip.width, strip.length, kind(job, strip), f64::from(strip.count));
    }
    for (left, count) in left.iter().filter(|(left, _)| matches!(left.fell, Fell::Board | Fell::Unripped)) {
        #[allow(clippy::cast_precision_loss)] // a weight; counts are far below 2^52
        take(left.width, left.length, left.sheet, *count as f64);
    }
    found.same(Rule::Load, "load", "the longest piece", plan.load.longest, longest);
    found.same(Rule::Load, "load", "the widest piece", plan.load.widest, widest);
    same(found, "load", plan.load.weight, weight);
    let trips = job.car.heaviest.zip(weight).map_or(1, |(most, weight)| trips(weight, most));
    found.equal(Rule::Load, "load", "trips", u64::from(plan.load.trips), trips);
}

/// Trips needed by weight; a load that is just the limit still goes in one.
fn trips(weight: f64, most: f64) -> u64 {
    let mut trips = 1;
    #[allow(clippy::cast_precision_loss)] // a number of trips
    while trips < 1_000_000 && weight > most * trips as f64 * (1.0 + SAME) {
        trips += 1;
    }
    trips
}
