//! The plan at the smallest sizes, or the one at nominal sizes if that is better.
//!
//! Everything is decided at the smallest sizes, since what fits larger fits smaller. Two things do not follow from that:
//! strips that use a board up to the last kerf need one cut less, and only strips of the right size do; and of two plans
//! that cost the same, the one whose panels come out at nominal size is the one that people want. So where sizes may
//! vary the job is solved at nominal sizes too.

use super::compare::nominal;
use super::sizes::Sizes;
use super::{Claim, Plan, check, lay_out_at};
use crate::data::Job;
use crate::solve::{Level, Proof, Watch, solve};

/// The plan, or the one at nominal sizes if that is cheaper, or costs the same and gives up nothing; proved where
/// nothing at either sizes can cost less.
pub(super) fn better(job: &Job, plan: Plan, watch: &dyn Watch) -> Plan {
    let sizes_matter = matches!(plan.claim, Claim::Cost(against) if against.end_sizes);
    if !sizes_matter && !comes_out_scant(&plan) {
        return plan;
    }
    let Some(other) = at_nominal(job, watch).filter(|other| check(job, other).is_ok()) else { return plan };
    // Without paid cuts whatever can be cut at nominal size can be cut smaller at the same cost.
    let bound = if sizes_matter { other.proof.bound.min(plan.proof.bound) } else { plan.proof.bound };
    let claim = plan.claim;
    let best = if other.cost.total < plan.cost.total {
        // What the later aims proved at nominal sizes, they did not prove at others.
        Plan { levels: unproved(&other.levels), ..other }
    } else if gives_up_nothing(&other, &plan) && comes_out_scant(&plan) {
        larger(&plan, other)
    } else {
        plan
    };
    // Growing may have saved a cut that neither size saves: then the plan costs less than the bound of both.
    let bound = bound.min(best.cost.total);
    Plan { proof: Proof { proved: bound == best.cost.total, bound }, claim, ..best }
}

/// Some panel comes out under its nominal size.
fn comes_out_scant(plan: &Plan) -> bool {
    plan.panels.iter().any(|line| (line.cut_width, line.cut_height) != (line.width, line.height))
}

/// The same money and no less of any later aim.
fn gives_up_nothing(other: &Plan, plan: &Plan) -> bool {
    let no_less = |(other, plan): (&Level, &Level)| match other.aim {
        crate::solve::Aim::Worth => other.value >= plan.value,
        crate::solve::Aim::Layouts | crate::solve::Aim::Settings => other.value <= plan.value,
    };
    other.cost.total == plan.cost.total
        && other.levels.len() == plan.levels.len()
        && other.levels.iter().zip(&plan.levels).all(no_less)
}

/// The plan at nominal sizes, with what is proved at the smallest: whatever can be cut at nominal size can be cut
/// smaller, so no bound of the smallest sizes is beaten.
fn larger(plan: &Plan, other: Plan) -> Plan {
    let held = |(other, plan): (&Level, &Level)| Level {
        bound: plan.bound,
        proved: plan.proved && plan.bound == other.value,
        ..*other
    };
    let levels = other.levels.iter().zip(&plan.levels).map(held).collect();
    Plan { proof: plan.proof, claim: plan.claim, levels, ..other }
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
