//! Layouts: the strips ripped from one sheet.

use super::pattern::Blank;
use crate::length::Length;
use crate::model::{Problem, Ripping};

/// One board and its strips: (index into the family's widths, copies), ascending, copies above zero.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub(super) struct Board {
    /// Its extent along its strips, in raw units.
    pub length: i64,
    /// Its strips.
    pub strips: Vec<(usize, u32)>,
}

/// The strips ripped from one sheet.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub(super) struct Layout {
    /// Index into `Problem::rippings`.
    pub ripping: usize,
    /// The whole sheet, or the two boards of a breakdown.
    pub boards: Vec<Board>,
}

impl Layout {
    /// The strips that it gives, with their copies.
    pub(super) fn blanks<'a>(&'a self, problem: &'a Problem) -> impl Iterator<Item = (Blank, u32)> + 'a {
        let ripping = &problem.rippings[self.ripping];
        self.boards.iter().flat_map(move |board| {
            board.strips.iter().map(move |(width, copies)| (blank(ripping, board.length, *width), *copies))
        })
    }

    /// The same layout with one strip fewer; none where it gives no such strip.
    pub(super) fn without(&self, problem: &Problem, spare: Blank) -> Option<Layout> {
        let ripping = &problem.rippings[self.ripping];
        let mut leaner = self.clone();
        for board in &mut leaner.boards {
            let length = board.length;
            let strip = board.strips.iter_mut().find(|(width, _)| blank(ripping, length, *width) == spare);
            if let Some(strip) = strip {
                strip.1 -= 1;
                board.strips.retain(|(_, copies)| *copies > 0);
                return Some(leaner);
            }
        }
        None
    }

    /// Whether a breakdown crosscut makes two boards of the sheet.
    pub(super) fn is_broken(&self) -> bool {
        self.boards.len() > 1
    }

    /// The yard's cuts on the sheet.
    pub(super) fn cuts(&self, problem: &Problem) -> u32 {
        let ripping = &problem.rippings[self.ripping];
        let breakdown = u32::from(self.is_broken());
        breakdown + self.boards.iter().map(|board| board.cuts(problem, ripping)).sum::<u32>()
    }

    /// What it costs in units: the sheet, and its cuts where free cuts are counted by the sheet.
    pub(super) fn cost(&self, problem: &Problem) -> i64 {
        let sheet = problem.rippings[self.ripping].sheet;
        problem.charges.sheets[sheet] + problem.charges.of_cuts(self.cuts(problem))
    }
}

impl Board {
    fn strips(&self) -> u32 {
        self.strips.iter().map(|(_, copies)| copies).sum()
    }

    /// The room beside its strips and the kerfs between them, in raw units.
    pub(super) fn spare(&self, problem: &Problem, ripping: &Ripping) -> i64 {
        let widths = &problem.families[ripping.family].widths;
        let used = |(width, copies): &(usize, u32)| (widths[*width].width + ripping.kerf).raw() * i64::from(*copies);
        (ripping.room + ripping.kerf).raw() - self.strips.iter().map(used).sum::<i64>()
    }

    /// The yard's cuts on the board.
    pub(super) fn cuts(&self, problem: &Problem, ripping: &Ripping) -> u32 {
        ripping.cuts(self.strips(), Length::from_raw(self.spare(problem, ripping)))
    }

    /// The yard's cuts on the board with one more strip, which leaves so much of its room.
    pub(super) fn cuts_with_one_more(&self, ripping: &Ripping, spare: i64) -> u32 {
        ripping.cuts(self.strips() + 1, Length::from_raw(spare))
    }
}

/// The blank of a strip of this width ripped from a board of this length.
pub(super) fn blank(ripping: &Ripping, board: i64, width: usize) -> Blank {
    let length = Length::from_raw(board);
    let (usable, stub) = (ripping.usable(length).raw(), ripping.stub(length).raw());
    Blank { family: ripping.family, width, usable, stub }
}
