//! Rectangles side by side on a board in shelves, first fit: for stacks under a press and in a box, where a good
//! arrangement is enough and none is claimed to be the best.

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

/// A board that fills up shelf by shelf, each shelf running along its length.
#[derive(Clone, Debug)]
pub struct Shelves {
    length: Length,
    width: Length,
    gap: Length,
    rows: Vec<Shelf>,
}

#[derive(Clone, Copy, Debug)]
struct Shelf {
    across: Length,
    depth: Length,
    filled: Length,
}

impl Shelves {
    /// An empty board; rectangles keep `gap` between each other.
    pub fn new(length: Length, width: Length, gap: Length) -> Self {
        Shelves { length, width, gap, rows: Vec::new() }
    }

    /// Puts a rectangle down, either way round, on the first shelf that takes it or else on a new one.
    pub fn place(&mut self, a: Length, b: Length) -> Option<Spot> {
        let ways = [(a.max(b), a.min(b)), (a.min(b), a.max(b))];
        for index in 0..self.rows.len() {
            if let Some(spot) = ways.iter().find_map(|way| self.on_shelf(index, *way)) {
                return Some(spot);
            }
        }
        let way = ways.into_iter().find(|way| self.opens(*way))?;
        let across = self.next_across();
        self.rows.push(Shelf { across, depth: way.1, filled: way.0 });
        Some(Spot { along: Length::ZERO, across, length: way.0, width: way.1 })
    }

    fn on_shelf(&mut self, index: usize, (length, width): (Length, Length)) -> Option<Spot> {
        let shelf = &mut self.rows[index];
        let along = shelf.filled + self.gap;
        if width > shelf.depth || along + length > self.length {
            return None;
        }
        shelf.filled = along + length;
        Some(Spot { along, across: shelf.across, length, width })
    }

    fn opens(&self, (length, width): (Length, Length)) -> bool {
        length <= self.length && self.next_across() + width <= self.width
    }

    fn next_across(&self) -> Length {
        self.rows.last().map_or(Length::ZERO, |shelf| shelf.across + shelf.depth + self.gap)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn four_12_by_16_stacks_lie_on_a_24_by_32_board_and_not_a_fifth() {
        let mut board = Shelves::new(Length::inches(32), Length::inches(24), Length::ZERO);
        for _ in 0..4 {
            assert!(board.place(Length::inches(12), Length::inches(16)).is_some());
        }
        assert_eq!(board.place(Length::inches(12), Length::inches(16)), None);
    }

    #[test]
    fn a_gap_is_kept_between_stacks() {
        let mut board = Shelves::new(Length::inches(32), Length::inches(12), Length::inches(1));
        assert!(board.place(Length::inches(12), Length::inches(16)).is_some());
        assert_eq!(board.place(Length::inches(12), Length::inches(16)), None, "16 + 1 + 16 is more than 32");
        let spot = board.place(Length::inches(12), Length::inches(15)).unwrap();
        assert_eq!(spot.along, Length::inches(17));
    }
}
