//! Rectangles side by side on a board, for stacks under a press and in a box: each goes where it fits best by a simple
//! rule, into one of the largest free rectangles that are left. A good arrangement is enough here, and none is claimed
//! to be the best.

use crate::length::Length;

/// Where a rectangle lies on the board.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Spot {
    /// From the board's left end, along its length.
    pub along: Length,
    /// From its near edge, across its length.
    pub across: Length,
    /// Extent along the board's length.
    pub length: Length,
    /// Extent across it.
    pub width: Length,
}

/// Which of the free places is the best.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fit {
    /// Where the least is left over beside it, the shorter way first.
    Snug,
    /// As near to the near edge as it can lie, then as far left.
    Near,
}

impl Fit {
    /// Both rules, for those who try all.
    pub const ALL: [Fit; 2] = [Fit::Snug, Fit::Near];
}

/// A board that fills up.
#[derive(Clone, Debug)]
pub struct Board {
    gap: Length,
    fit: Fit,
    /// The largest rectangles that are still free, which may overlap; each with a gap beyond its far edges.
    free: Vec<Spot>,
}

impl Board {
    /// An empty board; rectangles keep `gap` between each other.
    pub fn new(length: Length, width: Length, gap: Length, fit: Fit) -> Self {
        let whole = Spot { along: Length::ZERO, across: Length::ZERO, length: length + gap, width: width + gap };
        Board { gap, fit, free: vec![whole] }
    }

    /// Puts a rectangle down, either way round, where it fits best.
    pub fn place(&mut self, a: Length, b: Length) -> Option<Spot> {
        let ways = [(a.max(b) + self.gap, a.min(b) + self.gap), (a.min(b) + self.gap, a.max(b) + self.gap)];
        let places = self.free.iter().flat_map(|free| ways.iter().filter_map(|way| self.in_corner(free, *way)));
        let (_, taken) = places.min_by_key(|(score, _)| *score)?;
        self.take(&taken);
        Some(Spot { length: taken.length - self.gap, width: taken.width - self.gap, ..taken })
    }

    /// The near left corner of a free rectangle, if it takes this size, and how good a place that is.
    fn in_corner(&self, free: &Spot, (length, width): (Length, Length)) -> Option<((Length, Length), Spot)> {
        let left = (free.length - length, free.width - width);
        let fits = left.0 >= Length::ZERO && left.1 >= Length::ZERO;
        let score = match self.fit {
            Fit::Snug => (left.0.min(left.1), left.0.max(left.1)),
            Fit::Near => (free.across + width, free.along),
        };
        fits.then_some((score, Spot { length, width, ..*free }))
    }

    /// What is free beside a rectangle that was put down: the largest rectangles, none inside another.
    fn take(&mut self, taken: &Spot) {
        let mut left: Vec<Spot> = self.free.iter().flat_map(|free| beside(free, taken)).collect();
        left.sort_by_key(|spot| (spot.across, spot.along, spot.length, spot.width));
        left.dedup();
        let inner = |at: usize| left.iter().enumerate().any(|(other, outer)| other != at && inside(&left[at], outer));
        self.free = (0..left.len()).filter(|at| !inner(*at)).map(|at| left[at]).collect();
    }
}

/// The parts of a free rectangle that a taken one leaves: up to four, or all of it where they do not meet.
fn beside(free: &Spot, taken: &Spot) -> Vec<Spot> {
    let (right, far) = (free.along + free.length, free.across + free.width);
    let (taken_right, taken_far) = (taken.along + taken.length, taken.across + taken.width);
    if taken.along >= right || taken_right <= free.along || taken.across >= far || taken_far <= free.across {
        return vec![*free];
    }
    let parts = [
        Spot { along: taken_right, length: right - taken_right, ..*free },
        Spot { length: taken.along - free.along, ..*free },
        Spot { across: taken_far, width: far - taken_far, ..*free },
        Spot { width: taken.across - free.across, ..*free },
    ];
    parts.into_iter().filter(|part| part.length.is_positive() && part.width.is_positive()).collect()
}

fn inside(inner: &Spot, outer: &Spot) -> bool {
    inner.along >= outer.along
        && inner.across >= outer.across
        && inner.along + inner.length <= outer.along + outer.length
        && inner.across + inner.width <= outer.across + outer.width
}

#[cfg(test)]
mod tests {
    use super::*;

    fn board(length: i64, width: i64, gap: i64) -> Board {
        Board::new(Length::inches(length), Length::inches(width), Length::inches(gap), Fit::Snug)
    }

    #[test]
    fn four_12_by_16_stacks_lie_on_a_24_by_32_board_and_not_a_fifth() {
        let placed = |fit| {
            let mut board = Board::new(Length::inches(32), Length::inches(24), Length::ZERO, fit);
            (0..5).filter(|_| board.place(Length::inches(12), Length::inches(16)).is_some()).count()
        };
        // The snug rule turns the first stack, which leaves 8 in. that no other takes; the near rule does not.
        assert_eq!(Fit::ALL.map(placed), [3, 4]);
    }

    #[test]
    fn a_gap_is_kept_between_stacks() {
        let mut board = board(32, 12, 1);
        assert!(board.place(Length::inches(12), Length::inches(16)).is_some());
        assert_eq!(board.place(Length::inches(12), Length::inches(16)), None, "16 + 1 + 16 is more than 32");
        let spot = board.place(Length::inches(12), Length::inches(15)).unwrap();
        assert_eq!(spot.along, Length::inches(17));
    }

    #[test]
    fn beside_a_9_by_12_there_is_room_for_four_of_6_by_6_in_a_22_by_14_bag() {
        // 12 + 2 deep, 9 + 6 + 6 = 21 of 22 in. long.
        let mut board = board(22, 14, 0);
        assert!(board.place(Length::inches(9), Length::inches(12)).is_some());
        for _ in 0..4 {
            assert!(board.place(Length::inches(6), Length::inches(6)).is_some());
        }
        assert_eq!(board.place(Length::inches(6), Length::inches(6)), None);
    }
}
