//! Column generation for worth: the relaxation over all layouts and patterns, of which only those that pay are listed,
//! and the least of the bounds that its prices prove on the way.

use super::super::master::Made;
use super::super::watch::Watch;
use super::judge::judge;
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
}

/// Relaxes the problem within these means, starting from what was `found` before, until prices are at rest or prove that
/// nothing reaches the goal.
pub(super) fn relax(problem: &Problem, means: Means, found: &[Made], goal: i64, watch: &dyn Watch) -> Relaxed {
    let mut program = Program::new(problem, means);
    for made in found {
        program.add(made.clone());
    }
    let mut most = i64::MAX;
    for _ in 0..ROUNDS {
        if watch.stop() || !program.solve() {
            break;
        }
        let prices = program.prices();
        let judged = judge(problem, means, &prices);
        most = most.min(judged.most);
        if most < goal || !program.improve(&judged, &prices) {
            break;
        }
    }
    Relaxed { found: program.found(), most }
}
