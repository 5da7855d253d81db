//! What the later aims claim: each figure counted again on the plan, none of them better than its own bound.

use super::Rule;
use super::findings::Findings;
use super::leftovers::{Fell, Leftovers, worth};
use crate::data::Job;
use crate::length::Length;
use crate::plan::{Board, Plan, SheetGroup};
use crate::solve::Aim;
use std::collections::BTreeSet;

/// Checks the levels' order, each one's value and what is claimed to be proved about it.
pub(super) fn check(job: &Job, plan: &Plan, left: &Leftovers, found: &mut Findings) {
    let ordered = plan.levels.is_sorted_by(|one, next| one.aim < next.aim);
    found.hold(Rule::Level, ordered, "later aims", || "they do not stand in their order, each once".into());
    for level in &plan.levels {
        let place = format!("{:?}", level.aim);
        let (is, may_be_better) = match level.aim {
            Aim::Worth => (total_worth(job, plan, left), level.bound >= level.value),
            Aim::Layouts => (layouts(plan), level.bound <= level.value),
            Aim::Settings => (settings(plan), level.bound <= level.value),
        };
        found.equal(Rule::Level, &place, "what it reached", i128::from(level.value), is);
        found.hold(Rule::Level, may_be_better, &place, || "it is better than the best that is possible".into());
        let closed = !level.proved || level.bound == level.value;
        found.hold(Rule::Level, closed, &place, || "claimed proved, but its bound is not reached".into());
    }
}

/// Extra panels and offcuts worth keeping, in cents; a board that was never ripped does not count.
fn total_worth(job: &Job, plan: &Plan, left: &Leftovers) -> i128 {
    let extras = plan.strips.iter().flat_map(|strip| {
        let extra = strip.pieces.iter().filter(|piece| piece.extra);
        extra.map(|piece| i128::from(strip.count) * i128::from(job.panels[piece.panel].worth.0))
    });
    let kept = left.iter().filter(|(left, _)| left.fell != Fell::Unripped);
    let kept = kept.map(|(left, count)| i128::from(*count) * i128::from(worth(job, left.width, left.length).0));
    extras.chain(kept).sum()
}

/// Different sheet layouts and different rip widths, counted together.
fn layouts(plan: &Plan) -> i128 {
    let face = |group: &SheetGroup| {
        let rips = |board: &Board| {
            let mut widths: Vec<Length> = board.rips.iter().map(|rip| rip.width).collect();
            widths.sort_unstable();
            (board.length, widths)
        };
        (group.sheet, group.direction, group.boards.iter().map(rips).collect::<Vec<_>>())
    };
    let faces: BTreeSet<_> = plan.sheets.iter().map(face).collect();
    let rips = plan.sheets.iter().flat_map(|group| &group.boards).flat_map(|board| &board.rips);
    let widths: BTreeSet<Length> = rips.map(|rip| rip.width).collect();
    (faces.len() + widths.len()) as i128
}

/// Different lengths that the stop block is set to.
fn settings(plan: &Plan) -> i128 {
    let pieces = plan.strips.iter().flat_map(|strip| &strip.pieces);
    pieces.map(|piece| piece.length).collect::<BTreeSet<_>>().len() as i128
}
