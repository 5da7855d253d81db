//! The best way to fill a length with pieces of which there is no end: one table of what pieces that take up just so
//! much are worth, so that pricing, which asks for nothing else, stays quick. Whatever is left over is worth its tail.
//! Kerfs as in [`super::knapsack`]; pieces are counted where that is asked for, or where it makes the table smaller
//! ([`super::grid`]).

use super::cell::{Cell, any_number, better, cell, slack};
use super::grid::Grid;
use super::knapsack::{Filling, NEVER};
use super::tail::Tail;

/// A piece: its length and one kerf, in raw units, and what one is worth.
pub(super) type Piece = (i64, i64);

/// For each number of pieces, or for any, and each length that they take up: the most that they can be worth.
pub(super) struct Filled {
    pieces: Vec<Piece>,
    /// Columns that each piece takes up.
    steps: Vec<usize>,
    grid: Grid,
    room: i64,
    columns: usize,
    counted: bool,
    /// A row for each number of pieces, or one for any.
    table: Vec<Cell>,
    /// The most of each row.
    peaks: Vec<Cell>,
    /// By how much rounding may have made the table promise too little.
    slack: Cell,
}

impl Filled {
    /// The table for rooms up to `room`, pieces counted up to `most` if need be; none where lengths are too fine for
    /// it, or values and tails worth no more than `tail` too large to be exact in it: what it gives is the best there is.
    pub(super) fn new(pieces: &[Piece], room: i64, most: Option<usize>, tail: &Tail) -> Option<Filled> {
        let lengths = || pieces.iter().map(|(length, _)| *length);
        let shortest = lengths().min().filter(|shortest| *shortest > 0)?;
        if slack(pieces.iter().copied(), room, tail.worth(room)) > 0.0 {
            return None;
        }
        let fit = usize::try_from(room.max(0) / shortest).expect("a room is not negative");
        let (plain, counted) = (Grid::plain(lengths(), room), Grid::counted(lengths(), room));
        let smaller = (fit + 1) * counted.columns(room) / 2 <= plain.columns(room);
        if most.is_some() || counted.exact && (smaller || !plain.exact) {
            counted.exact.then(|| Filled::counted(pieces, counted, room, most.map_or(fit, |most| most.min(fit))))
        } else {
            plain.exact.then(|| Filled::of_any_number(pieces, plain, room))
        }
    }

    /// The table of the most that any number of pieces can be worth, lengths rounded down to this unit: no less than it
    /// is.
    pub(super) fn rounded(pieces: &[Piece], unit: i64, room: i64) -> Filled {
        Filled::of_any_number(pieces, Grid::rounded(unit), room)
    }

    fn empty(pieces: &[Piece], grid: Grid, room: i64, (counted, rows): (bool, usize)) -> Filled {
        let steps = pieces.iter().map(|(length, _)| grid.steps(*length)).collect();
        let columns = grid.columns(room);
        let mut table = vec![Cell::NEG_INFINITY; columns * rows];
        table[0] = 0.0;
        let (pieces, slack) = (pieces.to_vec(), slack(pieces.iter().copied(), room, 0));
        Filled { pieces, steps, grid, room, columns, counted, table, peaks: vec![0.0], slack }
    }

    fn counted(pieces: &[Piece], grid: Grid, room: i64, most: usize) -> Filled {
        let mut filled = Filled::empty(pieces, grid, room, (true, most + 1));
        let steps = filled.steps.iter().copied();
        let (shortest, longest) = (steps.clone().min().unwrap_or(0), steps.max().unwrap_or(0));
        let mut rows = filled.table.chunks_exact_mut(filled.columns);
        let mut before = rows.next().expect("a row for no pieces");
        for (count, row) in rows.enumerate() {
            let columns = grid.column(room, count + 1).map_or(0, |last| last + 1);
            // What one fewer can take up at all.
            let (least, end) = (count * shortest, count * longest + 1);
            for (step, (_, value)) in filled.steps.iter().zip(pieces) {
                let end = end.min(columns.saturating_sub(*step));
                if least < end {
                    better(&mut row[least + step..end + step], &before[least..end], cell(*value));
                }
            }
            filled.peaks.push(peak(row));
            before = row;
        }
        filled
    }

