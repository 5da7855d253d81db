//! The best way, and every good way, to fill a length with pieces: a bounded knapsack by dynamic programming.
//!
//! Kerfs: each piece counts its length and one kerf, and the length to fill counts one kerf more; so n pieces may use
//! it up exactly with n - 1 kerfs. Lengths are counted in the columns of a [`Grid`]. Where that has to round pieces
//! down, the table can only promise too much: it is then a bound, and the walk ([`walk`]), which checks true lengths,
//! stays exact. Values are whole numbers, which tables hold as [`Cell`]s.

mod walk;

use super::cell::{Cell, any_number, better, cell, slack};
use super::grid::Grid;
use super::tail::Tail;
use walk::Walk;
pub(super) use walk::{Side, Terms};

/// Worth less than anything that can be.
pub(super) const NEVER: i64 = i64::MIN / 4;

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
    grid: Grid,
    columns: usize,
    states: usize,
    /// One table after the other, each a row for each state.
    tables: Vec<Cell>,
    /// By how much rounding may have made a table promise too little.
    slack: Cell,
    tail: Tail,
}

impl Knapsack {
    /// Tables for rooms up to `room`; state 0 is a filling with nothing left to meet. Where one choice counts, all do:
    /// then a state is the number of pieces still to come. `tail` says what the room left over is worth; it must not
    /// fall as the room grows, save that with an exact unit no room at all may be worth more.
    pub(super) fn new(choices: Vec<Choice>, room: i64, states: usize, tail: Tail) -> Self {
        let lengths = choices.iter().map(|choice| choice.length);
        let counted = choices.iter().any(|choice| choice.step == Step::Count);
        let grid = if counted { Grid::counted(lengths, room) } else { Grid::plain(lengths, room) };
        let columns = grid.columns(room);
        let slack = slack(choices.iter().map(|choice| (choice.length, choice.value)), room, tail.worth(room));
        let mut knapsack = Knapsack { choices, grid, columns, states, tables: Vec::new(), slack, tail };
        knapsack.tables.reserve_exact((knapsack.choices.len() + 1) * states * columns);
        knapsack.add_empty_table(room);
        for k in 0..knapsack.choices.len() {
            knapsack.add_table(k);
        }
        knapsack
    }

    /// Nothing cut: only state 0 stands, and the room left is worth its tail.
    fn add_empty_table(&mut self, room: i64) {
        self.tables.resize(self.states * self.columns, Cell::NEG_INFINITY);
        for (column, value) in self.tables.iter_mut().take(self.columns).enumerate() {
            let least = self.grid.room(column, 0);
            *value = cell(self.tail.worth(least).max(self.tail.worth((least + self.grid.unit - 1).min(room))));
        }
    }

    /// The table of one more choice than `k`.
    fn add_table(&mut self, k: usize) {
        let choice = self.choices[k];
        let (size, step) = (self.states * self.columns, self.grid.steps(choice.length));
        self.tables.extend_from_within(k * size..);
        let (before, table) = self.tables.split_at_mut((k + 1) * size);
        match choice.step {
            _ if choice.most == 0 => {}
            Step::Stay if step > 0 => {
                table.chunks_exact_mut(self.columns).for_each(|row| add_pieces(row, choice, step));
            }
            Step::Count if choice.most == u32::MAX => count_pieces(table, self.columns, choice.value, step),
            _ => add_in_states(&before[k * size..], table, self.columns, choice, step),
        }
    }

    /// Most copies of a choice.
    pub(super) fn most_of(&self, choice: usize) -> u32 {
        self.choices[choice].most
    }

    /// The most that the first `k` choices and the tail can be worth in `room`; [`NEVER`] where the state cannot be
    /// met. With a coarse unit a bound from above.
    #[allow(clippy::cast_possible_truncation)] // whole, or minus infinity
    pub(super) fn most(&self, k: usize, state: usize, room: i64) -> i64 {
        (self.promise(k, state, room).ceil() as i64).max(NEVER)
    }

    fn promise(&self, k: usize, state: usize, room: i64) -> Cell {
        self.column(state, room).map_or(Cell::NEG_INFINITY, |column| self.promise_at(k, state, column))
    }

    /// The column of so much room in this state, if it can be met in it.
    fn column(&self, state: usize, room: i64) -> Option<usize> {
        self.grid.column(room, state).filter(|_| state < self.states)
    }

    fn promise_at(&self, k: usize, state: usize, column: usize) -> Cell {
        self.tables[(k * self.states + state) * self.columns + column.min(self.columns - 1)] + self.slack
    }

    /// The best filling of `room` with the first `k` choices, if it is worth more than `floor`.
    pub(super) fn best(&self, k: usize, state: usize, room: i64, floor: i64) -> Option<Filling> {
        let most = self.most(k, state, room);
        if most <= floor {
            return None;
        }
        // Where the table is exact, the first filling worth so much is the best.
        let mut best = None;
        self.walk((k, state, room), Terms::default(), &mut most.clone(), &mut |filling, _| {
            best = Some(filling.clone());
            false
        });
        if best.is_none() {
            self.walk((k, state, room), Terms::default(), &mut (floor + 1), &mut |filling, floor| {
                *floor = filling.value + 1;
                best = Some(filling.clone());
                true
            });
        }
        best
    }

