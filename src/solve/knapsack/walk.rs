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

#[cfg(test)]
mod tests {
    use super::super::super::tail::Tail;
    use super::super::tests::every;
    use super::super::{Choice, Step};
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #![proptest_config(ProptestConfig { cases: 400, failure_persistence: None, ..ProptestConfig::default() })]

        /// Every filling that is worth enough at its own values and at others, and leaves no room for one more piece.
        #[test]
        fn shows_what_meets_the_terms(
            pieces in prop::collection::vec((1..9_i64, prop::sample::select(vec![0_u32, 1, 2, 3, u32::MAX]), -3..20_i64, any::<bool>()), 1..4),
            others in prop::collection::vec((prop::collection::vec(-3..20_i64, 3), -5..5_i64, prop::option::of(-5..60_i64)), 0..3),
            (room, floor) in (0..24_i64, -5..60_i64),
            (largest, counted, coarse) in (any::<bool>(), any::<bool>(), any::<bool>()),
            left_out in prop::collection::vec(any::<bool>(), 0..4),
            tail in prop::sample::select(vec![Tail::Nothing, Tail::UsedUp, Tail::Kept { lost: 1, steps: vec![(3, 4), (20, 9)] }]),
        ) {
            let step = |meets| if counted { Step::Count } else if meets { Step::Meet } else { Step::Stay };
            // Lengths that no table is fine enough for, where nothing may have to be used up.
            let coarse = coarse && tail != Tail::UsedUp;
            let times = if coarse { 10_007 } else { 1 };
            let choice = |(at, &(size, most, value, meets)): (usize, &(i64, u32, i64, bool))| {
                Choice { length: size * times + i64::from(coarse && at == 1), most, value, step: step(meets) }
            };
            let choices: Vec<Choice> = pieces.iter().enumerate().map(choice).collect();
            let (room, states) = (room * times, if counted { 5 } else { 2 });
            let knapsack = Knapsack::new(choices.clone(), room, states, tail.clone());
            let tables: Vec<Knapsack> = others
                .iter()
                .map(|(values, _, _)| {
                    let choices = choices.iter().zip(values).map(|(choice, value)| Choice { value: *value, ..*choice });
                    Knapsack::new(choices.collect(), room, states, tail.clone())
                })
                .collect();
            let worth = |filling: &Filling, values: &[i64]| {
                filling.copies.iter().zip(values).map(|(copies, value)| i64::from(*copies) * value).sum::<i64>()
            };
            let own: Vec<i64> = choices.iter().map(|choice| choice.value).collect();
            for state in 0..states {
                let meeting = every(&choices, (state, room), &tail).into_iter().filter_map(|filling| {
                    let left = room - worth(&filling, &choices.iter().map(|choice| choice.length).collect::<Vec<_>>());
                    let is_out = |at: usize| left_out.get(at) == Some(&true);
                    let mut cut = filling.copies.iter().zip(&choices).enumerate();
                    if cut.clone().any(|(at, (copies, _))| *copies > 0 && is_out(at)) {
                        return None;
                    }
                    let more = |copies: u32, choice: &Choice| copies < choice.most && choice.length <= left;
                    if largest && cut.any(|(at, (copies, choice))| more(*copies, choice) && !is_out(at)) {
                        return None;
                    }
                    let (tail, mut value) = (filling.value - worth(&filling, &own), filling.value);
                    for (values, beside, floor) in &others {
                        let other = beside + worth(&filling, values) + tail;
                        match floor {
                            Some(floor) if other < *floor => return None,
                            Some(_) => {}
                            None => value = value.min(other),
                        }
                    }
                    (value >= floor).then_some((filling.copies, value))
                });
                let mut meeting: Vec<_> = meeting.collect();
                let sides = tables.iter().zip(&others);
                let sides = sides.map(|(tables, (_, beside, floor))| Side { tables, beside: *beside, floor: *floor });
                let passed = Cell::new(usize::MAX);
                let left_out = left_out.clone();
                let terms = Terms { sides: sides.collect(), largest: largest.then_some(&passed), left_out };
                let mut seen = Vec::new();
                knapsack.walk((choices.len(), state, room), terms, &mut floor.clone(), &mut |filling, _| {
                    seen.push((filling.copies.clone(), filling.value));
                    true
                });
                meeting.sort_unstable();
                seen.sort_unstable();
                prop_assert_eq!(seen, meeting);
            }
        }
    }

    #[test]
    fn a_walk_stops_where_no_more_may_be_passed_over() {
        let choice = |length, most| Choice { length, most, value: 1, step: Step::Stay };
        // Of one long piece and any number of short ones: with none of the short ones there is room for one.
        let knapsack = Knapsack::new(vec![choice(6, 1), choice(2, u32::MAX)], 9, 1, Tail::Nothing);
        let walk = |passed: usize| {
            let (passed, mut seen) = (Cell::new(passed), Vec::new());
            let terms = Terms { largest: Some(&passed), ..Terms::default() };
            let to_the_end = knapsack.walk((2, 0, 9), terms, &mut 0, &mut |filling, _| {
                seen.push(filling.copies.clone());
                true
            });
            (seen, to_the_end)
        };
        let (all, to_the_end) = walk(usize::MAX);
        assert_eq!((all.as_slice(), to_the_end), ([vec![0, 4], vec![1, 1]].as_slice(), true));
        assert_eq!(walk(1), (vec![vec![0, 4]], false));
    }
}
