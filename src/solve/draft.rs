//! A plan in whole numbers of layouts and patterns, before it becomes sheets with strips with panels.

use super::layout::Layout;
use super::master::Made;
use super::need::Need;
use super::pattern::{Blank, Pattern, Pieces};
use crate::model::Problem;
use std::collections::BTreeMap;

/// How many of each layout and pattern.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(super) struct Draft {
    /// Sheets ripped alike.
    pub layouts: BTreeMap<Layout, u32>,
    /// Strips crosscut alike.
    pub patterns: BTreeMap<Pattern, u32>,
    /// Strips on hand crosscut alike, with their index in `Problem::on_hand`.
    pub on_hand: BTreeMap<(usize, Pattern), u32>,
}

impl Draft {
    /// Counts `copies` more of something.
    pub(super) fn add(&mut self, made: Made, copies: u32) {
        match made {
            Made::Layout(layout) => *self.layouts.entry(layout).or_default() += copies,
            Made::Pattern(pattern) => *self.patterns.entry(pattern).or_default() += copies,
            Made::OnHand(strip, pattern) => *self.on_hand.entry((strip, pattern)).or_default() += copies,
        }
    }

    /// All that it is made of, each once.
    pub(super) fn made_of(&self) -> impl Iterator<Item = Made> {
        let on_hand = self.on_hand.keys().cloned().map(|(strip, pattern)| Made::OnHand(strip, pattern));
        let layouts = self.layouts.keys().cloned().map(Made::Layout);
        layouts.chain(self.patterns.keys().cloned().map(Made::Pattern)).chain(on_hand)
    }

    /// What it costs, in units: sheets, cuts by the sheet, and cuts by the order.
    pub(super) fn cost(&self, problem: &Problem) -> i64 {
        let each = self.layouts.iter().map(|(layout, copies)| i64::from(*copies) * layout.cost(problem));
        each.sum::<i64>() + self.order_cuts(problem)
    }

    fn order_cuts(&self, problem: &Problem) -> i64 {
        let cuts = self.layouts.iter().map(|(layout, copies)| i64::from(copies * layout.cuts(problem)));
        problem.charges.of_order(cuts.sum())
    }

    /// Panels of each size that it makes.
    pub(super) fn made(&self, problem: &Problem) -> Vec<u32> {
        let mut made = vec![0; problem.sizes.len()];
        let on_hand = self.on_hand.iter().map(|((_, pattern), copies)| (pattern, copies));
        for (pattern, copies) in self.patterns.iter().chain(on_hand) {
            for (size, each) in pattern.yields(problem) {
                made[size] += each * copies;
            }
        }
        made
    }

    /// Strips given by its layouts less those its patterns use, by blank.
    pub(super) fn spare_strips(&self, problem: &Problem) -> BTreeMap<Blank, i64> {
        let mut spare: BTreeMap<Blank, i64> = BTreeMap::new();
        for (layout, copies) in &self.layouts {
            for (blank, each) in layout.blanks(problem) {
                *spare.entry(blank).or_default() += i64::from(each * copies);
            }
        }
        for (pattern, copies) in &self.patterns {
            *spare.entry(pattern.blank).or_default() -= i64::from(*copies);
        }
        spare
    }

    /// The same plan without strips that nothing is cut from, each left out where that saves most.
    pub(super) fn without_spare_strips(&self, problem: &Problem) -> Draft {
        let mut draft = self.clone();
        for (blank, spare) in self.spare_strips(problem) {
            for _ in 0..spare.max(0) {
                draft.leave_out(problem, blank);
            }
        }
        draft
    }

    /// Leaves one strip out of a sheet, and the sheet where it was the last.
    fn leave_out(&mut self, problem: &Problem, blank: Blank) {
        let leaner = self.layouts.keys().filter_map(|layout| Some((layout.clone(), layout.without(problem, blank)?)));
        let cost = |layout: &Layout| (layout.cost(problem), layout.cuts(problem));
        let saved = |(before, after): &(Layout, Layout)| {
            let ((cost, cuts), (left, cuts_left)) = (cost(before), cost(after));
            if after.boards.iter().all(|board| board.strips.is_empty()) {
                (i64::MAX, 0)
            } else {
                (cost - left, i64::from(cuts) - i64::from(cuts_left))
            }
        };
        let Some((before, after)) = leaner.max_by_key(saved) else { return };
        let copies = self.layouts.get_mut(&before).expect("it was taken from there");
        *copies -= 1;
        if *copies == 0 {
            self.layouts.remove(&before);
        }
        if after.boards.iter().any(|board| !board.strips.is_empty()) {
            self.add(Made::Layout(after), 1);
        }
    }

    /// Whether it makes all that is needed with no more than there is: the last word on every answer, in whole numbers.
    pub(super) fn serves(&self, problem: &Problem, need: &Need) -> bool {
        let panels = self.made(problem).iter().zip(&need.count).all(|(made, count)| made >= count);
        let strips = self.spare_strips(problem).values().all(|spare| *spare >= 0);
        panels
            && strips
            && self.within_stock(problem, need)
            && self.patterns.keys().all(|pattern| Pieces::of(problem, pattern).fit(problem, pattern.blank))
    }

    fn within_stock(&self, problem: &Problem, need: &Need) -> bool {
        let mut sheets = vec![0_u32; need.stock.len()];
        self.layouts.iter().for_each(|(l, copies)| sheets[problem.rippings[l.ripping].sheet] += copies);
        let mut strips = vec![0_u32; need.on_hand.len()];
        self.on_hand.iter().for_each(|((strip, _), copies)| strips[*strip] += copies);
        let stocked = sheets.iter().zip(&need.stock).all(|(used, stock)| stock.is_none_or(|most| *used <= most));
        let cuts = |layout: &Layout| problem.charges.most_cuts.is_none_or(|most| layout.cuts(problem) <= most);
        let fit = |layout: &Layout| {
            let ripping = &problem.rippings[layout.ripping];
            cuts(layout) && layout.boards.iter().all(|board| board.spare(problem, ripping) >= 0)
        };
        stocked && strips.iter().zip(&need.on_hand).all(|(used, have)| used <= have) && self.layouts.keys().all(fit)
    }
}
