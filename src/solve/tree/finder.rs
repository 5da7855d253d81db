//! What looks for cheaper plans beside the tree, on a strand of its own: it dives from linear programs, and reworks the
//! best plan, as the tree hands it over. It proves nothing.

use super::super::cover::Cover;
use super::super::dive::{Choice, dive};
use super::super::draft::Draft;
use super::super::generate::{Bounded, Relaxed};
use super::super::master::Made;
use super::super::need::Need;
use super::super::rework::Rework;
use super::super::scope::Scope;
use super::super::watch::Watch;
use super::near::near;
use super::priced;
use super::strand::{Priced, Strand};
use crate::model::Problem;

/// What the tree has the finder do, and the best plan by then.
pub(super) struct Job {
    /// The plan.
    pub plan: Option<Priced>,
    /// How to find a cheaper one.
    pub task: Task,
}

/// How to find cheaper plans.
pub(super) enum Task {
    /// Dive from this linear program of what is needed.
    Dive(Need, Relaxed),
    /// Rework the best plan.
    Rework(Material),
}

/// What a plan is reworked with: layouts and patterns close to a node's prices and those found on the way.
pub(super) struct Material {
    /// The plans of the node.
    pub scope: Scope,
    /// Its prices.
    pub lenses: Vec<Bounded>,
    /// What an improvement costs at most.
    pub target: Option<i64>,
    /// Layouts and patterns found on the way.
    pub found: Vec<Made>,
    /// What strips must do.
    pub covers: Vec<Cover>,
    /// Rounds in a row that may bring nothing.
    pub rounds: usize,
    /// No plan of the node costs less.
    pub bound: i64,
}

/// The finder.
pub(super) struct Finder<'a> {
    problem: &'a Problem,
    need: &'a Need,
    strand: &'a Strand<'a, Job>,
    best: Option<Priced>,
}

/// A walk from a plan.
struct Walk<'a> {
    rework: Rework<'a>,
    /// Rounds left that may bring nothing.
    left: usize,
}

impl<'a> Finder<'a> {
    /// Knows of no plan yet.
    pub(super) fn new(problem: &'a Problem, need: &'a Need, strand: &'a Strand<'a, Job>) -> Finder<'a> {
        Finder { problem, need, strand, best: None }
    }

    /// Does one job after the other, as they are handed over.
    pub(super) fn work(mut self) {
        let _guard = self.strand.guard();
        let mut next = self.strand.next();
        while let Some(job) = next {
            self.learn(job.plan);
            next = match job.task {
                Task::Dive(need, first) => {
                    self.dive(&need, &first);
                    None
                }
                Task::Rework(material) => self.rework(&material),
            };
            next = next.or_else(|| self.strand.next());
        }
    }

    /// Dives; says whether a cheaper plan came of it.
    fn dive(&mut self, need: &Need, first: &Relaxed) -> bool {
        let draft = dive(self.problem, need, first, Choice::Careful, self.strand);
        draft.is_some_and(|draft| self.take(&draft))
    }

    /// Keeps and tells a plan that is cheaper than the best known here; says whether it is.
    fn take(&mut self, draft: &Draft) -> bool {
        let plan = draft.serves(self.problem, self.need).then(|| priced(self.problem, self.need, draft));
        let cheaper = plan.filter(|(_, cost)| self.cost().is_none_or(|least| *cost < least));
        cheaper.is_some_and(|plan| {
            self.strand.tell(plan.clone());
            self.best = Some(plan);
            true
        })
    }

    fn cost(&self) -> Option<i64> {
        self.best.as_ref().map(|(_, cost)| *cost)
    }

    /// Takes over a plan that others have found; says whether it is cheaper.
    fn learn(&mut self, plan: Option<Priced>) -> bool {
        let cheaper = plan.filter(|(_, cost)| self.cost().is_none_or(|least| *cost < least));
        cheaper.map(|plan| self.best = Some(plan)).is_some()
    }

    /// Reworks the best plan until so many rounds in a row brought nothing, or it costs no more than the bound, or there
    /// is other material to rework it with, which it gives.
    fn rework(&mut self, material: &Material) -> Option<Job> {
        let lenses: Vec<&Bounded> = material.lenses.iter().collect();
        let near =
            |target| near(self.problem, self.need, &material.scope, &lenses, target, self.strand).unwrap_or_default();
        let mut pool = material.target.map(near).unwrap_or_default();
        pool.extend(material.found.iter().cloned());
        let mut walk = self.walk(&pool, material)?;
        while walk.left > 0 && !walk.rework.is_done() && self.cost().is_some_and(|cost| material.bound < cost) {
            walk.left -= 1;
            if walk.rework.round().is_some_and(|draft| self.take(&draft)) {
                walk.left = material.rounds;
            }
            let told = self.strand.learn(self.cost());
            let mut cheaper = self.learn(told);
            if self.strand.stop() {
                return None;
            }
            if let Some(job) = self.strand.newer() {
                cheaper |= self.learn(job.plan.clone());
                match &job.task {
                    Task::Dive(need, first) => cheaper |= self.dive(need, first),
                    Task::Rework(_) => return Some(job),
                }
            }
            if cheaper {
                walk = self.walk(&pool, material)?;
            }
        }
        None
    }

    fn walk(&self, pool: &[Made], material: &Material) -> Option<Walk<'a>> {
        let (plan, cost) = self.best.as_ref()?;
        let scope = Scope::all(self.problem, self.need, Some(*cost));
        let pool = (pool.to_vec(), material.covers.as_slice());
        let rework = Rework::new(self.problem, self.need, &scope, pool, plan, self.strand)?;
        Some(Walk { rework, left: material.rounds })
    }
}
