//! Branch and bound over a listed pool: is there a plan that costs no more than a target?
//!
//! Depth first, each node warm from its parent's basis. A node is closed only by whole numbers: the relaxation's
//! prices are rounded to fixed point, every column's reduced cost is recomputed exactly, and the bound
//! `prices x right side + sum of reduced costs at their cheaper bounds` holds for any prices (so does the one along a
//! ray that shows a node empty). Columns whose reduced cost is above what is left to the target are fixed the same way.

use super::draft::Draft;
use super::fixed_point::{Exact, Moved};
use super::need::Need;
use super::prices::scale;
use super::program::{Counts, Program};
use super::simplex::{Outcome, Place, Saved};
use super::watch::Watch;
use crate::model::Problem;
use std::collections::BTreeMap;

/// What the search found out.
#[derive(Debug)]
pub(super) enum Verdict {
    /// A plan within the target.
    Found(Box<Draft>),
    /// There is none in the pool.
    Nothing,
    /// Time or nodes ran out, or a node could not be closed exactly.
    Unsure,
}

/// The search and what it works on.
pub(super) struct Search<'a> {
    problem: &'a Problem,
    need: &'a Need,
    program: Program,
    target: i64,
    scale: i64,
    /// Nodes left.
    nodes: usize,
    unsure: bool,
    /// Bounds as they were, to be undone.
    trail: Vec<Moved>,
    watch: &'a dyn Watch,
}

/// Values within this of a whole number are whole.
const WHOLE: f64 = 1e-6;

/// What is missing to the next whole number where a value is rounded up first.
const GLADLY: f64 = 0.3;

/// How far along a ray the bound is tried.
const RAYS: [f64; 5] = [1.0, 16.0, 256.0, 4096.0, 65536.0];

impl<'a> Search<'a> {
    /// A search over this program for a plan of at most `target` units, through at most `nodes` nodes.
    pub(super) fn new(
        problem: &'a Problem,
        need: &'a Need,
        program: Program,
        target: i64,
        nodes: usize,
        watch: &'a dyn Watch,
    ) -> Self {
        let scale = scale(problem);
        Search { problem, need, program, target, scale, nodes, unsure: false, trail: Vec::new(), watch }
    }

    /// Runs the search.
    pub(super) fn run(mut self) -> Verdict {
        let found = self.explore();
        self.verdict(found)
    }

    /// Solves the relaxation of all plans, to come back to; none where there is no plan within the target.
    pub(super) fn root(&mut self) -> Option<Saved> {
        (!self.closed()).then(|| self.program.lp.mark())
    }

    /// Runs the search, from the root, among the plans that keep at least so many of some columns and no more than so
    /// many of another.
    pub(super) fn keeping(
        &mut self,
        root: &Saved,
        target: i64,
        kept: &BTreeMap<usize, i64>,
        shunned: Option<(usize, i64)>,
        nodes: usize,
    ) -> Verdict {
        (self.target, self.nodes, self.unsure) = (target, nodes, false);
        if !self.program.lp.back_to(root) {
            return Verdict::Unsure;
        }
        let mark = self.trail.len();
        for (column, copies) in kept {
            let (_, most) = self.program.lp.bounds(*column);
            self.set_bounds(*column, real(*copies).min(most), most);
        }
        if let Some((column, copies)) = shunned {
            let (least, _) = self.program.lp.bounds(column);
            self.set_bounds(column, least, real(copies));
        }
        let found = self.explore();
        self.undo(mark);
        self.verdict(found)
    }

    fn verdict(&self, found: Option<Draft>) -> Verdict {
        match found {
            Some(draft) => Verdict::Found(Box::new(draft)),
            None if self.unsure => Verdict::Unsure,
            None => Verdict::Nothing,
        }
    }

    /// Explores the node that the current bounds and basis stand for.
    fn explore(&mut self) -> Option<Draft> {
        if self.nodes == 0 || self.watch.stop() {
            self.unsure = true;
            return None;
        }
        self.nodes -= 1;
        if self.closed() {
            return None;
        }
        let Some(column) = self.branching() else { return self.whole() };
        let value = self.program.lp.value(column);
        let (least, most) = self.program.lp.bounds(column);
        let basis = self.program.lp.mark();
        let mark = self.trail.len();
        self.set_bounds(column, value.ceil(), most);
        let found = self.explore();
        self.undo(mark);
        if found.is_some() {
            return found;
        }
        if !self.program.lp.back_to(&basis) {
            self.unsure = true;
            return None;
        }
        self.set_bounds(column, least, value.floor());
        let found = self.explore();
        self.undo(mark);
        found
    }