    fn of_any_number(pieces: &[Piece], grid: Grid, room: i64) -> Filled {
        let mut filled = Filled::empty(pieces, grid, room, (false, 1));
        for (step, (_, value)) in filled.steps.iter().zip(pieces) {
            any_number(&mut filled.table, *step, cell(*value));
        }
        filled.peaks = vec![peak(&filled.table)];
        filled
    }

    /// The most that `count` pieces, or any number of them, and the room that they leave can be worth; [`NEVER`] where
    /// they do not fit.
    #[allow(clippy::cast_possible_truncation)] // whole, or minus infinity
    pub(super) fn most(&self, count: Option<usize>, tail: &Tail) -> i64 {
        let most = self.rows(count).map(|row| self.most_of(row, tail)).fold(Cell::NEG_INFINITY, Cell::max);
        ((most + self.slack).ceil() as i64).max(NEVER)
    }

    fn rows(&self, count: Option<usize>) -> std::ops::Range<usize> {
        match count.filter(|_| self.counted) {
            Some(count) => count.min(self.peaks.len())..(count + 1).min(self.peaks.len()),
            None => 0..self.peaks.len(),
        }
    }

    fn most_of(&self, row: usize, tail: &Tail) -> Cell {
        match tail {
            Tail::Nothing => self.peaks[row],
            Tail::UsedUp => self.to_the_last(row).map_or(Cell::NEG_INFINITY, |column| self.at(row, column)),
            Tail::Kept { .. } => {
                let worths = (0..self.columns).map(|column| self.with_tail(row, column, tail));
                worths.fold(Cell::NEG_INFINITY, Cell::max)
            }
        }
    }

    /// The column at which these pieces leave nothing.
    fn to_the_last(&self, row: usize) -> Option<usize> {
        self.grid.column(self.room, row).filter(|_| self.grid.fits(self.room, row))
    }

    fn with_tail(&self, row: usize, column: usize, tail: &Tail) -> Cell {
        let left = self.room - self.grid.room(column, row);
        if left < 0 { Cell::NEG_INFINITY } else { self.at(row, column) + cell(tail.worth(left)) }
    }

    fn at(&self, row: usize, column: usize) -> Cell {
        self.table[row * self.columns + column]
    }

    /// The best filling with `count` pieces, or any number of them, if it is worth more than `floor`.
    pub(super) fn best(&self, count: Option<usize>, tail: &Tail, floor: i64) -> Option<Filling> {
        let most = self.rows(count).map(|row| (self.most_of(row, tail), row));
        let (most, mut row) = most.fold((Cell::NEG_INFINITY, 0), |best, of| if of.0 > best.0 { of } else { best });
        if most == Cell::NEG_INFINITY {
            return None;
        }
        let mut column = match tail {
            Tail::UsedUp => self.to_the_last(row)?,
            _ => (0..self.columns).rev().find(|column| self.with_tail(row, *column, tail) >= most)?,
        };
        let left = self.room - self.grid.room(column, row);
        let mut copies = vec![0; self.pieces.len()];
        while let Some((piece, step)) = self.last(row, column) {
            copies[piece] += 1;
            (row, column) = (row - usize::from(self.counted), column - step);
        }
        let pieces = self.pieces.iter().zip(&copies).map(|((_, value), copies)| value * i64::from(*copies));
        let value = pieces.sum::<i64>() + tail.worth(left);
        (value > floor).then_some(Filling { copies, value })
    }

    /// A piece, long ones first, that the best filling of so much has; none where there is none.
    #[allow(clippy::float_cmp)] // one of them was the greater of just these sums
    fn last(&self, row: usize, column: usize) -> Option<(usize, usize)> {
        if if self.counted { row == 0 } else { column == 0 } {
            return None;
        }
        let (now, fewer) = (self.at(row, column), row - usize::from(self.counted));
        let mut pieces = (0..self.pieces.len()).rev().filter(|piece| self.steps[*piece] <= column);
        let last =
            pieces.find(|piece| self.at(fewer, column - self.steps[*piece]) + cell(self.pieces[*piece].1) == now);
        last.map(|piece| (piece, self.steps[piece]))
    }
}

/// The most of a row, found in lanes that a processor can compare side by side.
fn peak(row: &[Cell]) -> Cell {
    let mut lanes = [Cell::NEG_INFINITY; 8];
    for of in row.chunks(lanes.len()) {
        for (most, of) in lanes.iter_mut().zip(of) {
            *most = if *of > *most { *of } else { *most };
        }
    }
    lanes.into_iter().fold(Cell::NEG_INFINITY, Cell::max)
}

