//! One trial: is there a plan with these ways to cut alone that makes all panels at the cost and the worth held? Trials
//! are counted, not timed, so that the same job gives the same plan.

use super::super::draft::Draft;
use super::super::layout::Layout;
use super::super::master::Made;
use super::super::watch::Watch;
use super::branch::search;
use super::most::better;
use super::narrow::{carried, carry, to_widths};
use super::program::Means;
use super::refuted::Refuted;
use super::regroup::regroup;
use super::relax::{Until, relax};
use super::{Held, bounds};
use crate::length::Length;
use crate::model::Problem;
use std::cell::Cell;
use std::collections::{BTreeMap, BTreeSet};

/// What a trial found out.
pub(super) enum Trial {
    /// A plan that is taken.
    Found(Box<Draft>),
    /// There is no such plan.
    Never,
    /// Neither.
    Unsure,
}

/// What all trials of an aim share.
pub(super) struct Trials<'a> {
    /// The whole problem.
    pub problem: &'a Problem,
    /// What must be held.
    pub held: Held,
    /// Whether the problem holds every way to cut that the job permits.
    pub complete: bool,
    /// Layouts and patterns to begin with.
    pub found: &'a [Made],
    /// Prices that refuted trials on any sheets, and on sheets that are ripped already.
    pub refuted: [Refuted; 2],
    /// Trials left.
    pub left: Cell<u32>,
    /// Searches left that may find nothing.
    pub misses: Cell<u32>,
    /// Who may stop them.
    pub watch: &'a dyn Watch,
}

/// Most trials of one aim.
const TRIALS: u32 = 40;
/// Most searches of one aim that may find nothing.
const MISSES: u32 = 15;
/// Most nodes of the search of one trial.
const NODES: usize = 60;

/// What the trials of all aims share.
#[derive(Clone, Copy)]
pub(super) struct Work<'a> {
    /// The whole problem.
    pub problem: &'a Problem,
    /// Whether it holds every way to cut that the job permits.
    pub complete: bool,
    /// Layouts and patterns to begin with.
    pub found: &'a [Made],
    /// Who may stop them.
    pub watch: &'a dyn Watch,
}

impl<'a> Trials<'a> {
    /// All trials of an aim for plans that hold this.
    pub(super) fn new(work: Work<'a>, held: Held) -> Trials<'a> {
        let (Work { problem, complete, found, watch }, left, misses) = (work, TRIALS.into(), MISSES.into());
        Trials { problem, held, complete, found, refuted: Default::default(), left, misses, watch }
    }

    /// Whether trials must end.
    pub(super) fn over(&self) -> bool {
        self.left.get() == 0 || self.misses.get() == 0 || self.watch.stop()
    }

    /// Tries these rip widths alone for a plan that `accept` takes.
    pub(super) fn run_widths(&self, widths: &BTreeSet<Length>, accept: &dyn Fn(&Draft) -> bool) -> Trial {
        let (problem, means) = (self.problem, self.means(None));
        let known = || self.refuted[0].never_with(problem, widths, means, self.held.worth);
        self.counted(known, || self.tried(&to_widths(problem, widths), means, accept))
    }

    /// Tries these ways to cut, and where the yard's work is settled these sheets, for a plan that `accept` takes.
    pub(super) fn run(
        &self,
        narrow: &Problem,
        ripped: Option<&BTreeMap<Layout, u32>>,
        accept: &dyn Fn(&Draft) -> bool,
    ) -> Trial {
        let means = self.means(ripped);
        let known = || self.refuted[usize::from(ripped.is_some())].never(narrow, means, self.held.worth);
        self.counted(known, || self.tried(narrow, means, accept))
    }

    fn means<'b>(&self, ripped: Option<&'b BTreeMap<Layout, u32>>) -> Means<'b> {
        Means { cost: self.held.cost, sheets: bounds::sheets(self.problem), ripped }
    }

    /// One trial of those left: what prices of earlier ones refute need not be tried.
    fn counted(&self, known: impl FnOnce() -> bool, tried: impl FnOnce() -> Trial) -> Trial {
        if self.over() {
            return Trial::Unsure;
        }
        self.left.set(self.left.get() - 1);
        if known() { self.refutation() } else { tried() }
    }

    /// What it means that no plan of these ways to cut does.
    fn refutation(&self) -> Trial {
        if self.complete { Trial::Never } else { Trial::Unsure }
    }

    fn tried(&self, narrow: &Problem, means: Means, accept: &dyn Fn(&Draft) -> bool) -> Trial {
        let (problem, held) = (self.problem, self.held);
        let found: Vec<Made> = self.found.iter().filter_map(|made| carry(problem, narrow, made)).collect();
        let relaxed = relax(narrow, means, &found, (held.worth, Until::Known), self.watch);
        if relaxed.most < held.worth {
            if let Some(prices) = relaxed.prices {
                self.refuted[usize::from(means.ripped.is_some())].keep(prices);
            }
            return self.refutation();
        }
        if !relaxed.open {
            return Trial::Unsure;
        }
        let ready = |draft: &Draft| {
            let draft = regroup(problem, &better(problem, &carried(narrow, problem, draft)?, held.cost)?, held);
            (held.by(problem, &draft) && accept(&draft)).then_some(draft)
        };
        let found = search(narrow, means, &relaxed.found, (held.worth, NODES), self.watch, &ready);
        if found.is_none() {
            self.misses.set(self.misses.get().saturating_sub(1));
        }
        found.map_or(Trial::Unsure, |draft| Trial::Found(Box::new(draft)))
    }
}
