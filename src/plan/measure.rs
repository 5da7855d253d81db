//! The arithmetic of blades: what a strip or a board still has after its cuts.
//!
//! `n` pieces need `n - 1` kerfs where they use the stock up exactly, else `n`; a remainder thinner than a kerf is
//! sawdust.

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

#[cfg(test)]
mod tests {
    use super::{fall_off, slack};
    use crate::length::{Length, Unit};

    fn len(text: &str) -> Length {
        Length::parse(text, Unit::In).expect("a length")
    }

    /// How many pieces come out of a stock, and what is left after the last kerf.
    fn pieces(stock: &str, piece: &str, kerf: &str) -> (usize, Length) {
        let left = |count: usize| slack(len(stock), std::iter::repeat_n(len(piece), count), len(kerf));
        let most = (0..100).take_while(|count| left(*count) >= Length::ZERO).last().expect("none always fit");
        (most, fall_off(left(most), len(kerf)))
    }

    #[test]
    fn equal_pieces_from_a_sheet_come_out_as_the_arithmetic_says() {
        // Arithmetic: pieces of p from stock L at kerf k are floor((L + k) / (p + k)).
        let table = [
            ("48", "12", "1/8", 3, "11 5/8"),
            ("48", "8", "1/8", 5, "7 3/8"),
            ("48", "6", "1/8", 7, "5 1/8"),
            ("48", "9", "1/8", 5, "2 3/8"),
            ("96", "12", "1/8", 7, "11 1/8"),
            ("96", "10", "1/8", 9, "4 7/8"),
            ("96", "8", "1/8", 11, "6 5/8"),
            ("96", "16", "1/8", 5, "15 3/8"),
            ("96", "20", "1/8", 4, "15 1/2"),
            ("96", "12", "3/32", 7, "11 11/32"),
            ("48", "11 7/8", "1/8", 4, "0"),
        ];
        for (stock, piece, kerf, count, left) in table {
            assert_eq!(pieces(stock, piece, kerf), (count, len(left)), "{piece} from {stock} at {kerf}");
        }
    }

    #[test]
    fn the_largest_equal_pieces_use_the_stock_up_and_save_the_last_kerf() {
        // Arithmetic: (L + k) / n - k. 48 in four: 11 29/32; in five: 9 1/2. 96 in eight: 11 57/64.
        for (stock, piece, count) in [("48", "11 29/32", 4), ("48", "9 1/2", 5), ("96", "11 57/64", 8)] {
            assert_eq!(slack(len(stock), std::iter::repeat_n(len(piece), count), len("1/8")), Length::ZERO);
        }
    }

    #[test]
    fn a_remainder_thinner_than_the_kerf_is_sawdust() {
        // 6 x 15 7/8 + 5 x 1/8 = 95 7/8 of 96: the last blade takes the 1/8 in. that is left.
        let left = slack(len("96"), std::iter::repeat_n(len("15 7/8"), 6), len("1/8"));
        assert_eq!((left, fall_off(left, len("1/8"))), (len("1/8"), Length::ZERO));
    }
}
