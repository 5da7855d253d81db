//! The yard's aim and the aim at home, beside each other. The yard's mostly keeps the plan that strips changing places
//! among the sheets gives; so settings at home are lessened for that plan on a thread of its own, while smaller sets of
//! rip widths and other layouts are still tried. Where one of those does better, what was done at home is dropped, and
//! done again for the better plan. Either way it comes to what doing one after the other comes to.

use super::super::draft::Draft;
use super::super::thread::{joined, spawn};
use super::super::watch::{Progress, Watch};
use super::regroup::regroup;
use super::trial::{Trials, Work};
use super::{Held, alike, count, stops, yard};
use std::sync::OnceLock;
use std::sync::atomic::{AtomicBool, Ordering::Relaxed};
use std::thread;

/// What both aims came to.
pub(super) struct Both {
    /// The plan.
    pub draft: Draft,
    /// The most layouts and rip widths that it has.
    pub held: Held,
    /// The fewest layouts and rip widths that there can be.
    pub yard: i64,
    /// The fewest settings that there can be.
    pub home: i64,
}

/// The plan with fewest layouts and rip widths that was found, and of those the one with fewest settings.
pub(super) fn both(work: Work, draft: &Draft, held: Held, must_buy: bool) -> Both {
    let first = regroup(work.problem, draft, held);
    let settled = |draft: &Draft| Held { layouts: count::layouts(work.problem, draft), ..held };
    let worthwhile = count::lengths(work.problem, &first).len() > 1;
    let (alike, dropped) = (OnceLock::new(), AtomicBool::new(false));
    let alike = || *alike.get_or_init(|| alike::may_be(work, held));
    let layouts = || if must_buy { 2 - i64::from(alike()) } else { 0 };
    thread::scope(|scope| {
        let ahead = worthwhile.then(|| {
            spawn(scope, || {
                let watch = Unless { dropped: &dropped, watch: work.watch };
                stops::fewest(&Trials::new(Work { watch: &watch, ..work }, settled(&first)), &first, &layouts)
            })
        });
        let (draft, least, widths) = yard::fewest(&Trials::new(work, held), &first, must_buy, &layouts);
        let same = draft == first;
        dropped.store(!same, Relaxed);
        let ahead = ahead.map(joined).filter(|_| same);
        let held = settled(&draft);
        let home = || stops::fewest(&Trials::new(work, held), &draft, &|| least);
        let (draft, home) = ahead.unwrap_or_else(home);
        Both { draft, held, yard: least + widths, home }
    })
}

/// A watch that stops what is not wanted any more.
struct Unless<'a> {
    dropped: &'a AtomicBool,
    watch: &'a dyn Watch,
}

impl Watch for Unless<'_> {
    fn stop(&self) -> bool {
        self.dropped.load(Relaxed) || self.watch.stop()
    }
    fn seconds(&self) -> f64 {
        self.watch.seconds()
    }
    fn allowed(&self) -> f64 {
        self.watch.allowed()
    }
    fn report(&self, progress: Progress) {
        self.watch.report(progress);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::data::{File, Source, read};
    use crate::solve::Patient;
    use crate::solve::aims::most::most;
    use crate::solve::money;

    /// Batches of four sizes: of some the yard's aim keeps the first plan, of others it does better.
    fn batch(seed: usize) -> String {
        let panel = |at: usize| {
            let size =
                ["5 x 7", "6 x 8", "8 x 10", "9 x 12", "11 x 14", "12 x 16"][(seed * 5 + at * (1 + seed % 3)) % 6];
            format!("[[panel]]\nsize = \"{size}\"\ncount = {}\n", 3 + (seed * 7 + at * 11) % 17)
        };
        let panels: String = (0..4).map(panel).collect();
        format!("[[sheet]]\nlength = 96\nwidth = 48\nprice = 38.50\n{panels}[yard]\nrips = \"either\"\n")
    }

    #[test]
    fn comes_to_what_one_after_the_other_comes_to() {
        let mut kept = Vec::new();
        for seed in 0..12 {
            let job =
                read(&Source { job: File::of("batch", batch(seed)), list: None, rack: None }).expect("it is sound");
            let problem = crate::model::build(&job).expect("they can be made");
            let Ok(money) = money::least(&problem, &Patient) else { panic!("it can be done") };
            let most = most(&problem, &money.draft, (money.cost, true), &Patient);
            let work = Work { problem: &problem, complete: true, found: &most.found, watch: &Patient };
            let held = Held { cost: money.cost, worth: most.value, layouts: i64::MAX };
            let first = regroup(&problem, &most.draft, held);
            let layouts = || if alike::may_be(work, held) { 1 } else { 2 };
            let (draft, least, widths) = yard::fewest(&Trials::new(work, held), &first, true, &layouts);
            kept.push(draft == first);
            let settled = Held { layouts: count::layouts(&problem, &draft), ..held };
            let (draft, home) = stops::fewest(&Trials::new(work, settled), &draft, &|| least);
            let both = both(work, &most.draft, held, true);
            assert_eq!((both.draft, both.yard, both.home), (draft, least + widths, home), "batch {seed}");
            assert_eq!(both.held.layouts, settled.layouts);
        }
        assert!(kept.contains(&true) && kept.contains(&false), "{kept:?}");
    }
}
