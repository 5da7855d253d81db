//! Sheets as the yard sees them: boards, rips and the cuts in order.
//!
//! Positions: `along` runs with the strips from the end that is squared first, `across` from the reference edge (the
//! factory edge the yard measures from).

use crate::length::Length;
use crate::solve::Direction;

/// Sheets that are cut alike, down to the panels.
#[derive(Clone, Debug, PartialEq)]
pub struct SheetGroup {
    /// Number of the first sheet of the group, from 1; the group's sheets are numbered on without gaps.
    pub number: u32,
    /// How many.
    pub count: u32,
    /// Index into `Job::sheets`.
    pub sheet: usize,
    /// The sheet kind's name.
    pub kind: String,
    /// Size of the sheet along its face grain.
    pub length: Length,
    /// Size across its face grain.
    pub width: Length,
    /// Lost at each factory edge and end.
    pub edge_trim: Length,
    /// Which way the strips run.
    pub direction: Direction,
    /// The pieces that are ripped; two after a breakdown crosscut, in the order along the strips.
    pub boards: Vec<Board>,
    /// The yard's cuts on one such sheet, in order; the last strip of a board that is used up needs none.
    pub cuts: Vec<YardCut>,
    /// How much of the sheet's ripped side the widest board needs, edge trims included.
    pub needs: Length,
    /// What that leaves of the sheet's stated size.
    pub leaves: Length,
    /// True where `leaves` is less than the sheet's tolerance: the slip says "measure first".
    pub measure_first: bool,
}

/// A piece that the yard rips: a whole sheet or a part of one.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Board {
    /// Where it begins along the strips.
    pub start: Length,
    /// Its extent along the strips.
    pub length: Length,
    /// True for the second board after a breakdown crosscut: its strips are squared at the factory end, which is the
    /// far one, so that a piece `along` its strip lies at `start + length - along - piece.length` on the sheet.
    pub from_far_end: bool,
    /// Its rips from the reference edge, in the order they are cut.
    pub rips: Vec<Rip>,
    /// Width that is left after the last rip's kerf, far edge trim included; zero if nothing is left.
    pub fall_off: Length,
}

/// One strip's place on a board.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Rip {
    /// Its near edge, from the sheet's reference edge.
    pub across: Length,
    /// Its width as asked.
    pub width: Length,
    /// Index into [`Plan::strips`](super::Plan::strips).
    pub strip: usize,
}

/// One cut at the yard.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum YardCut {
    /// The crosscut before ripping: the first board comes out this long.
    Breakdown {
        /// Length of the first board.
        at: Length,
    },
    /// The reference edge is trimmed by this much, blade included.
    EdgeTrim {
        /// Index into [`SheetGroup::boards`].
        board: usize,
        /// Taken off, blade included.
        off: Length,
    },
    /// A strip of this width comes off the reference edge.
    Rip {
        /// Index into [`SheetGroup::boards`].
        board: usize,
        /// Index into [`Board::rips`].
        rip: usize,
        /// Width of the strip.
        width: Length,
        /// Width that is left beyond the kerf.
        left: Length,
    },
}

/// Sheets that the yard cuts alike, whatever is crosscut from the strips later.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct YardGroup {
    /// Indices into [`Plan::sheets`](super::Plan::sheets); the first one's cuts hold for all.
    pub sheets: Vec<usize>,
    /// How many sheets in all.
    pub count: u32,
}