#[cfg(test)]
mod tests {
    use super::super::knapsack::{Choice, Knapsack, Step};
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #![proptest_config(ProptestConfig { cases: 600, failure_persistence: None, ..ProptestConfig::default() })]

        #[test]
        fn is_worth_what_the_table_of_every_piece_says(
            pieces in prop::collection::vec((1..12_i64, -5..50_i64), 1..5),
            (times, kerf) in (prop::sample::select(vec![1_i64, 8, 40]), 0..3_i64),
            room in 0..40_i64,
            beside in 0..40_i64,
            counted in any::<bool>(),
            tail in prop::sample::select(vec![
                Tail::Nothing,
                Tail::UsedUp,
                Tail::Kept { lost: 1, steps: vec![(3, 4), (30, 9)] },
            ]),
        ) {
            let mut pieces: Vec<Piece> = pieces.into_iter().map(|(size, value)| (size * times + kerf, value)).collect();
            pieces.sort_unstable();
            let room = room * times + beside.min(times - 1) + kerf;
            let most = counted.then_some(6);
            let step = if counted { Step::Count } else { Step::Stay };
            let choice = |(length, value): &Piece| Choice { length: *length, most: u32::MAX, value: *value, step };
            let each = Knapsack::new(pieces.iter().map(choice).collect(), room, most.map_or(1, |most| most + 1), tail.clone());
            let filled = Filled::new(&pieces, room, most, &tail).expect("lengths are few");
            for count in 0..=most.unwrap_or(0) {
                // The table of every piece is a bound only where a column may leave something over: its walk is exact.
                let best = each.best(pieces.len(), count, room, i64::MIN / 8);
                let worth = filled.most(most.map(|_| count), &tail);
                prop_assert_eq!(worth, best.as_ref().map_or(NEVER, |best| best.value));
                let floor = best.map_or(0, |best| best.value - 1);
                let found = filled.best(most.map(|_| count), &tail, floor);
                prop_assert_eq!(found.is_some(), worth > NEVER);
                if let Some(found) = found {
                    let sum = |of: fn(&Piece) -> i64| -> i64 {
                        pieces.iter().zip(&found.copies).map(|(piece, copies)| of(piece) * i64::from(*copies)).sum()
                    };
                    let left = room - sum(|piece| piece.0);
                    prop_assert!(left >= 0 && (tail != Tail::UsedUp || left == 0));
                    prop_assert_eq!((sum(|piece| piece.1) + tail.worth(left), found.value), (worth, worth));
                    prop_assert!(!counted || found.copies.iter().map(|copies| *copies as usize).sum::<usize>() == count);
                }
                prop_assert!(filled.best(most.map(|_| count), &tail, worth).is_none());
            }
        }

        #[test]
        fn holds_no_values_that_are_not_exact(pieces in prop::collection::vec((1..9_i64, 1..20_i64), 1..4), room in 9..24_i64) {
            let large: Vec<Piece> = pieces.iter().map(|(length, value)| (*length, value << 53)).collect();
            prop_assert!(Filled::new(&pieces, room, None, &Tail::Nothing).is_some());
            prop_assert!(Filled::new(&large, room, None, &Tail::Nothing).is_none());
            let dear = Tail::Kept { lost: 0, steps: vec![(1, 1 << 53)] };
            prop_assert!(Filled::new(&pieces, room, None, &dear).is_none());
            let promised = Filled::rounded(&large, 1, room).most(None, &Tail::Nothing);
            prop_assert!(promised >= Filled::rounded(&pieces, 1, room).most(None, &Tail::Nothing) << 53);
        }

        #[test]
        fn rounding_lengths_down_promises_no_less(
            pieces in prop::collection::vec((7..60_i64, 1..50_i64), 1..5),
            room in 0..400_i64,
            unit in 1..8_i64,
        ) {
            let exact = Filled::new(&pieces, room, None, &Tail::Nothing).expect("lengths are few").most(None, &Tail::Nothing);
            prop_assert!(Filled::rounded(&pieces, unit, room).most(None, &Tail::Nothing) >= exact);
        }
    }
}
