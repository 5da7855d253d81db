//! From whole numbers of layouts and patterns to sheets with strips with panels: strips that nothing is cut from are
//! left out, panels that nobody asked for are not cut, sheets that come out alike are counted together.

use super::aims::start;
use super::draft::Draft;
use super::layout::Layout;
use super::pattern::{Blank, Pattern};
use super::{BoardUse, Direction, PieceCut, SheetUse, StripCut, StripUse};
use crate::length::Length;
use crate::model::Problem;
use std::collections::BTreeMap;

/// Panels still to be handed out to the lines of the job.
struct Lines<'a> {
    problem: &'a Problem,
    /// For each size, (line, panels still wanted, whether they are extras).
    left: Vec<Vec<(usize, u32, bool)>>,
}

impl<'a> Lines<'a> {
    fn new(problem: &'a Problem, counts: &[u32]) -> Lines<'a> {
        let of = |size: &crate::model::Size| {
            let wanted = size.lines.iter().map(|line| (*line, counts[*line], false));
            wanted.chain(size.wishes.iter().map(|wish| (wish.line, wish.most, true))).collect()
        };
        Lines { problem, left: problem.sizes.iter().map(of).collect() }
    }

    /// One panel asked for of this size, so that a strip is not started for extra panels alone.
    fn asked_for(&mut self, size: usize) -> Option<(usize, bool)> {
        let line = self.left[size].iter_mut().find(|(_, left, extra)| *left > 0 && !extra)?;
        line.1 -= 1;
        Some((line.0, line.2))
    }

    /// The next panel of a size.
    fn next(&mut self, size: usize) -> Option<(usize, bool)> {
        let line = self.left[size].iter_mut().find(|(_, left, _)| *left > 0)?;
        line.1 -= 1;
        Some((line.0, line.2))
    }

    /// The pieces of a pattern that somebody wants, one of them handed out before; long pieces are handed out first, so
    /// that the hand keeps hold.
    fn pieces(&mut self, pattern: &Pattern, mut first: Option<(usize, (usize, bool))>) -> Vec<PieceCut> {
        let laid = &self.problem.families[pattern.blank.family].widths[pattern.blank.width].laid;
        let mut order = pattern.pieces.clone();
        order.sort_by_key(|(at, _)| std::cmp::Reverse(laid[*at].along));
        let mut pieces = Vec::new();
        for (at, copies) in order {
            let laid = laid[at];
            for _ in 0..copies {
                let before = first.take_if(|(size, _)| *size == laid.size).map(|(_, line)| line);
                let Some((panel, extra)) = before.or_else(|| self.next(laid.size)) else { break };
                pieces.push(PieceCut { panel, turned: laid.turned, trimmed: laid.trimmed, extra });
            }
        }
        pieces.sort_unstable();
        pieces
    }
}

/// The sheets and the strips on hand of a plan, for a job that wants so many panels of each line.
pub(super) fn answer(problem: &Problem, counts: &[u32], draft: &Draft) -> (Vec<SheetUse>, Vec<StripUse>) {
    let mut lines = Lines::new(problem, counts);
    let mut on_hand: BTreeMap<(usize, Vec<PieceCut>), u32> = BTreeMap::new();
    let mut asked: Vec<u32> = problem.sizes.iter().map(|size| size.count).collect();
    let whole = draft.on_hand.iter().flat_map(|(used, copies)| std::iter::repeat_n(used, *copies as usize));
    let started: Vec<_> = whole
        .map(|(strip, pattern)| {
            let size = start(problem, pattern, &mut asked);
            (strip, pattern, size.and_then(|size| Some((size, lines.asked_for(size)?))))
        })
        .collect();
    for (strip, pattern, first) in started {
        let pieces = lines.pieces(pattern, first);
        if !pieces.is_empty() {
            *on_hand.entry((problem.on_hand[*strip].strip, pieces)).or_default() += 1;
        }
    }
    let mut strips: BTreeMap<Blank, Vec<Vec<PieceCut>>> = BTreeMap::new();
    for (pattern, copies) in &draft.patterns {
        for _ in 0..*copies {
            let pieces = lines.pieces(pattern, None);
            if !pieces.is_empty() {
                strips.entry(pattern.blank).or_default().push(pieces);
            }
        }
    }
    let on_hand = on_hand.into_iter().map(|((strip, pieces), count)| StripUse { strip, count, pieces }).collect();
    (sheets(problem, draft, strips), on_hand)
}

/// Hands the cut strips to the layouts that give them.
fn sheets(problem: &Problem, draft: &Draft, mut strips: BTreeMap<Blank, Vec<Vec<PieceCut>>>) -> Vec<SheetUse> {
    for pieces in strips.values_mut() {
        pieces.sort_unstable();
        pieces.reverse();
    }
    let mut sheets: BTreeMap<SheetUse, u32> = BTreeMap::new();
    for (layout, copies) in &draft.layouts {
        for _ in 0..*copies {
            let sheet = sheet(problem, layout, &mut strips);
            if sheet.boards.iter().any(|board| !board.strips.is_empty()) {
                *sheets.entry(sheet).or_default() += 1;
            }
        }
    }
    let mut sheets: Vec<SheetUse> = sheets.into_iter().map(|(sheet, count)| SheetUse { count, ..sheet }).collect();
    sheets.sort_by(|a, b| b.count.cmp(&a.count).then_with(|| a.cmp(b)));
    sheets
}

fn sheet(problem: &Problem, layout: &Layout, strips: &mut BTreeMap<Blank, Vec<Vec<PieceCut>>>) -> SheetUse {
    let ripping = &problem.rippings[layout.ripping];
    let mut cut = |board: &super::layout::Board| {
        let mut cut = Vec::new();
        for (width, copies) in &board.strips {
            let blank = super::layout::blank(ripping, board.length, *width);
            let width = problem.families[ripping.family].widths[*width].width;
            let given = strips.entry(blank).or_default();
            let kept = given.len().saturating_sub(*copies as usize);
            cut.extend(given.drain(kept..).rev().map(|pieces| StripCut { width, pieces }));
        }
        cut.sort_unstable();
        BoardUse { length: Length::from_raw(board.length), strips: cut }
    };
    let boards = layout.boards.iter().map(&mut cut).collect();
    let direction = if ripping.along { Direction::Along } else { Direction::Across };
    SheetUse { sheet: ripping.sheet, direction, boards, count: 0 }
}
