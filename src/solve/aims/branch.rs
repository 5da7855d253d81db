//! Branch and bound from what column generation found: is there a plan within the means that makes all panels and is
//! worth at least so much?
//!
//! Depth first, each node warm from its parent's basis; the first nodes add what pays at their own prices, so that a
//! dive finds the layouts and patterns that whole numbers need. It looks for plans and proves nothing: a node is closed
//! where what is known so far does not reach the goal. Every plan found is counted again before it is believed.

use super::super::draft::Draft;
use super::super::fixed_point::Exact;
use super::super::master::Made;
use super::super::simplex::{Moved, Outcome, Place};
use super::super::trail::Trail;
use super::super::watch::Watch;
use super::judge::judge;
use super::prices::scale;
use super::program::{Counts, Means, Program};
use crate::model::Problem;

/// Values within this of a whole number are whole.
const WHOLE: f64 = 1e-6;

/// The search.
struct Search<'a> {
    program: Program<'a>,
    problem: &'a Problem,
    means: Means<'a>,
    scale: i64,
    goal: i64,
    nodes: usize,
    /// Times that prices may still bring new layouts and patterns.
    pricings: usize,
    trail: Trail,
    watch: &'a dyn Watch,
    accept: &'a dyn Fn(&Draft) -> Option<Draft>,
}

/// A plan from these layouts and patterns worth at least `goal`, as `accept` makes it ready; none where none was found
/// within so many nodes.
pub(super) fn search<'a>(
    problem: &'a Problem,
    means: Means<'a>,
    found: &[Made],
    (goal, nodes): (i64, usize),
    watch: &'a dyn Watch,
    accept: &'a dyn Fn(&Draft) -> Option<Draft>,
) -> Option<Draft> {
    let mut program = Program::new(problem, means);
    for made in found {
        program.add(made.clone());
    }
    if !program.solve() {
        return None;
    }
    let (scale, pricings) = (scale(problem), nodes / 4);
    Search { program, problem, means, scale, goal, nodes, pricings, trail: Trail::default(), watch, accept }.explore()
}

impl Search<'_> {
    /// Explores the node that the current bounds and basis stand for.
    fn explore(&mut self) -> Option<Draft> {
        if self.nodes == 0 || self.watch.stop() {
            return None;
        }
        self.nodes -= 1;
        if self.closed() {
            return None;
        }
        let Some(column) = self.branching() else { return (self.accept)(&self.program.draft()) };
        let value = self.program.lp.value(column);
        let (least, most) = self.program.lp.bounds(column);
        let (basis, mark) = (self.program.lp.save(), self.trail.mark());
        for (least, most) in [(value.ceil(), most), (least, value.floor())] {
            self.trail.set(&mut self.program.lp, (column, least, most));
            let found = self.explore();
            self.trail.undo(&mut self.program.lp, mark);
            let basis = self.program.padded(basis.clone());
            if found.is_some() || !self.program.lp.restore(&basis) {
                return found;
            }
        }
        None
    }

    /// Solves the node's relaxation; true where it holds no plan that reaches the goal, or the method lost its way.
    fn closed(&mut self) -> bool {
        if self.program.lp.dual(f64::INFINITY) != Outcome::Optimal {
            return true;
        }
        self.price();
        let Some(tightened) = self.judge(&self.program.lp.prices()) else { return true };
        for moved in tightened {
            self.trail.set(&mut self.program.lp, moved);
        }
        false
    }

    /// Adds what pays at the node's prices.
    fn price(&mut self) {
        while self.pricings > 0 {
            self.pricings -= 1;
            let prices = self.program.prices();
            let judged = judge(self.problem, self.means, &prices);
            if !self.program.improve(&judged, &prices) || !self.program.solve() {
                break;
            }
        }
    }

    /// Exactly, at these prices: none where the goal is out of reach, else the bounds that can be tightened.
    fn judge(&self, prices: &[f64]) -> Option<Vec<Moved>> {
        let Program { lp, cost, entries, right, .. } = &self.program;
        Exact { lp, cost, entries, right, scale: self.scale }.judge(&self.fixed(prices), -self.goal)
    }

    /// Prices in fixed point, none below zero.
    #[allow(clippy::cast_possible_truncation)] // rounded to fixed point, once
    fn fixed(&self, prices: &[f64]) -> Vec<i64> {
        let to_fixed = self.program.unit() * real(self.scale);
        prices.iter().map(|price| (price * to_fixed).round().clamp(0.0, 1e17) as i64).collect()
    }

    /// The column to branch on: layouts first, and of them the one furthest from whole.
    fn branching(&self) -> Option<usize> {
        let mut best: Option<(bool, f64, usize)> = None;
        for (column, counts) in self.program.counts.iter().enumerate() {
            let Counts::Made(made) = counts else { continue };
            if !matches!(self.program.lp.place(column), Place::Basic(_)) {
                continue;
            }
            let value = self.program.lp.value(column);
            let (layout, far) = (matches!(made, Made::Layout(_)), (value - value.round()).abs());
            if far > WHOLE && best.is_none_or(|(first, most, _)| (layout, far) > (first, most)) {
                best = Some((layout, far, column));
            }
        }
        best.map(|(_, _, column)| column)
    }
}

#[allow(clippy::cast_precision_loss)] // worths of an order
fn real(number: i64) -> f64 {
    number as f64
}
