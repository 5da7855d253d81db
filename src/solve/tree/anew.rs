//! What cuts the best plan anew beside the tree, on a strand of its own, until that ends; and mends what it could not
//! finish, among the layouts and patterns that it met. As long as the best plan is far above the bound, it rests most of
//! the time, so that the trees get on. It proves nothing.

use super::super::anew::{Anew, Hints};
use super::super::draft::Draft;
use super::super::generate::Relaxed;
use super::super::master::Made;
use super::super::need::Need;
use super::super::outlay;
use super::super::rework::Rework;
use super::super::scope::Scope;
use super::super::watch::Watch;
use super::finder::Job;
use super::priced;
use super::strand::{Priced, Strand};
use crate::model::Problem;

/// Work until it is asked again whether to stop and what others have found.
const WORK: u64 = 100_000;
/// How long to mend what is on the bench at the end of a cycle, by the clock.
const MENDING: u64 = 40_000_000;
/// So many steps of what plans can cost, or such a part of the bound, the best plan is above the bound at most where it
/// is near.
const NEAR: [i64; 2] = [4, 400];
/// For how many times as long as it worked it rests where the best plan is not near.
const REST: u64 = 3;
/// What a panel is worth at least, beside the average of what plans cost for its area.
const LEAST_WORTH: f64 = 0.3;

/// What the first linear program tells; a panel of any size is never worth far less than its area tells.
#[allow(clippy::cast_precision_loss)] // only guides a search
pub(super) fn hints(problem: &Problem, relaxed: &Relaxed) -> Hints {
    let area = |size: usize| {
        let sides = problem.sizes[size].sides;
        sides.width.least.raw() as f64 * sides.height.least.raw() as f64
    };
    let all: f64 = (0..problem.sizes.len()).map(|size| f64::from(problem.sizes[size].count) * area(size)).sum();
    let least = |size: usize| LEAST_WORTH * relaxed.cost * area(size) / all.max(1.0);
    let (scale, prices) = (relaxed.prices.scale as f64, relaxed.prices.size.iter().enumerate());
    let worth = prices.map(|(size, price)| (*price as f64 / scale).max(least(size))).collect();
    let mut sheets = vec![0.0; problem.rippings.len()];
    for (made, copies) in &relaxed.used {
        if let Made::Layout(layout) = made {
            sheets[layout.ripping] += copies;
        }
    }
    Hints { worth, sheets }
}

/// What cuts the best plan anew.
pub(super) struct Cutter<'a> {
    problem: &'a Problem,
    need: &'a Need,
    strand: &'a Strand<'a, Job>,
    best: Priced,
}

