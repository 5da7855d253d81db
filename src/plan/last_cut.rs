//! The yard's last cut on a board, which panels at their smallest size may cost and panels at nominal size save.
//!
//! Everything is decided at the smallest sizes, since what fits larger fits smaller. One thing does not follow from
//! that: strips that use a board up to the last kerf need one cut less, and only strips of the right size do. So where
//! cuts are paid for and sizes may vary, the job is solved at nominal sizes too, and the cheaper plan holds.

use super::compare::nominal;
use super::sizes::Sizes;
use super::{Claim, Plan, check, lay_out_at};
use crate::data::Job;
use crate::solve::{Level, Proof, Watch, solve};

/// The plan, or the one at nominal sizes if that is cheaper; proved where nothing at either sizes can cost less.
pub(super) fn cheaper(job: &Job, plan: Plan, watch: &dyn Watch) -> Plan {
    let sizes_matter = matches!(plan.claim, Claim::Cost(against) if against.end_sizes);
    let Some(other) = sizes_matter.then(|| at_nominal(job, watch)).flatten() else { return plan };
    let (bound, claim) = (other.proof.bound.min(plan.proof.bound), plan.claim);
    let better = other.cost.total < plan.cost.total && check(job, &other).is_ok();
    // What the later aims proved at nominal sizes, they did not prove at others.
    let best = if better { Plan { levels: unproved(&other.levels), ..other } } else { plan };
    // Growing may have saved a cut that neither size saves: then the plan costs less than the bound of both.
    let bound = bound.min(best.cost.total);
    Plan { proof: Proof { proved: bound == best.cost.total, bound }, claim, ..best }
}

fn unproved(levels: &[Level]) -> Vec<Level> {
    levels.iter().map(|level| Level { proved: false, ..*level }).collect()
}

/// The job's best plan whose panels are all of nominal size; nothing where there is none.
fn at_nominal(job: &Job, watch: &dyn Watch) -> Option<Plan> {
    let nominal = nominal(job);
    let solved = solve(&nominal, watch).ok()?;
    Some(lay_out_at(job, &solved, &Sizes::smallest(&nominal)))
}
