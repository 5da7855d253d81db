//! Extra panels from what would be waste: each fall-off of a strip and each spare strip is filled with the welcome
//! panels worth most, as long as that is worth more than keeping it. One strip after the other, each at its best (a
//! knapsack); not the best over all strips together. A strip on hand that is still whole is no waste.

use super::super::draft::Draft;
use super::super::knapsack::{Choice, Knapsack, Step};
use super::super::master::Made;
use super::super::pattern::{Blank, Pattern};
use super::super::tail::Tail;
use super::count::room;
use crate::model::Problem;

/// Welcome panels still to be had: for each size, how many of each worth.
struct Wishes<'a> {
    problem: &'a Problem,
    left: Vec<Vec<(u32, i64)>>,
}

/// The draft with extra panels in its fall-offs.
pub(super) fn fill(problem: &Problem, draft: &Draft) -> Draft {
    let mut wishes = Wishes::beyond(problem, draft);
    let mut filled = Draft { layouts: draft.layouts.clone(), ..Draft::default() };
    for ((strip, pattern), copies) in &draft.on_hand {
        for _ in 0..*copies {
            filled.add(Made::OnHand(*strip, wishes.filled(pattern)), 1);
        }
    }
    for (pattern, copies) in &draft.patterns {
        for _ in 0..*copies {
            filled.add(Made::Pattern(wishes.filled(pattern)), 1);
        }
    }
    for (blank, spare) in draft.spare_strips(problem) {
        for pattern in wishes.fresh(blank, spare) {
            filled.add(Made::Pattern(pattern), 1);
        }
    }
    filled
}

impl<'a> Wishes<'a> {
    /// What is welcome beyond the draft's own extra panels.
    fn beyond(problem: &'a Problem, draft: &Draft) -> Wishes<'a> {
        let left = problem.sizes.iter().zip(draft.made(problem)).map(|(size, made)| {
            let mut extras = made.saturating_sub(size.count);
            let left = size.wishes.iter().map(|wish| {
                let taken = extras.min(wish.most);
                extras -= taken;
                (wish.most - taken, wish.worth)
            });
            left.collect()
        });
        Wishes { problem, left: left.collect() }
    }

    /// Patterns of up to so many strips that nothing is cut from yet.
    fn fresh(&mut self, blank: Blank, strips: i64) -> Vec<Pattern> {
        let empty = Pattern { blank, pieces: Vec::new() };
        let patterns = (0..strips).map_while(|_| Some(self.filled(&empty)).filter(|filled| !filled.pieces.is_empty()));
        patterns.collect()
    }

    /// The pattern with what is worth most in its fall-off. Pieces too short to hold are left out: a longer one is
    /// always safe to add.
    fn filled(&mut self, pattern: &Pattern) -> Pattern {
        let (problem, room) = (self.problem, room(self.problem, pattern));
        let width = &problem.families[pattern.blank.family].widths[pattern.blank.width];
        let (mut choices, mut goods) = (Vec::new(), Vec::new());
        for (at, laid) in width.laid.iter().enumerate().filter(|(_, laid)| laid.along >= problem.shortest) {
            let length = (laid.along + problem.kerf).raw();
            for (wish, (most, value)) in self.left[laid.size].iter().enumerate() {
                if *most > 0 && *value > 0 && length <= room {
                    choices.push(Choice { length, most: *most, value: *value, step: Step::Stay });
                    goods.push((at, laid.size, wish));
                }
            }
        }
        if goods.is_empty() {
            return pattern.clone();
        }
        let tail = Tail::of_strip(problem, width.width, 1);
        // A strip that nothing is cut from is no offcut.
        let floor = if pattern.pieces.is_empty() { 0 } else { tail.worth(room) };
        let knapsack = Knapsack::new(choices, room, 1, tail);
        let filling = knapsack.best(goods.len(), 0, room, floor);
        let mut filled = pattern.clone();
        for ((at, size, wish), copies) in goods.into_iter().zip(filling.map_or_else(Vec::new, |best| best.copies)) {
            let left = &mut self.left[size][wish].0;
            add(&mut filled, at, copies.min(*left));
            *left = left.saturating_sub(copies);
        }
        filled
    }
}

/// So many more panels lying in this way.
fn add(pattern: &mut Pattern, at: usize, copies: u32) {
    match pattern.pieces.iter_mut().find(|piece| piece.0 == at) {
        Some(piece) => piece.1 += copies,
        None if copies > 0 => pattern.pieces.push((at, copies)),
        None => {}
    }
    pattern.pieces.sort_unstable();
}
