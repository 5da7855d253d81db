//! The best way to fill a length with pieces of which there is no end: one table for all of them, so that pricing,
//! which asks for nothing else, stays quick. Kerfs and units as in [`super::knapsack`]; the unit is exact.

use super::knapsack::{NEVER, plus};
use super::tail::Tail;

/// A piece: its length and one kerf, in raw units, and what one is worth.
pub(super) type Piece = (i64, i64);

/// For each number of pieces, or for any where it does not matter, and each room: the most that can be had.
pub(super) struct Filled {
    pieces: Vec<Piece>,
    unit: i64,
    columns: usize,
    counted: bool,
    /// What the room left is worth where nothing more is cut.
    left: Vec<i64>,
    /// A row for each number of pieces.
    table: Vec<i64>,
}

impl Filled {
    /// Tables for up to `most` pieces in rooms up to `room`, or for any number of pieces; all lengths are multiples of
    /// the unit.
    pub(super) fn new(pieces: Vec<Piece>, unit: i64, room: i64, most: Option<usize>, tail: &Tail) -> Filled {
        let columns = usize::try_from(room.max(0) / unit).expect("a room is not negative") + 1;
        let mut filled = Filled { pieces, unit, columns, counted: most.is_some(), left: Vec::new(), table: Vec::new() };
        filled.left = filled.left_over(room, tail);
        filled.table = filled.left.clone();
        match most {
            Some(most) => (0..most).for_each(|pieces| filled.one_more(pieces)),
            None => filled.any_number(),
        }
        filled
    }

    fn left_over(&self, room: i64, tail: &Tail) -> Vec<i64> {
        let columns = (0..self.columns).map(|column| i64::try_from(column).expect("columns are few") * self.unit);
        columns.map(|least| tail.worth(least).max(tail.worth((least + self.unit - 1).min(room)))).collect()
    }

    fn steps(&self, length: i64) -> usize {
        usize::try_from(length / self.unit).expect("a length is not negative")
    }

    /// The row of one more than so many pieces, which take up some of the room at least.
    fn one_more(&mut self, pieces: usize) {
        let (before, shortest) = (self.table.len() - self.columns, self.pieces.iter().map(|(length, _)| *length).min());
        let taken = (pieces * self.steps(shortest.unwrap_or(0))).min(self.columns);
        let mut row = vec![NEVER; self.columns];
        for (length, value) in &self.pieces {
            let step = (self.steps(*length) + taken).min(self.columns);
            for (more, rest) in row[step..].iter_mut().zip(&self.table[before + taken..]) {
                *more = (*more).max(rest + value);
            }
        }
        row.iter_mut().filter(|value| **value <= NEVER / 2).for_each(|value| *value = NEVER);
        self.table.extend(row);
    }

    fn any_number(&mut self) {
        let pieces: Vec<(usize, i64)> =
            self.pieces.iter().map(|(length, value)| (self.steps(*length), *value)).collect();
        for column in 0..self.columns {
            for (step, value) in pieces.iter().filter(|(step, _)| *step <= column) {
                self.table[column] = self.table[column].max(plus(self.table[column - step], *value));
            }
        }
    }

    /// The most that `count` pieces, where they are counted, can be worth in `room`; [`super::knapsack::NEVER`] where
    /// they do not fit.
    pub(super) fn most(&self, count: usize, room: i64) -> i64 {
        if room < 0 { NEVER } else { self.at(count, self.steps(room).min(self.columns - 1)) }
    }

    fn at(&self, count: usize, column: usize) -> i64 {
        self.table.get(count * self.columns + column).copied().unwrap_or(NEVER)
    }

    /// Copies of each piece in the best filling of `room`, long pieces first.
    pub(super) fn best(&self, mut count: usize, room: i64) -> Vec<u32> {
        let (mut copies, mut column) = (vec![0; self.pieces.len()], self.steps(room).min(self.columns - 1));
        while let Some((piece, step)) = self.last(count, column) {
            copies[piece] += 1;
            column -= step;
            count -= usize::from(self.counted);
        }
        copies
    }

    /// A piece that the best filling of so much room has; none where nothing more is cut.
    fn last(&self, count: usize, column: usize) -> Option<(usize, usize)> {
        if self.counted && count == 0 {
            return None;
        }
        let (now, fewer) = (self.at(count, column), count - usize::from(self.counted));
        let pieces =
            self.pieces.iter().enumerate().rev().map(|(at, (length, value))| (at, self.steps(*length), *value));
        let mut pieces = pieces.filter(|(_, step, _)| *step <= column);
        pieces
            .find(|(_, step, value)| plus(self.at(fewer, column - step), *value) == now)
            .map(|(at, step, _)| (at, step))
    }
}

#[cfg(test)]
mod tests {
    use super::super::knapsack::{Choice, Knapsack, Step, unit_of};
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #![proptest_config(ProptestConfig { cases: 300, failure_persistence: None, ..ProptestConfig::default() })]

        #[test]
        fn is_worth_what_the_table_of_every_piece_says(
            pieces in prop::collection::vec((1..12_i64, 1..50_i64), 1..5),
            room in 0..40_i64,
            counted in any::<bool>(),
            used_up in any::<bool>(),
        ) {
            let mut pieces = pieces;
            pieces.sort_unstable();
            // As boards do: room is used up only where it is a multiple of the unit.
            let (unit, _) = unit_of(pieces.iter().map(|(length, _)| *length), room);
            let room = if used_up { room / unit * unit } else { room };
            let (tail, most) = (if used_up { Tail::UsedUp } else { Tail::Nothing }, counted.then_some(6));
            let step = if counted { Step::Count } else { Step::Stay };
            let choice = |(length, value): &Piece| Choice { length: *length, most: u32::MAX, value: *value, step };
            let each = Knapsack::new(pieces.iter().map(choice).collect(), room, most.map_or(1, |most| most + 1), tail.clone());
            let filled = Filled::new(pieces.clone(), unit, room, most, &tail);
            for count in 0..=most.unwrap_or(0) {
                let worth = filled.most(count, room);
                prop_assert_eq!(worth, each.most(pieces.len(), count, room).max(NEVER));
                if worth > NEVER {
                    let copies = filled.best(count, room);
                    let sum = |of: fn(&Piece) -> i64| -> i64 {
                        pieces.iter().zip(&copies).map(|(piece, copies)| of(piece) * i64::from(*copies)).sum()
                    };
                    prop_assert!(sum(|piece| piece.0) <= room && (!used_up || sum(|piece| piece.0) == room));
                    prop_assert_eq!(sum(|piece| piece.1), worth);
                    prop_assert!(!counted || copies.iter().map(|copies| *copies as usize).sum::<usize>() == count);
                }
            }
        }
    }
}
