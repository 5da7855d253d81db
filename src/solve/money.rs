//! The first aim: least money. A plan by diving from the linear program, then the proof that nothing cheaper exists,
//! or something cheaper.

use super::dive::{Choice, dive};
use super::draft::Draft;
use super::generate::generate;
use super::need::Need;
use super::tree::Tree;
use super::watch::{Patient, Watch};
use crate::model::Problem;

/// The cheapest plan found, and what is known about it.
pub(super) struct Money {
    /// The plan.
    pub draft: Draft,
    /// What it costs, in units.
    pub cost: i64,
    /// No plan costs less, in units.
    pub bound: i64,
}

impl Money {
    /// Nothing cheaper exists.
    pub(super) fn proved(&self) -> bool {
        self.bound >= self.cost
    }
}

/// Why there is no plan.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum NoPlan {
    /// It is proved that what can be had does not do.
    Impossible,
    /// None was found in the time.
    NotFound,
}

/// The cheapest plan.
pub(super) fn least(problem: &Problem, watch: &dyn Watch) -> Result<Money, NoPlan> {
    let need = Need::of(problem);
    // The first plan and its bound are had in a moment, and nobody is helped by none at all: only where that moment is
    // longer than the time there is, the dive makes do with what is known by then, if that leads to a plan.
    let relaxed = generate(problem, &need, &[], &Patient);
    let first = dive(problem, &need, &relaxed, Choice::Quick, watch)
        .or_else(|| dive(problem, &need, &relaxed, Choice::Quick, &Patient));
    let closed = Tree::new(problem, &need, first, &relaxed, watch).close();
    match (closed.best, closed.bound) {
        (Some((draft, cost)), bound) => Ok(Money { draft, cost, bound: bound.unwrap_or(cost).min(cost) }),
        (None, None) => Err(NoPlan::Impossible),
        (None, Some(_)) => Err(NoPlan::NotFound),
    }
}
