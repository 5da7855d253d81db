//! The arithmetic of blades: what a strip or a board still has after its cuts.
//!
//! `n` pieces need `n - 1` kerfs where they use the stock up exactly, else `n`; a remainder thinner than a kerf is sawdust.

use crate::data::{Job, Sheet};
use crate::length::Length;
use crate::solve::Direction;

/// What a strip loses at its two ends, blades included.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Ends {
    /// At the end that is squared first.
    pub(super) first: Length,
    /// At the other end.
    pub(super) far: Length,
}

impl Ends {
    /// Of a strip that runs over a whole sheet, or over one of the two boards of a breakdown: there the inner end is a
    /// fresh cut and the factory end is squared.
    pub(super) fn of_sheet(job: &Job, sheet: &Sheet, whole: bool) -> Self {
        let far = if whole { sheet.edge_trim } else { Length::ZERO };
        Ends { first: job.saw.squaring.max(sheet.edge_trim), far }
    }

    /// Of a strip on hand.
    pub(super) fn on_hand(job: &Job) -> Self {
        Ends { first: job.saw.squaring, far: Length::ZERO }
    }
}

/// The sheet's extent along its strips and across them.
pub(super) fn extents(sheet: &Sheet, direction: Direction) -> (Length, Length) {
    match direction {
        Direction::Along => (sheet.length, sheet.width),
        Direction::Across => (sheet.width, sheet.length),
    }
}

/// What is left of `stock` after these pieces and the kerfs between them: below zero where they do not fit.
pub(super) fn slack(stock: Length, pieces: impl IntoIterator<Item = Length>, kerf: Length) -> Length {
    let left = pieces.into_iter().fold(stock + kerf, |left, piece| left - piece - kerf);
    left.min(stock)
}

/// What falls off after a last cut into so much slack: nothing where the blade eats it.
pub(super) fn fall_off(slack: Length, kerf: Length) -> Length {
    (slack - kerf).max(Length::ZERO)
}

/// The yard's cuts on a board with so many strips and so much slack: an untrimmed board that is used up saves the last
/// one, a trimmed one needs one more for the reference edge.
pub(super) fn board_cuts(strips: usize, slack: Length, edge_trim: Length) -> u32 {
    let strips = u32::try_from(strips).expect("a board has few strips");
    match (strips, edge_trim.is_positive(), slack.is_positive()) {
        (0, _, _) => 0,
        (_, true, _) => strips + 1,
        (_, false, true) => strips,
        (_, false, false) => strips - 1,
    }
}
