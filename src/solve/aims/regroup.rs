//! The same strips from the same number of sheets with fewer different layouts: strips of one width are all alike to
//! the yard, so they may change places among the sheets of a kind. An exact search, within so many looks.

use super::super::draft::Draft;
use super::super::layout::{Board, Layout};
use super::{Held, count};
use crate::model::{Problem, Ripping};
use std::collections::BTreeMap;

/// Most boards, whole or begun, that are looked at for one way to rip and one number of layouts.
const LOOKS: usize = 50_000;

/// A board's strips of each width, and how many boards are like it.
type Alike = (Vec<u32>, u32);

/// The draft with the fewest layouts that give the same strips at no more than the cost held and no less worth.
pub(super) fn regroup(problem: &Problem, draft: &Draft, held: Held) -> Draft {
    let mut draft = draft.clone();
    for index in 0..problem.rippings.len() {
        let of = draft.layouts.iter().filter(|(layout, _)| layout.ripping == index);
        let of: BTreeMap<Layout, u32> = of.map(|(layout, copies)| (layout.clone(), *copies)).collect();
        if of.len() < 2 || of.keys().any(Layout::is_broken) {
            continue;
        }
        // What can be had with so many layouts can be had with one more, so the first that fails is the last. Those found
        // may be fewer than were asked for, two of them being alike.
        let mut kinds = of.len() - 1;
        while kinds > 0 {
            let Some(better) = Regroup::new(problem, &draft, index, &of, held).into(kinds) else { break };
            kinds = better.layouts.keys().filter(|layout| layout.ripping == index).count() - 1;
            draft = better;
        }
    }
    draft
}

/// Sheets that are to be ripped alike.
struct Like<'a> {
    /// The strips left, of each width.
    strips: &'a [u32],
    /// The sheets left, those of them ripped alike, and the layouts of all that are left.
    sheets: u32,
    copies: u32,
    kinds: usize,
    /// What a strip of each width takes of a board's room.
    sizes: Vec<i64>,
    /// The room that all strips from this width on can take of the board.
    most: Vec<i64>,
    /// The room that the board must take for the rest to fit the other sheets.
    least: i64,
}

impl<'a> Like<'a> {
    fn new(regroup: &Regroup, strips: &'a [u32], (sheets, copies, kinds): (u32, u32, usize)) -> Like<'a> {
        let sizes: Vec<i64> = regroup.sizes().collect();
        let mut most = vec![0; sizes.len() + 1];
        for at in (0..sizes.len()).rev() {
            most[at] = most[at + 1] + sizes[at] * i64::from(strips[at] / copies);
        }
        let over = regroup.needs(strips) - regroup.room() * i64::from(sheets - copies);
        let least = -(-over).div_euclid(i64::from(copies));
        Like { strips, sheets, copies, kinds, sizes, most, least }
    }
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
        // Wide strips first: they leave the fewest choices.
        let (widths, strips) = strips.into_iter().rev().unzip();
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
            let like = Like::new(self, strips, (sheets, copies, kinds));
            let found = self.boards(&like, &mut Vec::new(), 0, chosen);
            if found.is_some() {
                return found;
            }
        }
        None
    }

    /// Tries every board that so many sheets can share, and splits the rest; `used` is the room that the board takes.
    fn boards(&mut self, like: &Like, board: &mut Vec<u32>, used: i64, chosen: &mut Vec<Alike>) -> Option<Draft> {
        let at = board.len();
        if used + like.most[at] < like.least {
            return None;
        }
        self.looks = self.looks.checked_sub(1)?;
        if let Some(size) = like.sizes.get(at) {
            let fit = u32::try_from((self.room() - used) / size).unwrap_or(u32::MAX);
            for each in (0..=fit.min(like.strips[at] / like.copies)).rev() {
                board.push(each);
                let found = self.boards(like, board, used + size * i64::from(each), chosen);
                board.pop();
                if found.is_some() {
                    return found;
                }
            }
            return None;
        }
        if board.iter().all(|each| *each == 0) {
            return None;
        }
        let rest: Vec<u32> = like.strips.iter().zip(&*board).map(|(count, each)| count - each * like.copies).collect();
        chosen.push((board.clone(), like.copies));
        let found = self.split(&rest, like.sheets - like.copies, like.kinds - 1, chosen);
        chosen.pop();
        found
    }

    fn room(&self) -> i64 {
        (self.ripping.room + self.ripping.kerf).raw()
    }

    fn needs(&self, strips: &[u32]) -> i64 {
        self.sizes().zip(strips).map(|(size, count)| size * i64::from(*count)).sum()
    }

    /// What a strip of each width takes of a board's room.
    fn sizes(&self) -> impl Iterator<Item = i64> + '_ {
        let widths = &self.problem.families[self.ripping.family].widths;
        self.widths.iter().map(|width| (widths[*width].width + self.ripping.kerf).raw())
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
        let strips =
            self.widths.iter().copied().zip(board.iter().copied()).filter(|(_, each)| *each > 0).rev().collect();
        Layout { ripping: self.index, boards: vec![Board { length: self.ripping.board.raw(), strips }] }
    }
}
