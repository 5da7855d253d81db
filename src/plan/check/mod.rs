//! Proves a plan from the job alone: it takes every bought sheet as a rectangle, makes the yard's cuts in their order,
//! then the saw's cuts on the strips that came off, and compares what falls off with what was asked and with every
//! figure of the plan.
//!
//! It shares nothing with the solver or the layout but lengths, the job and the plan's types: each rule of the trade
//! is written here a second time, from the shop's point of view. Damaged plans give violations, never a panic.

mod drawing;
mod findings;
mod groups;
mod leftovers;
mod levels;
mod limits;
mod money;
mod panels;
mod reach;
mod saw;
mod sheets;
mod strips;
mod violation;
mod week;
mod weights;

pub use violation::{Rule, Violation};

use super::Plan;
use super::week::Week;
use crate::data::Job;
use findings::Findings;

/// Replays a plan and compares it with its job, and all that follows the saw too. A plan that is only laid out, nothing
/// of its week planned yet, is held to its cuts alone.
///
/// # Errors
/// Every violation that was found, in the order of the work.
pub fn check(job: &Job, plan: &Plan) -> Result<(), Vec<Violation>> {
    proved(job, plan, plan.week != Week::default())
}

/// As [`check`], with the whole week that the job asks for: what papers are written from.
///
/// # Errors
/// As [`check`].
pub(crate) fn check_whole(job: &Job, plan: &Plan) -> Result<(), Vec<Violation>> {
    proved(job, plan, true)
}

fn proved(job: &Job, plan: &Plan, with_week: bool) -> Result<(), Vec<Violation>> {
    let mut found = Findings::new(job.units);
    reach::check(job, plan, &mut found);
    if found.is_empty() {
        // Only now is every index in range and every sum far from overflow.
        replay(job, plan, &mut found);
    }
    if found.is_empty() && with_week {
        week::check(job, plan, &mut found);
    }
    found.into_result()
}

/// All that can be checked once the plan's numbers can be trusted not to break the checker itself.
fn replay(job: &Job, plan: &Plan, found: &mut Findings) {
    let yard = sheets::replay(job, plan, found);
    limits::check(job, plan, found);
    strips::check(job, plan, &yard, found);
    panels::check(job, plan, found);
    drawing::check(job, plan, found);
    saw::check(job, plan, found);
    groups::check(job, plan, found);
    money::check(job, plan, &yard, found);
    let left = leftovers::check(job, plan, &yard, found);
    levels::check(job, plan, &left, found);
    weights::check(job, plan, &left, found);
}
