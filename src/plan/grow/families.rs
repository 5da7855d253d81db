//! Which sides grow as one: a side of all panel lines of the same size, and sides that share a strip untrimmed.

use crate::data::{Job, RipWidths};
use crate::length::Length;
use crate::model::sizes;
use crate::plan::sizes::Sizes;
use crate::solve::{PieceCut, Solved, StripCut};
use std::collections::BTreeMap;

/// Sides that grow as one.
#[derive(Clone, Debug)]
pub(super) struct Family {
    /// The sides: `2 * panel` for the width of a panel line, `2 * panel + 1` for its height.
    sides: Vec<usize>,
    /// Their size now.
    pub(super) size: Length,
    /// The largest they may become.
    pub(super) most: Length,
}

impl Family {
    /// Gives all its sides one size.
    pub(super) fn set(&self, sizes: &mut Sizes, size: Length) {
        for side in &self.sides {
            let sides = if side.is_multiple_of(2) { &mut sizes.widths } else { &mut sizes.heights };
            sides[side / 2] = size;
        }
    }

    /// Their size in these sizes.
    #[cfg(test)]
    pub(super) fn of(&self, sizes: &Sizes) -> Length {
        let sides = if self.sides[0].is_multiple_of(2) { &sizes.widths } else { &sizes.heights };
        sides[self.sides[0] / 2]
    }
}

/// All families, in the order of their first sides.
pub(super) fn families(job: &Job, solved: &Solved) -> Vec<Family> {
    let bounds = bounds(job, solved);
    let mut members: BTreeMap<usize, Vec<usize>> = BTreeMap::new();
    for (side, first) in kin(job, solved).into_iter().enumerate() {
        members.entry(first).or_default().push(side);
    }
    let family = |sides: Vec<usize>| {
        let size = sides.iter().map(|side| bounds[*side].0).max().expect("a family has sides");
        let most = sides.iter().map(|side| bounds[*side].1).min().expect("a family has sides");
        Family { sides, size, most }
    };
    members.into_values().map(family).collect()
}

/// For each side the first side of its family.
fn kin(job: &Job, solved: &Solved) -> Vec<usize> {
    let mut first: Vec<usize> = (0..2 * job.panels.len()).collect();
    let mut join = |a: usize, b: usize| {
        let (from, to) = (first[a].max(first[b]), first[a].min(first[b]));
        first.iter_mut().filter(|side| **side == from).for_each(|side| *side = to);
    };
    for (line, twin) in twins(job) {
        join(2 * line, 2 * twin);
        join(2 * line + 1, 2 * twin + 1);
    }
    for strip in ripped(solved) {
        let across: Vec<usize> = lying_across(&strip.pieces).collect();
        across.windows(2).for_each(|pair| join(pair[0], pair[1]));
    }
    first
}

/// Pairs of panel lines of the same size.
fn twins(job: &Job) -> Vec<(usize, usize)> {
    let sides = sizes::of(job);
    let size = |line: usize| {
        let (width, height) = (sides[line].width, sides[line].height);
        (width.least, width.most, height.least, height.most)
    };
    let lines = 0..job.panels.len();
    let twin = |line: usize| lines.clone().find(|other| size(*other) == size(line)).map(|first| (line, first));
    lines.clone().filter_map(twin).collect()
}

/// For each side its smallest and its largest size in this answer. A side that sets a strip's width stays so far under
/// its nominal size that a strip cut too wide, within the yard's tolerance, is not over it; it is fixed where the yard
/// cuts only certain widths. A side across a strip on hand grows no wider than that.
fn bounds(job: &Job, solved: &Solved) -> Vec<(Length, Length)> {
    let both = sizes::of(job).into_iter().flat_map(|panel| [panel.width, panel.height]);
    let nominal =
        |side: usize| if side.is_multiple_of(2) { job.panels[side / 2].width } else { job.panels[side / 2].height };
    let mut bounds: Vec<(Length, Length)> = both.map(|side| (side.least, side.most)).collect();
    for strip in ripped(solved) {
        for side in lying_across(&strip.pieces) {
            let (least, most) = bounds[side];
            let fixed = job.yard.rip_widths != RipWidths::Any;
            bounds[side].1 = if fixed { least } else { most.min(nominal(side) - job.yard.tolerance * 2).max(least) };
        }
    }
    for used in &solved.on_hand {
        for side in lying_across(&used.pieces) {
            let (least, most) = bounds[side];
            bounds[side].1 = most.min(job.strips[used.strip].width).max(least);
        }
    }
    bounds
}

fn ripped(solved: &Solved) -> impl Iterator<Item = &StripCut> {
    solved.sheets.iter().flat_map(|used| &used.boards).flat_map(|board| &board.strips)
}

/// The sides that lie across a strip and come out as wide as it is.
fn lying_across(pieces: &[PieceCut]) -> impl Iterator<Item = usize> {
    pieces.iter().filter(|piece| !piece.trimmed).map(|piece| 2 * piece.panel + usize::from(piece.turned))
}
