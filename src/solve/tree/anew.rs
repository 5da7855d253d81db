//! What cuts the best plan anew beside the trees, on a strand of its own, until they end. It proves nothing.

use super::super::anew::Anew;
use super::super::generate::Relaxed;
use super::super::need::Need;
use super::super::outlay;
use super::super::scope::Scope;
use super::super::watch::Watch;
use super::finder::Job;
use super::priced;
use super::strand::{Priced, Strand};
use crate::model::Problem;

/// Work for each turn of the clock: less than a turn of a tree, as trees wait for it where cores are few.
const WORK: u64 = 3_000;
/// What a panel is worth at least, beside the average of what plans cost for its area.
const LEAST_WORTH: f64 = 0.3;

/// What a panel of each size is worth at the first linear program, in units, and never far less than its area tells.
#[allow(clippy::cast_precision_loss)] // only guides a search
pub(super) fn worth(problem: &Problem, relaxed: &Relaxed) -> Vec<f64> {
    let area = |size: usize| {
        let sides = problem.sizes[size].sides;
        sides.width.least.raw() as f64 * sides.height.least.raw() as f64
    };
    let all: f64 = (0..problem.sizes.len()).map(|size| f64::from(problem.sizes[size].count) * area(size)).sum();
    let least = |size: usize| LEAST_WORTH * relaxed.cost * area(size) / all.max(1.0);
    let scale = relaxed.prices.scale as f64;
    relaxed.prices.size.iter().enumerate().map(|(size, price)| (*price as f64 / scale).max(least(size))).collect()
}

/// Cuts the plan anew until a tree has closed, or nothing can be cheaper.
pub(super) fn cut_anew(problem: &Problem, need: &Need, worth: Vec<f64>, plan: Priced, strand: &Strand<Job>) {
    let _guard = strand.guard();
    let target = |cost: i64| outlay::most_below(problem, &Scope::all(problem, need, Some(cost)), cost);
    let (plan, mut cost) = plan;
    let begun = target(cost).and_then(|target| Anew::new(problem, need, worth, &plan, target));
    let Some(mut anew) = begun else { return };
    let mut turns = 0;
    loop {
        if let Some(draft) = anew.round() {
            let plan = priced(problem, need, &draft);
            cost = plan.1;
            strand.tell(plan.clone());
            let Some(target) = target(cost) else { return };
            anew.go_on_from(&plan.0, target);
        }
        while turns < anew.work() / WORK {
            turns += 1;
            if strand.stop() {
                return;
            }
            if let Some((plan, less)) = strand.learn(Some(cost)) {
                cost = less;
                let Some(target) = target(cost) else { return };
                anew.go_on_from(&plan, target);
            }
        }
    }
}
