//! The problem with fewer ways to cut: only some rip widths, or only some lengths at the stop block. Families keep
//! their places, so that layouts mean the same; strips on hand get families of their own, since the yard's rip widths
//! do not bind them.

use super::super::draft::Draft;
use super::super::master::Made;
use super::super::pattern::Pattern;
use crate::length::Length;
use crate::model::{Laid, Problem};
use std::collections::BTreeSet;

/// The problem with only these rip widths at the yard.
pub(super) fn to_widths(problem: &Problem, widths: &BTreeSet<Length>) -> Problem {
    let mut narrow = apart(problem);
    for width in narrow.families.iter_mut().take(problem.families.len()).flat_map(|family| &mut family.widths) {
        if !widths.contains(&width.width) {
            width.laid.clear();
        }
    }
    narrow
}

/// The problem with only these lengths crosscut at home.
pub(super) fn to_lengths(problem: &Problem, lengths: &BTreeSet<Length>) -> Problem {
    let mut narrow = apart(problem);
    for width in narrow.families.iter_mut().flat_map(|family| &mut family.widths) {
        width.laid.retain(|laid| lengths.contains(&laid.along));
    }
    narrow
}

/// The same problem, each strip on hand with a family of its own.
fn apart(problem: &Problem) -> Problem {
    let mut apart = problem.clone();
    for strip in &mut apart.on_hand {
        apart.families.push(problem.families[strip.family].clone());
        strip.family = apart.families.len() - 1;
    }
    apart
}

/// A draft of one of the two problems as one of the other; none where a panel cannot lie so there.
pub(super) fn carried(from: &Problem, to: &Problem, draft: &Draft) -> Option<Draft> {
    let mut carried = Draft { layouts: draft.layouts.clone(), ..Draft::default() };
    for ((strip, pattern), copies) in &draft.on_hand {
        carried.add(carry(from, to, &Made::OnHand(*strip, pattern.clone()))?, *copies);
    }
    for (pattern, copies) in &draft.patterns {
        carried.add(carry(from, to, &Made::Pattern(pattern.clone()))?, *copies);
    }
    Some(carried)
}

/// A layout or pattern of one of the two problems as one of the other; none where it cannot be cut so there.
pub(super) fn carry(from: &Problem, to: &Problem, made: &Made) -> Option<Made> {
    let laid = |problem: &Problem, pattern: &Pattern| -> Vec<Laid> {
        problem.families[pattern.blank.family].widths[pattern.blank.width].laid.clone()
    };
    let pattern = |pattern: &Pattern, family: usize| {
        let mut moved = pattern.clone();
        moved.blank.family = family;
        let (here, there) = (laid(from, pattern), laid(to, &moved));
        for piece in &mut moved.pieces {
            piece.0 = there.iter().position(|laid| *laid == here[piece.0])?;
        }
        moved.pieces.sort_unstable();
        Some(moved)
    };
    match made {
        Made::Layout(layout) => {
            let cut = |(blank, _): (super::super::pattern::Blank, u32)| {
                !to.families[blank.family].widths[blank.width].laid.is_empty()
            };
            layout.blanks(to).all(cut).then(|| made.clone())
        }
        Made::Pattern(of) => Some(Made::Pattern(pattern(of, of.blank.family)?)),
        Made::OnHand(strip, of) => Some(Made::OnHand(*strip, pattern(of, to.on_hand[*strip].family)?)),
    }
}
