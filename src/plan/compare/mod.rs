//! The same job done in other ways, each solved to its end, side by side: what scant buys, what each sheet kind, rip
//! direction, blade or squaring cut does to the money.

mod ways;
mod same_cuts;

pub(super) use ways::nominal;

use super::{Alternative, Figures, Outcome, Plan, checked, end_sizes};
use crate::data::{Cents, Fault, Job};
use crate::solve::{NOT_FOUND, Progress, Proof, Share, Watch, joined, spawn};
use std::num::NonZero;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::thread;
use ways::Way;

/// Part of a way's time that its plan at the smallest sizes may take; the rest is for nominal sizes, where they matter.
const SHARE_OF_SMALLEST: f64 = 0.7;

/// The short comparison, made for every plan: at nominal size and scant, and without the squaring cut.
pub fn compare_sizes(job: &Job, plan: &Plan, watch: &dyn Watch) -> Vec<Alternative> {
    rows(plan, ways::sizes(job), watch)
}

/// The full comparison: the short one, then each sheet kind alone, other rip directions, and a thin blade.
pub fn compare(job: &Job, plan: &Plan, watch: &dyn Watch) -> Vec<Alternative> {
    let mut ways = ways::sizes(job);
    ways.extend(ways::others(job));
    rows(plan, ways, watch)
}

/// This plan's row, then one for each way: as many ways at once as the machine has cores, in shares of what time is left.
fn rows(plan: &Plan, ways: Vec<Way>, watch: &dyn Watch) -> Vec<Alternative> {
    let (watch, next) = (&Aside(watch), AtomicUsize::new(0));
    let workers = thread::available_parallelism().map_or(1, NonZero::get);
    let work = || {
        let mut outcomes = Vec::new();
        loop {
            let at = next.fetch_add(1, Ordering::Relaxed);
            let Some(Way { job, .. }) = ways.get(at) else { return outcomes };
            // Where the plan itself took longer than it may, each way would take as long again.
            let late = watch.seconds() > watch.allowed();
            let share = Share::one_of((ways.len() - at).div_ceil(workers), watch);
            outcomes.push((at, outcome(job, plan, late, &share)));
        }
    };
    let mut outcomes = thread::scope(|scope| {
        let others: Vec<_> = (1..workers.min(ways.len())).map(|_| spawn(scope, work)).collect();
        work().into_iter().chain(others.into_iter().flat_map(joined)).collect::<Vec<_>>()
    });
    outcomes.sort_unstable_by_key(|(at, _)| *at);
    let others = ways.into_iter().zip(outcomes).map(|(way, (_, outcome))| Alternative { name: way.name, outcome });
    let this = Alternative { name: "this plan".into(), outcome: Outcome::Done(figures(plan)) };
    [this].into_iter().chain(others).collect()
}

/// A watch that is not told of costs: those of another way are not the plan's.
struct Aside<'a>(&'a dyn Watch);

impl Watch for Aside<'_> {
    fn stop(&self) -> bool {
        self.0.stop()
    }
    fn seconds(&self) -> f64 {
        self.0.seconds()
    }
    fn allowed(&self) -> f64 {
        self.0.allowed()
    }
    fn report(&self, _: Progress) {
        self.0.report(Progress { doing: "comparing with other ways", best: None, bound: None });
    }
}

fn outcome(job: &Job, plan: &Plan, late: bool, watch: &dyn Watch) -> Outcome {
    let solved = if late { Err(Vec::new()) } else { solved(job, watch) };
    match no_dearer(solved, same_cuts::under(job, plan)) {
        Ok(plan) => Outcome::Done(figures(&plan)),
        Err(faults) if faults.iter().all(|fault| fault.cause.starts_with(NOT_FOUND)) => Outcome::Late,
        Err(faults) => {
            let more = if faults.len() > 1 { format!(" (and {} more)", faults.len() - 1) } else { String::new() };
            Outcome::Not(faults[0].cause.clone() + &more)
        }
    }
}

fn solved(job: &Job, watch: &dyn Watch) -> Result<Plan, Vec<Fault>> {
    checked(job, &Share::part(SHARE_OF_SMALLEST, watch)).map(|plan| end_sizes::better(job, plan, watch))
}

/// What was solved, or the plan with its own cuts where these cost less, or nothing was found in the time.
fn no_dearer(solved: Result<Plan, Vec<Fault>>, same: Option<Plan>) -> Result<Plan, Vec<Fault>> {
    let Some(same) = same else { return solved };
    let cost = same.cost.total;
    let bound = match solved {
        Ok(solved) if solved.cost.total <= cost => return Ok(solved),
        Ok(solved) => solved.proof.bound.min(cost),
        Err(_) => Cents::ZERO,
    };
    Ok(Plan { proof: Proof { proved: bound == cost, bound }, ..same })
}

fn figures(plan: &Plan) -> Figures {
    Figures {
        sheets: plan.cost.sheets_bought,
        cost: plan.cost.total,
        areas: plan.areas,
        layouts: u32::try_from(plan.yard.len()).expect("layouts are few"),
        sizes: plan.panels.iter().map(|line| (line.cut_width, line.cut_height)).collect(),
        proved: plan.proof.proved,
    }
}
