//! Solved jobs put together by hand, so that a plan can be checked without the solver.

pub(crate) use crate::jobs::len;

use yardslip::data::Cents;
use yardslip::solve::{BoardUse, Direction, PieceCut, Proof, SheetUse, Solved, StripCut};

/// An untrimmed panel of a line.
pub(crate) fn piece(panel: usize, turned: bool) -> PieceCut {
    PieceCut { panel, turned, trimmed: false, extra: false }
}

/// A strip of this width.
pub(crate) fn strip(width: &str, pieces: Vec<PieceCut>) -> StripCut {
    StripCut { width: len(width), pieces }
}

/// A board of this length.
pub(crate) fn board(length: &str, strips: Vec<StripCut>) -> BoardUse {
    BoardUse { length: len(length), strips }
}

/// So many sheets of a kind, cut alike.
pub(crate) fn sheets(sheet: usize, direction: Direction, boards: Vec<BoardUse>, count: u32) -> SheetUse {
    SheetUse { sheet, direction, boards, count }
}

/// An answer of these sheets, proved at this cost.
pub(crate) fn solved(sheets: Vec<SheetUse>, cents: i64) -> Solved {
    let cost = Cents(cents);
    Solved { sheets, on_hand: Vec::new(), cost, proof: Proof { proved: true, bound: cost }, levels: Vec::new() }
}
