//! The plan at the smallest sizes, or the one at nominal sizes if that is better.
//!
//! Everything is decided at the smallest sizes, since what fits larger fits smaller. Some things do not follow from
//! that: strips that use a board up to the last kerf need one cut less, and only strips of the right size do; different
//! panels share a strip only where they are alike; only a piece that is long enough is cut last; and of two plans that
//! cost the same, the one whose panels come out at nominal size is the one that people want. So where sizes may vary
//! the job is solved at nominal sizes too.

use super::claim::{self, Against, Claim};
use super::compare::nominal;
use super::notes::over_wide;
use super::sizes::Sizes;
use super::{Plan, check, lay_out_at};
use crate::data::{Cents, Fault, Job};
use crate::length::Length;
use crate::solve::{Level, NOT_FOUND, Proof, Share, Watch, solve};

/// Part of the time for the plan at nominal sizes, where it must be found out as well whether longer pieces for the
/// hand could save anything.
const SHARE_OF_NOMINAL: f64 = 0.6;

/// The plan, or the one at nominal sizes if that is cheaper, or costs the same and gives up nothing; proved where
/// nothing at either sizes can cost less, or nothing at all.
pub(super) fn better(job: &Job, plan: Plan, watch: &dyn Watch) -> Plan {
    if !matches!(plan.claim, Claim::Cost(against) if against.held_pieces) {
        return the_better(job, plan, watch);
    }
    let best = the_better(job, plan, &Share::part(SHARE_OF_NOMINAL, watch));
    if least_held(job, watch).is_none_or(|bound| bound < best.cost.total) {
        return best;
    }
    let claim = claim::whatever_is_held(job);
    let for_all_sizes = !matches!(claim, Claim::Cost(against) if against.end_sizes);
    let proved = Proof { proved: true, bound: best.cost.total };
    Plan { claim, proof: if for_all_sizes { proved } else { best.proof }, ..best }
}

fn the_better(job: &Job, plan: Plan, watch: &dyn Watch) -> Plan {
    let sizes_matter = matches!(plan.claim, Claim::Cost(against) if against.end_sizes);
    // Where the time is up, a plan that costs no more and only comes out larger is not looked for.
    if !sizes_matter && (!comes_out_scant(&plan) || watch.allowed() <= 0.0) {
        return plan;
    }
    let other = match at_nominal(job, watch) {
        Ok(other) if check(job, &other).is_ok() => other,
        Err(faults) if !out_of_time(&faults) => return plan,
        // Nothing is known about nominal sizes, and so nothing is proved of them.
        _ if sizes_matter => return Plan { proof: Proof { proved: false, bound: Cents::ZERO }, ..plan },
        _ => return plan,
    };
    // Without paid cuts whatever can be cut at nominal size can be cut smaller at the same cost.
    let bound = if sizes_matter { other.proof.bound.min(plan.proof.bound) } else { plan.proof.bound };
    let claim = plan.claim;
    let best = if other.cost.total < plan.cost.total {
        // What the later aims proved at nominal sizes, they did not prove at others.
        Plan { levels: unproved(&other.levels), ..other }
    } else if comes_out_scant(&plan) && gives_up_nothing(&other, &plan) && risks_no_more(job, &other, &plan) {
        larger(&plan, other)
    } else {
        plan
    };
    // Growing may have saved a cut that neither size saves: then the plan costs less than the bound of both.
    let bound = bound.min(best.cost.total);
    Plan { proof: Proof { proved: bound == best.cost.total, bound }, claim, ..best }
}

/// What no plan can cost less than, whatever the hand holds: as for a hand that holds every piece, cut at its smallest,
/// that is long enough at nominal size.
fn least_held(job: &Job, watch: &dyn Watch) -> Option<Cents> {
    let sides = job.panels.iter().flat_map(|panel| [(panel.width, panel.scant), (panel.height, panel.scant)]);
    let held = sides.filter(|(side, _)| *side >= job.saw.shortest).map(|(side, scant)| side - scant);
    let mut all = job.clone();
    all.saw.shortest = held.min().unwrap_or(Length::MAX).min(job.saw.shortest);
    solve(&all, watch).ok().map(|solved| solved.proof.bound)
}

/// A plan at nominal sizes for a job that was refused at its smallest; nothing where that cannot be, or is none.
pub(super) fn instead(job: &Job, refused: &[Fault], watch: &dyn Watch) -> Option<Plan> {
    let Claim::Cost(Against { end_sizes: true, .. }) = claim::claim(job) else { return None };
    let plan = at_nominal(job, watch).ok()?;
    // Where time ran out nothing is known about the smallest sizes.
    let proof = if out_of_time(refused) { Proof { proved: false, bound: Cents::ZERO } } else { plan.proof };
    Some(Plan { proof, levels: unproved(&plan.levels), ..plan })
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

/// No more strips may come out wider than their panels, however well the yard cuts.
fn risks_no_more(job: &Job, other: &Plan, plan: &Plan) -> bool {
    let strips = |plan: &Plan| over_wide(job, plan).into_iter().map(|strip| plan.strips[strip].count).sum::<u32>();
    strips(other) <= strips(plan)
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

/// Whether it is not known that there is no plan: none was found in the time.
fn out_of_time(faults: &[Fault]) -> bool {
    faults.iter().any(|fault| fault.cause.starts_with(NOT_FOUND))
}

/// The job's best plan whose panels are all of nominal size, or why there is none.
fn at_nominal(job: &Job, watch: &dyn Watch) -> Result<Plan, Vec<Fault>> {
    let nominal = nominal(job);
    let solved = solve(&nominal, watch)?;
    Ok(lay_out_at(job, &solved, &Sizes::smallest(&nominal)))
}
