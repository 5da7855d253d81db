//! The best way, and every good way, to fill a length with pieces: a bounded knapsack by dynamic programming, in
//! whole numbers.
//!
//! Kerfs: each piece counts its length and one kerf, and the length to fill counts one kerf more; so n pieces may use
//! it up exactly with n - 1 kerfs. Lengths are counted in the greatest unit that divides them all. Where that is too
//! fine for a table, a coarser unit rounds pieces down, which can only promise too much: the table is then a bound,
//! and the walk below, which checks true lengths, stays exact.

use super::tail::Tail;
use crate::model::gcd;

/// Worth less than anything that can be.
pub(super) const NEVER: i64 = i64::MIN / 4;

/// Most columns of a table.
const FINEST: i64 = 1 << 14;

/// What a piece does to the state of a filling that still has to meet a demand.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Step {
    /// Nothing.
    Stay,
    /// Counts as one of the pieces asked for.
    Count,
    /// Meets the demand.
    Meet,
}

/// A piece that may be cut several times.
#[derive(Clone, Copy, Debug)]
pub(super) struct Choice {
    /// Its length and one kerf, in raw units.
    pub length: i64,
    /// Most copies.
    pub most: u32,
    /// What one is worth.
    pub value: i64,
    /// What it does to the state.
    pub step: Step,
}

/// A filling: copies of each choice, and its value.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Filling {
    /// Copies of each of the first choices.
    pub copies: Vec<u32>,
    /// What it is worth, tail included.
    pub value: i64,
}

/// Tables of the best values: for the first `k` choices, a state, and the room that is left.
pub(super) struct Knapsack {
    choices: Vec<Choice>,
    unit: i64,
    columns: usize,
    states: usize,
    tables: Vec<Vec<i64>>,
    tail: Tail,
}

/// The greatest unit of all these lengths, or a coarser one where a table up to `room` would be too large; and whether
/// it is exact.
pub(super) fn unit_of(lengths: impl Iterator<Item = i64>, room: i64) -> (i64, bool) {
    let exact = lengths.fold(0, gcd).max(1);
    if room / exact <= FINEST { (exact, true) } else { (room / FINEST + 1, false) }
}

impl Knapsack {
    /// Tables for rooms up to `room`; state 0 is a filling with nothing left to meet. `tail` says what the room left
    /// over is worth; it must not fall as the room grows, save that with an exact unit no room at all may be worth
    /// more.
    pub(super) fn new(choices: Vec<Choice>, room: i64, states: usize, tail: Tail) -> Self {
        let (unit, _) = unit_of(choices.iter().map(|choice| choice.length), room);
        let columns = usize::try_from(room.max(0) / unit).expect("a room is not negative") + 1;
        let mut knapsack = Knapsack { choices, unit, columns, states, tables: Vec::new(), tail };
        knapsack.tables.push(knapsack.empty_table(room));
        for k in 0..knapsack.choices.len() {
            let table = knapsack.next_table(k);
            knapsack.tables.push(table);
        }
        knapsack
    }

    /// Nothing cut: only state 0 stands, and the room left is worth its tail.
    fn empty_table(&self, room: i64) -> Vec<i64> {
        let mut table = vec![NEVER; self.states * self.columns];
        let part = self.unit - 1;
        for (column, value) in table.iter_mut().take(self.columns).enumerate() {
            let least = i64::try_from(column).expect("columns are few") * self.unit;
            *value = self.tail.worth(least).max(self.tail.worth((least + part).min(room)));
        }
        table
    }

    fn next_table(&self, k: usize) -> Vec<i64> {
        let choice = self.choices[k];
        let (before, mut table) = (&self.tables[k], self.tables[k].clone());
        let step = usize::try_from(choice.length / self.unit).expect("a length is not negative");
        if choice.step == Step::Stay && step > 0 {
            table.chunks_exact_mut(self.columns).for_each(|row| add_pieces(row, choice, step));
            return table;
        }
        if choice.step == Step::Count && step > 0 && choice.most as usize >= self.columns / step {
            count_pieces(&mut table, self.columns, choice.value, step);
            return table;
        }
        for state in 0..self.states {
            for column in step..self.columns {
                let value = if step > 0 && choice.most as usize >= column / step {
                    self.one_more(&table, choice, state, column - step)
                } else {
                    self.several_more(before, choice, state, column, step)
                };
                let at = state * self.columns + column;
                table[at] = table[at].max(value);
            }
        }
        table
    }

    fn one_more(&self, table: &[i64], choice: Choice, state: usize, column: usize) -> i64 {
        after(choice.step, state, 1).map_or(NEVER, |next| plus(table[next * self.columns + column], choice.value))
    }

