//! Canvas on the roll: every piece is its panel plus the overlap, lies a way that the weave allows, inside its strip
//! and between the selvedges, on no other piece; every panel that gets canvas has one.

use super::super::Rule;
use super::super::findings::Findings;
use super::made::Made;
use super::sold;
use crate::data::Job;
use crate::data::week::{Canvas, Weave};
use crate::length::Length;
use crate::plan::Plan;
use crate::plan::week::{CanvasPlan, RollPiece, RollStrip};

/// Checks the canvas plan, if there is one.
pub(super) fn check(job: &Job, plan: &Plan, made: &[Made], found: &mut Findings) {
    let Some((canvas, cut)) = job.week.canvas.as_ref().zip(plan.week.canvas.as_ref()) else { return };
    for (at, strip) in cut.strips.iter().enumerate() {
        let place = format!("canvas, strip {}", at + 1);
        within(canvas, strip, &place, found);
        for piece in &strip.pieces {
            cut_to_size(canvas, &made[piece.panel], piece, &place, found);
        }
    }
    counts(canvas, cut, made, found);
    sold::check(canvas, cut, found);
}

/// The strip is as deep as its deepest piece, and its pieces lie side by side between the selvedges.
fn within(canvas: &Canvas, strip: &RollStrip, place: &str, found: &mut Findings) {
    let deepest = strip.pieces.iter().map(|piece| piece.along).max().unwrap_or_default();
    found.same(Rule::Piece, place, "its depth", strip.depth, deepest);
    let (near, far) = (canvas.selvedge, canvas.roll - canvas.selvedge);
    let inside = |piece: &RollPiece| piece.left >= near && piece.left + piece.across <= far;
    found.hold(Rule::Edge, strip.pieces.iter().all(inside), place, || "a piece lies on the selvedge or beyond".into());
    let mut pieces: Vec<&RollPiece> = strip.pieces.iter().collect();
    pieces.sort_by_key(|piece| piece.left);
    let apart = pieces.windows(2).all(|pair| pair[0].left + pair[0].across <= pair[1].left);
    found.hold(Rule::Overlap, apart, place, || "two pieces lie on each other".into());
}

/// The piece has the size of its panel with the overlap, turned as it says and as the weave allows.
fn cut_to_size(canvas: &Canvas, line: &Made, piece: &RollPiece, place: &str, found: &mut Findings) {
    let Some((width, height)) = line.canvas else {
        return found.hold(Rule::Piece, false, place, || format!("{} gets no canvas", line.name));
    };
    let (across, along) = if piece.turned { (height, width) } else { (width, height) };
    found.same(Rule::Piece, place, &format!("the piece for {} across the roll", line.name), piece.across, across);
    found.same(Rule::Piece, place, &format!("the piece for {} along the roll", line.name), piece.along, along);
    let allowed = match canvas.weave {
        Weave::Either => true,
        Weave::Along => !piece.turned,
        Weave::Across => piece.turned,
    };
    found.hold(Rule::Piece, allowed, place, || format!("the piece for {} lies against the weave", line.name));
}

/// One piece for every panel that gets canvas; none only where no way that the weave allows fits the roll.
fn counts(canvas: &Canvas, cut: &CanvasPlan, made: &[Made], found: &mut Findings) {
    for (at, line) in made.iter().enumerate() {
        let place = format!("canvas for {}", line.name);
        let pieces = cut.strips.iter().flat_map(|strip| &strip.pieces).filter(|piece| piece.panel == at).count();
        let size = line.canvas.filter(|_| line.count > 0);
        let fits = size.is_some_and(|size| fits(canvas, size));
        let wanted = if fits { line.count as usize } else { 0 };
        found.equal(Rule::Count, &place, "the number of pieces", pieces, wanted);
        let told = cut.misfits.iter().filter(|panel| **panel == at).count();
        let misfit = usize::from(size.is_some() && !fits);
        found.equal(Rule::Misfit, &place, "how often it is said not to fit", told, misfit);
    }
}

fn fits(canvas: &Canvas, (width, height): (Length, Length)) -> bool {
    let room = canvas.roll - canvas.selvedge - canvas.selvedge;
    let long = canvas.sold.longest.unwrap_or(Length::MAX);
    let upright = width <= room && height <= long;
    let level = height <= room && width <= long;
    match canvas.weave {
        Weave::Along => upright,
        Weave::Across => level,
        Weave::Either => upright || level,
    }
}