    /// Visits every filling of a room with the first `k` choices, from a state on, that meets the terms and is worth at
    /// least `floor`, which the visitor may raise; stops where the visitor says so. Returns false when stopped.
    pub(super) fn walk(
        &self,
        (k, state, room): (usize, usize, i64),
        terms: Terms,
        floor: &mut i64,
        visit: &mut dyn FnMut(&Filling, &mut i64) -> bool,
    ) -> bool {
        Walk::new(self, k, terms, floor, visit).begin(state, room)
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
fn count_pieces(table: &mut [Cell], columns: usize, value: i64, step: usize) {
    let (mut before, rest) = table.split_at_mut(columns);
    for row in rest.chunks_exact_mut(columns) {
        better(&mut row[step.min(columns)..], before, cell(value));
        before = row;
    }
}

/// Betters a row of values by pieces that leave the state as it is: by one after the other where there are enough of
/// them, else by 1, 2, 4 ... of them at once, which together come to every number that there is.
fn add_pieces(row: &mut [Cell], choice: Choice, step: usize) {
    if choice.most as usize >= row.len() / step {
        any_number(row, step, cell(choice.value));
        return;
    }
    let (mut left, mut together) = (choice.most, 1);
    while left > 0 {
        let copies = left.min(together);
        let (far, value) = (copies as usize * step, cell(i64::from(copies) * choice.value));
        // From the far end on, so that no value counts pieces twice.
        for from in (far..row.len()).step_by(far).rev() {
            let (fewer, more) = row.split_at_mut(from);
            let end = far.min(more.len());
            better(&mut more[..end], &fewer[from - far..], value);
        }
        (left, together) = (left - copies, together * 2);
    }
}

/// Betters a table by pieces that change the state.
fn add_in_states(before: &[Cell], table: &mut [Cell], columns: usize, choice: Choice, step: usize) {
    for state in 0..table.len() / columns {
        for column in step..columns {
            let (mut at, mut rest, mut value, mut best) = (state, column, 0, Cell::NEG_INFINITY);
            if step > 0 && choice.most as usize >= column / step {
                let next = after(choice.step, state, 1);
                best = next.map_or(best, |next| table[next * columns + column - step] + cell(choice.value));
            } else {
                for _ in 0..choice.most {
                    let (Some(next), Some(left)) = (after(choice.step, at, 1), rest.checked_sub(step)) else { break };
                    (at, rest, value) = (next, left, value + choice.value);
                    best = best.max(before[at * columns + rest] + cell(value));
                }
            }
            let cell = &mut table[state * columns + column];
            *cell = cell.max(best);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    /// Every filling of a room from a state on, worth what it is worth.
    pub(super) fn every(choices: &[Choice], (state, room): (usize, i64), tail: &Tail) -> Vec<Filling> {
        let Some((choice, rest)) = choices.split_last() else {
            let value = if state == 0 { tail.worth(room) } else { NEVER };
            return if value <= NEVER { Vec::new() } else { vec![Filling { copies: Vec::new(), value }] };
        };
        let mut every_one = Vec::new();
        for copies in 0..=choice.most.min(u32::try_from(room / choice.length).expect("a few")) {
            let Some(state) = after(choice.step, state, copies) else { continue };
            for mut filling in every(rest, (state, room - choice.length * i64::from(copies)), tail) {
                filling.copies.push(copies);
                filling.value += choice.value * i64::from(copies);
                every_one.push(filling);
            }
        }
        every_one
    }

    proptest! {
        #![proptest_config(ProptestConfig { cases: 400, failure_persistence: None, ..ProptestConfig::default() })]

        #[test]
        fn finds_what_looking_at_every_filling_finds(
            pieces in prop::collection::vec((1..9_i64, prop::sample::select(vec![0_u32, 1, 2, 3, u32::MAX]), -3..20_i64, any::<bool>()), 1..4),
            (times, kerf) in (prop::sample::select(vec![1_i64, 8]), 0..3_i64),
            (room, more) in (0..24_i64, 0..8_i64),
            counted in any::<bool>(),
            large in any::<bool>(),
            tail in prop::sample::select(vec![
                Tail::Nothing,
                Tail::UsedUp,
                Tail::Kept { lost: 1, steps: vec![(3, 4), (20, 9)] },
            ]),
            gap in 0..9_i64,
        ) {
            // Large values are not exact in a table: it may promise more then, never less.
            let unit = if large { (1 << 53) + 1 } else { 1 };
            let step = |meets| if counted { Step::Count } else if meets { Step::Meet } else { Step::Stay };
            let choice = |&(size, most, value, meets)| {
                Choice { length: size * times + kerf, most, value: value * unit, step: step(meets) }
            };
            let choices: Vec<Choice> = pieces.iter().map(choice).collect();
            let (room, states) = (room * times + more, if counted { 5 } else { 2 });
            let knapsack = Knapsack::new(choices.clone(), room, states, tail.clone());
            for state in 0..states {
                let every_one = every(&choices, (state, room), &tail);
                let most = every_one.iter().map(|filling| filling.value).max();
                prop_assert!(knapsack.most(choices.len(), state, room) >= most.unwrap_or(NEVER));
                let best = knapsack.best(choices.len(), state, room, i64::MIN / 8);
                prop_assert_eq!(best.as_ref().map(|best| best.value), most);
                prop_assert!(best.is_none_or(|best| every_one.contains(&best)));
                let mut floor = most.map_or(0, |most| most - gap * unit);
                let (mut seen, least) = (Vec::new(), floor);
                knapsack.walk((choices.len(), state, room), Terms::default(), &mut floor, &mut |filling, _| {
                    seen.push(filling.clone());
                    true
                });
                let near = every_one.into_iter().filter(|filling| filling.value >= least);
                let by_copies = |all: Vec<Filling>| {
                    let mut all: Vec<_> = all.into_iter().map(|filling| (filling.copies, filling.value)).collect();
                    all.sort();
                    all
                };
                prop_assert_eq!(by_copies(seen), by_copies(near.collect()));
            }
        }
    }
}