impl<'a> Cutter<'a> {
    /// Begins with a plan.
    pub(super) fn new(problem: &'a Problem, need: &'a Need, strand: &'a Strand<'a, Job>, best: Priced) -> Cutter<'a> {
        Cutter { problem, need, strand, best }
    }

    /// Cuts the plan anew until the tree has ended, or nothing can be cheaper.
    pub(super) fn work(mut self, hints: Hints) {
        let _guard = self.strand.guard();
        let Some(target) = self.target() else { return };
        let Some(mut anew) = Anew::new(self.problem, self.need, hints, &self.best.0, target) else { return };
        let mut told = 0;
        loop {
            let mut cheaper = anew.round().is_some_and(|draft| self.take(&draft));
            if let Some((bench, noted)) = anew.cycle() {
                let began = self.strand.now();
                cheaper |= self.mend(&bench, noted);
                self.rest(self.strand.now() - began);
            }
            let work = anew.work() - told;
            if work >= WORK {
                told += work;
                self.strand.worked(work);
                self.rest(work);
                if self.strand.stop() {
                    return;
                }
                if let Some(plan) = self.strand.learn(Some(self.best.1)) {
                    self.best = plan;
                    cheaper = true;
                }
            }
            if cheaper {
                let Some(target) = self.target() else { return };
                anew.go_on_from(&self.best.0, target);
            }
        }
    }

    /// Rests after work of so many nanoseconds, so that the trees get on, unless the best plan is near the bound: far from
    /// it, they mostly meet the cheapest one sooner.
    fn rest(&self, worked: u64) {
        let near = |bound: i64| (NEAR[0] * self.problem.charges.step()).max(bound / NEAR[1]);
        if self.strand.bound().is_some_and(|bound| self.best.1 - bound > near(bound)) {
            self.strand.worked(REST * worked);
        }
    }

    /// Mends what is on the bench: a few of its sheets are taken apart, and what they and the missing panels become is
    /// searched for. Says whether a cheaper plan is known then.
    fn mend(&mut self, bench: &Draft, pool: Vec<Made>) -> bool {
        let (scope, before) = (Scope::all(self.problem, self.need, Some(self.best.1)), self.best.1);
        let from = (bench, before);
        let Some(mut rework) = Rework::mend(self.problem, self.need, &scope, pool, from, self.strand) else {
            return false;
        };
        let end = self.strand.now() + MENDING;
        while self.strand.now() < end && !rework.is_done() && !self.strand.stop() {
            if let Some(plan) = self.strand.learn(Some(self.best.1)) {
                self.best = plan;
                return true;
            }
            if let Some(draft) = rework.round() {
                self.take(&draft);
            }
        }
        self.best.1 < before
    }

    /// Keeps and tells a plan that is cheaper; says whether it is.
    fn take(&mut self, draft: &Draft) -> bool {
        let plan = draft.serves(self.problem, self.need).then(|| priced(self.problem, self.need, draft));
        let cheaper = plan.filter(|(_, cost)| *cost < self.best.1);
        cheaper.is_some_and(|plan| {
            self.strand.tell(plan.clone());
            self.best = plan;
            true
        })
    }

    /// The greatest cost that is an improvement.
    fn target(&self) -> Option<i64> {
        let scope = Scope::all(self.problem, self.need, Some(self.best.1));
        outlay::most_below(self.problem, &scope, self.best.1)
    }
}

#[cfg(test)]
mod tests {
    use super::super::strand::{ANEW, Strands, TREE};
    use super::*;
    use crate::data::{File, Source, read};
    use crate::solve::Patient;

    const BATCH: &str = "[[sheet]]\nname = \"whole\"\nlength = 96\nwidth = 48\nprice = 30.00\n\
                         [[panel]]\nsize = \"11 x 12\"\ncount = 12\n[yard]\ncut_price = 0.50\n";

    #[test]
    fn it_rests_as_long_as_the_best_plan_is_far_above_the_bound() {
        let job = read(&Source { job: File::of("batch", BATCH), list: None, rack: None }).expect("it is sound");
        let problem = crate::model::build(&job).expect("they can be made");
        let need = Need::of(&problem);
        let cents = |cents: i64| cents * problem.charges.cent;
        let after_work = |best: i64, bound: Option<i64>| {
            let strands: Strands<Job> = Strands::new(&Patient);
            let [first, cutting] = [TREE, ANEW].map(|index| strands.strand(index));
            if let Some(bound) = bound {
                first.tell_bound(cents(bound));
            }
            first.worked(1_000_000_000);
            cutting.begin(100_000_000);
            Cutter::new(&problem, &need, &cutting, (Draft::default(), cents(best))).rest(1_000);
            cutting.now() - 100_000_000
        };
        assert_eq!(after_work(8_000, None), 0, "no bound is known");
        assert_eq!(after_work(8_000, Some(7_800)), 0, "four cuts above it");
        assert_eq!(after_work(8_000, Some(7_750)), 3_000, "five cuts");
        assert_eq!(after_work(400_000, Some(399_010)), 0, "a four-hundredth part");
        assert_eq!(after_work(400_000, Some(398_990)), 3_000, "more than that");
    }
}
