//! One trial: is there a plan with these ways to cut alone that makes all panels at the cost and the worth held? Trials
//! are counted, not timed, so that the same job gives the same plan.

use super::super::draft::Draft;
use super::super::layout::Layout;
use super::super::master::Made;
use super::super::watch::Watch;
use super::branch::search;
use super::most::better;
use super::narrow::{carried, carry};
use super::program::Means;
use super::regroup::regroup;
use super::relax::{Until, relax};
use super::{Held, bounds};
use crate::model::Problem;
use std::cell::Cell;
use std::collections::BTreeMap;

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
    /// Trials left.
    pub left: Cell<u32>,
    /// Who may stop them.
    pub watch: &'a dyn Watch,
}

/// Most nodes of the search of one trial.
const NODES: usize = 60;

impl Trials<'_> {
    /// Whether trials must end.
    pub(super) fn over(&self) -> bool {
        self.left.get() == 0 || self.watch.stop()
    }

    /// Tries these ways to cut, and where the yard's work is settled these sheets, for a plan that `accept` takes.
    pub(super) fn run(
        &self,
        narrow: &Problem,
        ripped: Option<&BTreeMap<Layout, u32>>,
        accept: &dyn Fn(&Draft) -> bool,
    ) -> Trial {
        if self.over() {
            return Trial::Unsure;
        }
        self.left.set(self.left.get() - 1);
        let (problem, held) = (self.problem, self.held);
        let means = Means { cost: held.cost, sheets: bounds::sheets(problem), ripped };
        let found: Vec<Made> = self.found.iter().filter_map(|made| carry(problem, narrow, made)).collect();
        let relaxed = relax(narrow, means, &found, (held.worth, Until::Known), self.watch);
        if relaxed.most < held.worth {
            return if self.complete { Trial::Never } else { Trial::Unsure };
        }
        if !relaxed.open {
            return Trial::Unsure;
        }
        let ready = |draft: &Draft| {
            let draft = regroup(problem, &better(problem, &carried(narrow, problem, draft)?, held.cost)?, held);
            (held.by(problem, &draft) && accept(&draft)).then_some(draft)
        };
        match search(narrow, means, &relaxed.found, (held.worth, NODES), self.watch, &ready) {
            Some(draft) => Trial::Found(Box::new(draft)),
            None => Trial::Unsure,
        }
    }
}
