//! From the model of a job to the best plan and a proof of it.

mod solved;
mod watch;

pub use solved::*;
pub use watch::{Patient, Progress, Watch};

use crate::data::{Fault, Job};

/// Solves a job: least money first, then the later aims; with what is known about each.
///
/// # Errors
/// Every reason why the job cannot be done, each with a remedy: a panel that no sheet or limit lets through,
/// too few sheets to be had.
pub fn solve(job: &Job, watch: &dyn Watch) -> Result<Solved, Vec<Fault>> {
    let _ = (job, watch);
    Err(vec![Fault::anywhere("the solver is not there yet", "")])
}
