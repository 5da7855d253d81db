//! What the later aims are worth once the panels have grown back.
//!
//! Sizes that were equal at their smallest may grow apart, and a layout or a stop setting more may come of it. Nearness
//! to the nominal size goes before both, so the aim then says what the plan has, and claims no proof.

use super::{Plan, Strip};
use crate::length::Length;
use crate::solve::{Aim, Level};
use std::collections::BTreeSet;

/// The levels of the answer with the values of the plan.
pub(super) fn levels(solved: &[Level], plan: &Plan) -> Vec<Level> {
    solved.iter().map(|level| counted(*level, plan)).collect()
}

fn counted(level: Level, plan: &Plan) -> Level {
    let value = match level.aim {
        Aim::Worth => return level,
        Aim::Layouts => plan.yard.len() + rip_widths(&plan.strips),
        Aim::Settings => plan.stops.len(),
    };
    let value = i64::try_from(value).expect("counts are small");
    Level { value, bound: level.bound.min(value), proved: level.proved && value == level.value, ..level }
}

/// How many different widths the yard rips.
fn rip_widths(strips: &[Strip]) -> usize {
    let ripped = strips.iter().filter(|strip| matches!(strip.origin, super::Origin::Sheet { .. }));
    ripped.map(|strip| strip.width).collect::<BTreeSet<Length>>().len()
}