    /// A plan from a node whose values are all whole, checked in whole numbers.
    fn whole(&mut self) -> Option<Draft> {
        let draft = self.program.draft();
        let good = draft.serves(self.problem, self.need) && draft.cost(self.problem) <= self.target;
        self.unsure |= !good;
        good.then_some(draft)
    }

    /// Solves the node's relaxation; true where it holds no plan within the target.
    fn closed(&mut self) -> bool {
        let limit = real(self.target) / self.program.unit * (1.0 + 1e-9) + 1e-9;
        let mut outcome = self.program.lp.dual(limit);
        if outcome == Outcome::PastLimit {
            if self.judge(&self.program.lp.prices()).is_none() {
                return true;
            }
            outcome = self.program.lp.dual(f64::INFINITY);
        }
        match outcome {
            Outcome::Optimal => match self.judge(&self.program.lp.prices()) {
                None => true,
                Some(tightened) => {
                    for (column, least, most) in tightened {
                        self.set_bounds(column, least, most);
                    }
                    false
                }
            },
            Outcome::Infeasible(ray) => {
                let empty = self.empty(&ray);
                self.unsure |= !empty;
                true
            }
            Outcome::PastLimit | Outcome::Lost => {
                self.unsure = true;
                true
            }
        }
    }

    /// Whether prices along the ray prove that the node holds nothing.
    fn empty(&self, ray: &[f64]) -> bool {
        let prices = self.program.lp.prices();
        RAYS.iter().any(|far| {
            let along: Vec<f64> = prices.iter().zip(ray).map(|(price, part)| price + far * part).collect();
            self.judge(&along).is_none()
        })
    }

    /// The exact bound at these prices: none where it passes the target, else the bounds that can be tightened.
    fn judge(&self, prices: &[f64]) -> Option<Vec<Moved>> {
        let Program { lp, cost, entries, right, .. } = &self.program;
        Exact { lp, cost, entries, right, scale: self.scale }.judge(&self.fixed(prices), self.target)
    }

    /// Prices in fixed point, not below zero where a row may be overfilled.
    #[allow(clippy::cast_possible_truncation)] // rounded to fixed point, once
    fn fixed(&self, prices: &[f64]) -> Vec<i64> {
        let to_units = self.program.unit * real(self.scale);
        let of = |(price, free): (&f64, &bool)| {
            let fixed = (price * to_units).round().clamp(-1e15, 1e15) as i64;
            if *free { fixed } else { fixed.max(0) }
        };
        prices.iter().zip(&self.program.free).map(of).collect()
    }

    /// The column to branch on: the first kind of count that is not whole, and of it the one that rounds up most
    /// gladly.
    fn branching(&self) -> Option<usize> {
        let mut best: Option<(Counts, f64, usize)> = None;
        for (column, counts) in self.program.counts.iter().enumerate() {
            if *counts == Counts::Slack || !matches!(self.program.lp.place(column), Place::Basic(_)) {
                continue;
            }
            let value = self.program.lp.value(column);
            if (value - value.round()).abs() <= WHOLE {
                continue;
            }
            let far = (value.ceil() - value - GLADLY).abs();
            if best.is_none_or(|(first, least, _)| (*counts, far) < (first, least)) {
                best = Some((*counts, far, column));
            }
        }
        best.map(|(_, _, column)| column)
    }

    fn set_bounds(&mut self, column: usize, least: f64, most: f64) {
        let before = self.program.lp.bounds(column);
        self.trail.push((column, before.0, before.1));
        self.program.lp.set_bounds(column, least, most);
    }

    fn undo(&mut self, mark: usize) {
        while self.trail.len() > mark {
            let (column, least, most) = self.trail.pop().expect("longer than the mark");
            self.program.lp.set_bounds(column, least, most);
        }
    }
}

#[allow(clippy::cast_precision_loss)] // counts and costs of an order
fn real(number: i64) -> f64 {
    number as f64
}