    fn several_more(&self, before: &[i64], choice: Choice, state: usize, column: usize, step: usize) -> i64 {
        let (mut best, mut state, mut column, mut value) = (NEVER, state, column, 0);
        for _ in 0..choice.most {
            let (Some(next), Some(rest)) = (after(choice.step, state, 1), column.checked_sub(step)) else { break };
            (state, column, value) = (next, rest, value + choice.value);
            best = best.max(plus(before[state * self.columns + column], value));
        }
        best
    }

    /// The most that the first `k` choices and the tail can be worth in `room`; [`NEVER`] or less where the state
    /// cannot be met. With a coarse unit a bound from above.
    pub(super) fn most(&self, k: usize, state: usize, room: i64) -> i64 {
        if room < 0 || state >= self.states {
            return NEVER;
        }
        let column = usize::try_from(room / self.unit).expect("a room is not negative").min(self.columns - 1);
        self.tables[k][state * self.columns + column]
    }

    /// The best filling of `room` with the first `k` choices, if it is worth more than `floor`.
    pub(super) fn best(&self, k: usize, state: usize, room: i64, floor: i64) -> Option<Filling> {
        let mut best = None;
        let mut floor = floor + 1;
        let most = self.most(k, state, room);
        self.walk(k, state, room, &mut floor, &mut |filling, floor| {
            *floor = filling.value + 1;
            best = Some(filling.clone());
            filling.value < most
        });
        best
    }

    /// Visits every filling worth at least `floor`, which the visitor may raise; stops where the visitor says so.
    /// Returns false when stopped.
    pub(super) fn walk(
        &self,
        k: usize,
        state: usize,
        room: i64,
        floor: &mut i64,
        visit: &mut dyn FnMut(&Filling, &mut i64) -> bool,
    ) -> bool {
        let mut filling = Filling { copies: vec![0; k], value: 0 };
        self.descend(k, state, room, floor, &mut filling, visit)
    }

    fn descend(
        &self,
        k: usize,
        state: usize,
        room: i64,
        floor: &mut i64,
        filling: &mut Filling,
        visit: &mut dyn FnMut(&Filling, &mut i64) -> bool,
    ) -> bool {
        if plus(self.most(k, state, room), filling.value) < *floor {
            return true;
        }
        let Some(choice) = k.checked_sub(1).map(|at| self.choices[at]) else {
            return self.finish(room, *floor, filling).is_none_or(|full| visit(&full, floor));
        };
        let before = filling.value;
        let fit = u32::try_from(room.max(0) / choice.length).unwrap_or(u32::MAX).min(choice.most);
        for copies in (0..=fit).rev() {
            let Some(state) = after(choice.step, state, copies) else { continue };
            filling.copies[k - 1] = copies;
            filling.value = before + i64::from(copies) * choice.value;
            let rest = room - i64::from(copies) * choice.length;
            if !self.descend(k - 1, state, rest, floor, filling, visit) {
                return false;
            }
        }
        filling.value = before;
        filling.copies[k - 1] = 0;
        true
    }

    /// The filling with the true tail, if it still reaches the floor.
    fn finish(&self, room: i64, floor: i64, filling: &Filling) -> Option<Filling> {
        let value = plus(self.tail.worth(room), filling.value);
        (value >= floor).then(|| Filling { copies: filling.copies.clone(), value })
    }
}

/// The state after so many pieces, if they may be cut.
fn after(step: Step, state: usize, copies: u32) -> Option<usize> {
    match step {
        Step::Stay => Some(state),
        Step::Count => state.checked_sub(copies as usize),
        Step::Meet => Some(if copies > 0 { 0 } else { state }),
    }
}

/// Betters each row of values, one for each number of pieces, by one more piece than the row before; there are always
/// enough of them.
fn count_pieces(table: &mut [i64], columns: usize, value: i64, step: usize) {
    let (mut before, rest) = table.split_at_mut(columns);
    for row in rest.chunks_exact_mut(columns) {
        for (more, fewer) in row.iter_mut().skip(step).zip(&*before) {
            *more = (*more).max(plus(*fewer, value));
        }
        before = row;
    }
}

/// Betters a row of values by pieces that leave the state as it is: by one after the other where there are enough of
/// them, else by 1, 2, 4 ... of them at once, which together come to every number that there is.
fn add_pieces(row: &mut [i64], choice: Choice, step: usize) {
    if choice.most as usize >= row.len() / step {
        for column in step..row.len() {
            row[column] = row[column].max(plus(row[column - step], choice.value));
        }
        return;
    }
    let (mut left, mut together) = (choice.most, 1);
    while left > 0 {
        let copies = left.min(together);
        let (far, value) = (copies as usize * step, i64::from(copies) * choice.value);
        for column in (far..row.len()).rev() {
            row[column] = row[column].max(plus(row[column - far], value));
        }
        (left, together) = (left - copies, together * 2);
    }
}

/// Adds, but never climbs out of [`NEVER`].
pub(super) fn plus(base: i64, value: i64) -> i64 {
    if base <= NEVER { NEVER } else { base + value }
}
