//! Column generation for worth: the relaxation over all layouts and patterns, of which only those that pay are listed,
//! and the least of the bounds that its prices prove on the way.

use super::super::master::Made;
use super::super::watch::Watch;
use super::judge::judge;
use super::prices::Prices;
use super::program::{Means, Program};
use crate::model::Problem;

/// Most rounds of pricing; far beyond what converging needs.
const ROUNDS: usize = 500;

/// What is known once prices have come to rest, or as far as was asked.
pub(super) struct Relaxed {
    /// Everything found on the way.
    pub found: Vec<Made>,
    /// No plan within the means is worth more; below zero where there is no such plan.
    pub most: i64,
    /// The prices that prove it.
    pub prices: Option<Prices>,
    /// Whether the relaxation itself reaches the goal.
    pub open: bool,
}

/// How far to go.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Until {
    /// Until prices are at rest, or nothing can reach the goal.
    Rest,
    /// Only until it is known whether the relaxation reaches the goal.
    Known,
}

/// Relaxes the problem within these means, starting from what was `found` before.
pub(super) fn relax(
    problem: &Problem,
    means: Means,
    found: &[Made],
    (goal, until): (i64, Until),
    watch: &dyn Watch,
) -> Relaxed {
    let mut program = Program::new(problem, means);
    for made in found {
        program.add(made.clone());
    }
    let (mut most, mut open, mut best) = (i64::MAX, false, None);
    for _ in 0..ROUNDS {
        if watch.stop() || !program.solve() {
            break;
        }
        open = program.reaches(goal);
        if open && until == Until::Known {
            break;
        }
        let prices = program.prices();
        let judged = judge(problem, means, &prices);
        let grown = judged.most >= goal && program.improve(&judged, &prices);
        if judged.most <= most {
            (most, best) = (judged.most, Some(prices));
        }
        if !grown {
            break;
        }
    }
    Relaxed { found: program.found(), most, prices: best, open }
}
