//! What the later aims come to once the panels have grown back.
//!
//! Sizes that were equal at their smallest may grow apart, and a layout or a stop setting more may come of it. Nearness
//! to the nominal size goes before both, so the aim then says what the plan has, and claims no proof. Nor does it where
//! two sides that differ at their smallest could come out alike, unless the plan has no more than any plan must have:
//! the solver counts at the smallest sizes only.

use super::{Origin, Plan, Strip, offcuts};
use crate::data::{Cents, Job};
use crate::length::Length;
use crate::model::sizes;
use crate::solve::{Aim, Level};
use std::collections::BTreeSet;

/// The levels of the answer with the values of the plan.
pub(super) fn levels(job: &Job, solved: &[Level], plan: &Plan) -> Vec<Level> {
    solved.iter().map(|level| counted(job, *level, plan)).collect()
}

fn counted(job: &Job, level: Level, plan: &Plan) -> Level {
    let value = match level.aim {
        Aim::Worth => worth(job, plan).0,
        Aim::Layouts => count(plan.yard.len() + rip_widths(&plan.strips)),
        Aim::Settings => count(plan.stops.len()),
    };
    let bound = match level.aim {
        Aim::Worth => level.bound.max(value),
        // A plan that rips a sheet has a layout and a width, whatever its sizes.
        Aim::Layouts if sides_may_meet(job) => level.bound.min(value).min(2),
        Aim::Settings if sides_may_meet(job) => level.bound.min(value).min(1),
        _ => level.bound.min(value),
    };
    Level { value, bound, proved: level.proved && value == level.value && value == bound, ..level }
}

/// Whether two sides that differ at their smallest could be cut alike within what they may come out under size.
fn sides_may_meet(job: &Job) -> bool {
    let sides = sizes::of(job).into_iter().flat_map(|panel| [panel.width, panel.height]);
    let sides: BTreeSet<(Length, Length)> = sides.map(|side| (side.least, side.most)).collect();
    let (mut least, mut reach) = (Length::ZERO, Length::ZERO);
    sides.into_iter().any(|(from, to)| {
        let meets = from > least && from <= reach;
        (least, reach) = (from, reach.max(to));
        meets
    })
}

fn count(number: usize) -> i64 {
    i64::try_from(number).expect("counts are small")
}

/// Extra panels and the fall-offs that are kept; a board of which nothing was ripped is no fall-off.
fn worth(job: &Job, plan: &Plan) -> Cents {
    let extras = plan.panels.iter().zip(&job.panels).map(|(line, panel)| panel.worth * i64::from(line.extras));
    let strips = plan.strips.iter().map(|strip| (strip.count, strip.width, strip.fall_off));
    let boards = plan.sheets.iter().flat_map(|group| group.boards.iter().map(move |board| (group.count, board)));
    let boards = boards.filter(|(_, board)| !board.rips.is_empty());
    let left = strips.chain(boards.map(|(count, board)| (count, board.fall_off, board.length)));
    let kept = left.map(|(count, width, length)| offcuts::worth(&job.keepers, width, length) * i64::from(count));
    extras.chain(kept).sum()
}

/// How many different widths the yard rips.
fn rip_widths(strips: &[Strip]) -> usize {
    let ripped = strips.iter().filter(|strip| matches!(strip.origin, Origin::Sheet { .. }));
    ripped.map(|strip| strip.width).collect::<BTreeSet<Length>>().len()
}
