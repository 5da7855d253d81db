//! The walk over all fillings that are worth at least so much: depth first, choice after choice, turning back where the
//! tables promise too little.

use super::super::cell::cell;
use super::{Filling, Knapsack, NEVER, after};

/// The same pieces at other values: each is worth less by the same, a filling more by the same, and is worth the less
/// of both.
#[derive(Clone, Copy)]
pub(in crate::solve) struct Other<'a> {
    /// Its tables.
    pub tables: &'a Knapsack,
    /// What each piece is worth less.
    pub each: i64,
    /// What a filling is worth more.
    pub beside: i64,
}

/// A walk over fillings.
pub(super) struct Walk<'a, 'b> {
    /// Its tables.
    pub knapsack: &'a Knapsack,
    /// The same pieces at other values.
    pub other: Option<Other<'a>>,
    /// What is cut so far.
    pub filling: Filling,
    /// How many pieces that are.
    pub pieces: i64,
    /// The least that a filling must be worth.
    pub floor: &'b mut i64,
    /// Whom they are shown to.
    pub visit: &'b mut dyn FnMut(&Filling, &mut i64) -> bool,
}

impl Walk<'_, '_> {
    /// Goes on with the first `k` choices; false when stopped.
    pub(super) fn descend(&mut self, k: usize, state: usize, room: i64) -> bool {
        if self.falls_short(k, state, room) {
            return true;
        }
        let Some(choice) = k.checked_sub(1).map(|at| self.knapsack.choices[at]) else { return self.finish(room) };
        let (before, pieces) = (self.filling.value, self.pieces);
        let fit = u32::try_from(room.max(0) / choice.length).unwrap_or(u32::MAX).min(choice.most);
        for copies in (0..=fit).rev() {
            let Some(state) = after(choice.step, state, copies) else { continue };
            self.filling.copies[k - 1] = copies;
            self.filling.value = before + i64::from(copies) * choice.value;
            self.pieces = pieces + i64::from(copies);
            if !self.descend(k - 1, state, room - i64::from(copies) * choice.length) {
                return false;
            }
        }
        (self.filling.value, self.pieces) = (before, pieces);
        self.filling.copies[k - 1] = 0;
        true
    }

    /// Whether no filling that goes on so can reach the floor.
    fn falls_short(&self, k: usize, state: usize, room: i64) -> bool {
        let floor = cell(*self.floor);
        self.knapsack.promise(k, state, room) + cell(self.filling.value) < floor
            || self.other.is_some_and(|other| {
                other.tables.promise(k, state, room) + cell(other.of(self.filling.value, self.pieces)) < floor
            })
    }

    /// Shows the filling with the true tail, if it still reaches the floor.
    fn finish(&mut self, room: i64) -> bool {
        let worth = self.knapsack.tail.worth(room);
        if worth <= NEVER {
            return true;
        }
        let before = self.filling.value;
        let value = self.other.map_or(before, |other| before.min(other.of(before, self.pieces))) + worth;
        self.filling.value = value;
        let goes_on = value < *self.floor || (self.visit)(&self.filling, self.floor);
        self.filling.value = before;
        goes_on
    }
}

impl Other<'_> {
    fn of(&self, value: i64, pieces: i64) -> i64 {
        value - self.each * pieces + self.beside
    }
}
