//! From the model of a job to the best plan and a proof of it.

mod aims;
mod anew;
mod answer;
mod boards;
mod bound;
mod branching;
mod broken;
mod cell;
mod chain;
mod cover;
mod crosscut;
mod dive;
mod draft;
mod filled;
mod fixed_point;
mod generate;
mod grid;
mod knapsack;
mod layout;
mod master;
mod money;
mod need;
mod outlay;
mod pattern;
mod pool;
mod prices;
mod program;
mod rework;
mod rises;
mod scope;
mod search;
mod share;
mod simplex;
mod solved;
mod tail;
mod thread;
mod too_few;
mod trail;
mod tree;
mod watch;

pub(crate) use share::Share;
pub use solved::*;
pub(crate) use thread::{joined, spawn};
pub(crate) use too_few::NOT_FOUND;
pub use watch::{Patient, Progress, Watch};

use crate::data::{Cents, Fault, Job};
use crate::model;

/// Solves a job: least money first, then the later aims; with what is known about each.
///
/// # Errors
/// Every reason why the job cannot be done, each with a remedy: a panel that no sheet or limit lets through,
/// too few sheets to be had.
pub fn solve(job: &Job, watch: &dyn Watch) -> Result<Solved, Vec<Fault>> {
    let problem = model::build(job)?;
    let money = money::least(&problem, watch).map_err(|why| vec![too_few::too_few(job, why, watch)])?;
    let counts: Vec<u32> = job.panels.iter().map(|panel| panel.count).collect();
    // Breakdown crosscuts, and strips made wider so that their offcuts are worth keeping, are not searched.
    let complete = !(model::may_break_down(job) || job.saw.trims && !job.keepers.is_empty());
    let spent = aims::Spent { cost: money.cost, least: money.proved(), complete };
    let (draft, levels) = aims::improve(&problem, &money.draft, spent, watch);
    let (mut sheets, on_hand) = answer::answer(&problem, &counts, &draft);
    crosscut::settle(job, &mut sheets);
    let cents = |units: i64| Cents(units / problem.charges.cent);
    let cost = cents(draft.cost(&problem).min(money.cost));
    let bound = if money.proved() { cost } else { cents(money.bound).min(cost) };
    let proof = Proof { proved: money.proved(), bound };
    Ok(Solved { sheets, on_hand, cost, proof, levels })
}
