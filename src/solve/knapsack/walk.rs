//! The walk over all fillings that are worth at least so much: depth first, choice after choice, turning back where the
//! tables promise too little.

use super::super::cell::cell;
use super::{Filling, Knapsack, NEVER, after};
use std::cell::Cell;

/// What fillings must be, besides worth the floor; nothing more by default.
#[derive(Clone, Default)]
pub(in crate::solve) struct Terms<'a> {
    /// What they must be worth at other values.
    pub sides: Vec<Side<'a>>,
    /// Where they must leave no room for one more piece of a choice that they do not have the most of: how many that do
    /// may still be passed over until the walk stops.
    pub largest: Option<&'a Cell<usize>>,
    /// Choices that they may not have, nor need there be no room for those; none where empty.
    pub left_out: Vec<bool>,
}

/// The same choices at other values.
#[derive(Clone, Copy)]
pub(in crate::solve) struct Side<'a> {
    /// Their tables.
    pub tables: &'a Knapsack,
    /// What a filling is worth besides.
    pub beside: i64,
    /// What it must be worth at least; none where it is worth the less of both, and the floor is that of the walk.
    pub floor: Option<i64>,
}

/// A walk over fillings.
pub(super) struct Walk<'a, 'b> {
    knapsack: &'a Knapsack,
    sides: Vec<Side<'a>>,
    largest: Option<&'a Cell<usize>>,
    left_out: Vec<bool>,
    /// What is cut so far; the sides hold what it is worth to them.
    filling: Filling,
    /// The least that a filling must be worth.
    floor: &'b mut i64,
    /// Whom they are shown to.
    visit: &'b mut dyn FnMut(&Filling, &mut i64) -> bool,
}

impl<'a, 'b> Walk<'a, 'b> {
    /// A walk over fillings with the first `k` choices.
    pub(super) fn new(
        knapsack: &'a Knapsack,
        k: usize,
        terms: Terms<'a>,
        floor: &'b mut i64,
        visit: &'b mut dyn FnMut(&Filling, &mut i64) -> bool,
    ) -> Walk<'a, 'b> {
        let filling = Filling { copies: vec![0; k], value: 0 };
        let Terms { sides, largest, left_out } = terms;
        Walk { knapsack, sides, largest, left_out, filling, floor, visit }
    }

    /// Begins with all choices; false when stopped.
    pub(super) fn begin(&mut self, state: usize, room: i64) -> bool {
        let column = self.knapsack.column(state, room);
        self.descend(self.filling.copies.len(), (state, room, column), i64::MAX)
    }

    /// Goes on with the first `k` choices from a state, a room and its column; they are to leave less room than
    /// `least_piece`. False when stopped.
    fn descend(&mut self, k: usize, (state, room, column): (usize, i64, Option<usize>), least_piece: i64) -> bool {
        if column.is_none_or(|column| self.falls_short(k, state, column)) {
            return true;
        }
        let Some(at) = k.checked_sub(1) else {
            return if room < least_piece { self.finish(room) } else { self.pass_over() };
        };
        if self.left_out.get(at).is_some_and(|left_out| *left_out) {
            return self.descend(at, (state, room, column), least_piece);
        }
        let (choice, grid) = (self.knapsack.choices[at], self.knapsack.grid);
        let (exact, step) = (grid.exact, grid.steps(choice.length));
        let fit = u32::try_from(room.max(0) / choice.length).unwrap_or(u32::MAX).min(choice.most);
        // With fewer of the last choice there is room for one more.
        let fewest = if self.largest.is_some() && at == 0 { fit } else { 0 };
        for copies in (fewest..=fit).rev() {
            let Some(state) = after(choice.step, state, copies) else { continue };
            self.cut(at, copies);
            let more = self.largest.is_some() && copies < choice.most;
            let least_piece = if more { least_piece.min(choice.length) } else { least_piece };
            let room = room - i64::from(copies) * choice.length;
            let column = match column {
                Some(column) if exact => column.checked_sub(copies as usize * step),
                _ => self.knapsack.column(state, room),
            };
            if !self.descend(at, (state, room, column), least_piece) {
                return false;
            }
        }
        self.cut(at, 0);
        true
    }

    /// Says whether to go on after a filling that is not among the largest.
    fn pass_over(&self) -> bool {
        self.largest.is_none_or(|left| {
            left.set(left.get().saturating_sub(1));
            left.get() > 0
        })
    }

    /// Changes how often a choice is cut.
    fn cut(&mut self, at: usize, copies: u32) {
        let more = i64::from(copies) - i64::from(self.filling.copies[at]);
        self.filling.copies[at] = copies;
        self.filling.value += more * self.knapsack.choices[at].value;
        for side in &mut self.sides {
            side.beside += more * side.tables.choices[at].value;
        }
    }

    /// Whether no filling that goes on so can reach the floor.
    fn falls_short(&self, k: usize, state: usize, column: usize) -> bool {
        let falls_short =
            |tables: &Knapsack, value: i64, floor: i64| tables.promise_at(k, state, column) + cell(value) < cell(floor);
        falls_short(self.knapsack, self.filling.value, *self.floor)
            || self.sides.iter().any(|side| falls_short(side.tables, side.beside, side.floor.unwrap_or(*self.floor)))
    }

    /// Shows the filling with the true tail, if it still reaches the floor.
    fn finish(&mut self, room: i64) -> bool {
        let worth = self.knapsack.tail.worth(room);
        if worth <= NEVER {
            return true;
        }
        let before = self.filling.value;
        let mut value = before;
        for side in &self.sides {
            match side.floor {
                Some(floor) if side.beside + worth < floor => return true,
                Some(_) => {}
                None => value = value.min(side.beside),
            }
        }
        self.filling.value = value + worth;
        let goes_on = self.filling.value < *self.floor || (self.visit)(&self.filling, self.floor);
        self.filling.value = before;
        goes_on
    }
}
