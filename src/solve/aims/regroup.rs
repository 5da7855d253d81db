//! The same strips from the same number of sheets with fewer different layouts: strips of one width are all alike to
//! the yard, so they may change places among the sheets of a kind. An exact search, within so many looks.

use super::super::draft::Draft;
use super::super::layout::{Board, Layout};
use super::{Held, count};
use crate::model::{Problem, Ripping};
use std::collections::BTreeMap;

/// Most boards that are looked at for one way to rip.
const LOOKS: usize = 20_000;

/// A board's strips of each width, and how many boards are like it.
type Alike = (Vec<u32>, u32);

/// The draft with the fewest layouts that give the same strips at no more than the cost held and no less worth.
pub(super) fn regroup(problem: &Problem, draft: &Draft, held: Held) -> Draft {
    let mut draft = draft.clone();
    for index in 0..problem.rippings.len() {
        let of = draft.layouts.iter().filter(|(layout, _)| layout.ripping == index);
        let of: BTreeMap<Layout, u32> = of.map(|(layout, copies)| (layout.clone(), *copies)).collect();
        if of.len() < 2 || of.keys().any(|layout| layout.boards.len() > 1) {
            continue;
        }
        for kinds in 1..of.len() {
            if let Some(better) = Regroup::new(problem, &draft, index, &of, held).into(kinds) {
                draft = better;
                break;
            }
        }
    }
    draft
}

struct Regroup<'a> {
    problem: &'a Problem,
    draft: &'a Draft,
    held: Held,
    index: usize,
    ripping: &'a Ripping,
    /// The widths in use, as indices into the family's, and the strips of each.
    widths: Vec<usize>,
    strips: Vec<u32>,
    sheets: u32,
    looks: usize,
}

impl<'a> Regroup<'a> {
    fn new(problem: &'a Problem, draft: &'a Draft, index: usize, of: &BTreeMap<Layout, u32>, held: Held) -> Self {
        let mut strips: BTreeMap<usize, u32> = BTreeMap::new();
        for (layout, copies) in of {
            for (width, each) in &layout.boards[0].strips {
                *strips.entry(*width).or_default() += each * copies;
            }
        }
        let sheets = of.values().sum();
        let (widths, strips) = strips.into_iter().unzip();
        let ripping = &problem.rippings[index];
        Regroup { problem, draft, held, index, ripping, widths, strips, sheets, looks: LOOKS }
    }

    /// The draft with just so many layouts of this way to rip.
    fn into(mut self, kinds: usize) -> Option<Draft> {
        let (strips, sheets) = (self.strips.clone(), self.sheets);
        self.split(&strips, sheets, kinds, &mut Vec::new())
    }

    /// Splits strips among sheets of so many kinds, the kind with most sheets first.
    fn split(&mut self, strips: &[u32], sheets: u32, kinds: usize, chosen: &mut Vec<Alike>) -> Option<Draft> {
        if kinds == 1 {
            if strips.iter().any(|count| !count.is_multiple_of(sheets)) {
                return None;
            }
            let board: Vec<u32> = strips.iter().map(|count| count / sheets).collect();
            chosen.push((board, sheets));
            let draft = self.accept(chosen);
            chosen.pop();
            return draft;
        }
        let others = u32::try_from(kinds).expect("kinds are few") - 1;
        let most = chosen.last().map_or(sheets, |(_, copies)| *copies).min(sheets.checked_sub(others)?);
        for copies in (sheets.div_ceil(others + 1)..=most).rev() {
            let found = self.boards(strips, (sheets, copies, kinds), &mut Vec::new(), chosen);
            if found.is_some() {
                return found;
            }
        }
        None
    }

    /// Tries every board that so many sheets can share, and splits the rest.
    fn boards(
        &mut self,
        strips: &[u32],
        (sheets, copies, kinds): (u32, u32, usize),
        board: &mut Vec<u32>,
        chosen: &mut Vec<Alike>,
    ) -> Option<Draft> {
        let at = board.len();
        if at < strips.len() {
            for each in (0..=strips[at] / copies).rev() {
                board.push(each);
                let found =
                    if self.fits(board) { self.boards(strips, (sheets, copies, kinds), board, chosen) } else { None };
                board.pop();
                if found.is_some() {
                    return found;
                }
            }
            return None;
        }
        self.looks = self.looks.checked_sub(1)?;
        let rest: Vec<u32> = strips.iter().zip(&*board).map(|(count, each)| count - each * copies).collect();
        if board.iter().all(|each| *each == 0) || self.needs(&rest) > self.room() * i64::from(sheets - copies) {
            return None;
        }
        chosen.push((board.clone(), copies));
        let found = self.split(&rest, sheets - copies, kinds - 1, chosen);
        chosen.pop();
        found
    }

    fn room(&self) -> i64 {
        (self.ripping.room + self.ripping.kerf).raw()
    }

    fn needs(&self, strips: &[u32]) -> i64 {
        let widths = &self.problem.families[self.ripping.family].widths;
        let each =
            |(width, count): (&usize, &u32)| (widths[*width].width + self.ripping.kerf).raw() * i64::from(*count);
        self.widths.iter().zip(strips).map(each).sum()
    }

    fn fits(&self, board: &[u32]) -> bool {
        self.needs(board) <= self.room()
    }

    /// The draft with these layouts, if it holds what must be held.
    fn accept(&self, chosen: &[Alike]) -> Option<Draft> {
        if !chosen.iter().all(|(board, _)| self.fits(board) && board.iter().any(|each| *each > 0)) {
            return None;
        }
        let mut draft = self.draft.clone();
        draft.layouts.retain(|layout, _| layout.ripping != self.index);
        for (board, copies) in chosen {
            *draft.layouts.entry(self.layout(board)).or_default() += copies;
        }
        let cuts =
            |layout: &Layout| self.problem.charges.most_cuts.is_none_or(|most| layout.cuts(self.problem) <= most);
        let fewer = count::layouts(self.problem, &draft) < count::layouts(self.problem, self.draft);
        (fewer && draft.layouts.keys().all(cuts) && self.held.by(self.problem, &draft)).then_some(draft)
    }

    fn layout(&self, board: &[u32]) -> Layout {
        let strips = self.widths.iter().copied().zip(board.iter().copied()).filter(|(_, each)| *each > 0).collect();
        Layout { ripping: self.index, boards: vec![Board { length: self.ripping.board.raw(), strips }] }
    }
}
