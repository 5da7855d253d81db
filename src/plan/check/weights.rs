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

/// A kind of piece that the yard hands over.
struct Piece {
    sides: (Length, Length),
    weight: Option<f64>,
    count: f64,
}

/// What comes home from the yard: the strips, and all that fell off beside them and goes into the car.
fn load(job: &Job, plan: &Plan, left: &Leftovers, found: &mut Findings) {
    let pieces = handed_over(job, plan, left);
    let side = |of: fn(&Piece) -> Length| pieces.iter().map(of).max().unwrap_or_default();
    let longest = side(|piece| piece.sides.0.max(piece.sides.1));
    let widest = side(|piece| piece.sides.0.min(piece.sides.1));
    found.same(Rule::Load, "load", "the longest piece", plan.load.longest, longest);
    found.same(Rule::Load, "load", "the widest piece", plan.load.widest, widest);
    let weight = pieces.iter().try_fold(0.0, |sum, piece| Some(sum + piece.weight? * piece.count));
    same(found, "load", plan.load.weight, weight);
    let (fewest, most) =
        job.car.heaviest.zip(weight).map_or((1.0, 1.0), |(limit, weight)| trips(&pieces, weight, limit));
    let holds = (fewest..=most).contains(&f64::from(plan.load.trips));
    found.hold(Rule::Load, holds, "load", || format!("{} trips for {weight:?} kg", plan.load.trips));
}

fn handed_over(job: &Job, plan: &Plan, left: &Leftovers) -> Vec<Piece> {
    let ripped = plan.strips.iter().filter(|strip| matches!(strip.origin, Origin::Sheet { .. }));
    let ripped = ripped.map(|strip| Piece {
        sides: (strip.width, strip.length),
        weight: of_strip(job, strip),
        count: f64::from(strip.count),
    });
    let fell = left.iter().filter(|(left, _)| matches!(left.fell, Fell::Board | Fell::Unripped));
    #[allow(clippy::cast_precision_loss)] // a weight; counts are far below 2^52
    let fell = fell.map(|(left, count)| Piece {
        sides: (left.width, left.length),
        weight: weigh(job, left.sheet, left.width * left.length),
        count: *count as f64,
    });
    let (longest, widest) = (job.car.longest.unwrap_or(Length::MAX), job.car.widest.unwrap_or(Length::MAX));
    let goes = |length, width| length <= longest && width <= widest;
    ripped
        .chain(fell)
        .filter(|piece| goes(piece.sides.0, piece.sides.1) || goes(piece.sides.1, piece.sides.0))
        .collect()
}

/// Fewest trips by weight, and the most that a sensible loading makes: any two of its trips together are above the
/// limit, but for pieces that are above it alone.
fn trips(pieces: &[Piece], weight: f64, limit: f64) -> (f64, f64) {
    let fewest = (weight / limit * (1.0 - SAME)).ceil().max(1.0);
    let alone: f64 = pieces.iter().filter(|piece| piece.weight > Some(limit)).map(|piece| piece.count).sum();
    (if alone > 0.0 { 1.0 } else { fewest }, 2.0 * fewest + alone)
}
