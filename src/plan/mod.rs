//! The plan: numbered sheets, lettered strips, positioned panels, cuts in order, and every figure the papers print.
//!
//! In reading order: `types` what a plan holds; `sizes` and `grow` what each panel comes out at; `order` what is cut
//! when; `lettering`, `sheet_groups`, `saw_order` where it lies; then money, offcuts, weights and notes.

mod types;
mod claim;
mod alternative;
mod sizes;
mod measure;
mod grow;
mod order;
mod letters;
mod lettering;
mod sheet_groups;
mod saw_order;
mod money;
mod offcuts;
mod weigh;
mod lines;
mod load;
mod aims;
mod notes;
mod check;
mod compare;
mod end_sizes;
mod missing_at_a_price;
mod recut;
mod rack;
pub mod week;

pub use alternative::{Alternative, Figures, Outcome};
pub use check::{Rule, Violation, check};
pub use claim::{Against, Claim};
pub use compare::{compare, compare_sizes};
pub use rack::{rack_after, used};
pub use recut::{Done, Lettered, Missing, Over, Recut, Unused, recognise, recut};
pub use types::*;

use crate::data::{Fault, Job};
use crate::solve::{Share, Solved, Watch, solve};
use sizes::Sizes;

/// Part of the time that the plan itself may take; the rest is for the week and the comparison.
const SHARE_OF_THE_PLAN: f64 = 0.7;

/// Part of what is left that the same job at nominal sizes may take, where that is needed.
const SHARE_OF_NOMINAL: f64 = 0.3;

/// Part of what is then left that the week may take: its canvas costs money, a comparison does not.
const SHARE_OF_THE_WEEK: f64 = 0.5;

/// Plans a job: solves it, lays the answer out, proves it by replaying it, plans the week that follows, and compares it
/// with other sizes.
///
/// # Errors
/// Every reason why the job cannot be done, each with a remedy. A plan that fails its own check is never handed out:
/// that is a fault of the program, and said to be one.
pub fn make(job: &Job, watch: &dyn Watch) -> Result<Plan, Vec<Fault>> {
    let plan = checked(job, &Share::part(SHARE_OF_THE_PLAN, watch))?;
    let plan = end_sizes::better(job, plan, &Share::part(SHARE_OF_NOMINAL, watch));
    let plan = whole(job, plan, &Share::part(SHARE_OF_THE_WEEK, watch))?;
    Ok(Plan { comparison: compare_sizes(job, &plan, watch), ..plan })
}

/// As [`make`], with the full comparison: each sheet kind alone, other rip directions, a thin blade too.
///
/// # Errors
/// As [`make`].
pub fn make_and_compare(job: &Job, watch: &dyn Watch) -> Result<Plan, Vec<Fault>> {
    let plan = checked(job, &Share::part(SHARE_OF_THE_PLAN, watch))?;
    let plan = end_sizes::better(job, plan, &Share::part(SHARE_OF_NOMINAL, watch));
    let plan = whole(job, plan, &Share::part(SHARE_OF_THE_WEEK, watch))?;
    Ok(Plan { comparison: compare(job, &plan, watch), ..plan })
}

/// The plan with its week, which must pass the check as the cuts did.
fn whole(job: &Job, plan: Plan, watch: &dyn Watch) -> Result<Plan, Vec<Fault>> {
    let plan = Plan { week: week::plan_week(job, &plan, watch), ..plan };
    check::check_whole(job, &plan).map_err(|violations| vec![distrusted(&violations)])?;
    Ok(plan)
}

/// A plan that has passed its check, without a comparison.
fn checked(job: &Job, watch: &dyn Watch) -> Result<Plan, Vec<Fault>> {
    let plan = match solve(job, watch) {
        Ok(solved) => lay_out(job, &solved),
        Err(faults) => end_sizes::instead(job, &faults, watch).ok_or(faults)?,
    };
    check(job, &plan).map_err(|violations| vec![distrusted(&violations)])?;
    Ok(plan)
}

fn distrusted(violations: &[Violation]) -> Fault {
    let told: Vec<String> = violations.iter().take(3).map(ToString::to_string).collect();
    let cause = format!("the plan failed the program's own check and is not printed ({})", told.join("; "));
    Fault::anywhere(cause, "this is a fault of the program, not of the job: report it with the job file")
}

/// Lays a solved job out: grows scant panels back, orders the rips and cuts, letters, positions and adds up.
pub fn lay_out(job: &Job, solved: &Solved) -> Plan {
    lay_out_at(job, solved, &grow::grow(job, solved))
}

/// The same at given sizes.
fn lay_out_at(job: &Job, solved: &Solved, sizes: &Sizes) -> Plan {
    let sheets = order::sheets(job, solved, sizes);
    let on_hand = order::on_hand(job, solved, sizes);
    let lettered = lettering::letter(job, &sheets, &on_hand, sizes);
    let strips = lettered.strips;
    let groups = sheet_groups::groups(job, &sheets, &lettered.places);
    let offcuts = offcuts::offcuts(job, &groups, &strips);
    let plan = Plan {
        title: job.title.clone(),
        units: job.units,
        currency: job.currency.clone(),
        cost: money::cost(job, &sheets, sizes),
        proof: solved.proof,
        claim: claim::claim(job),
        levels: Vec::new(),
        yard: sheet_groups::yard(&sheets),
        panels: lines::lines(job, &strips, sizes),
        stops: saw_order::stops(job, &strips),
        trims: saw_order::trims(&strips),
        areas: lines::areas(&groups, &strips, &offcuts),
        load: load::load(job, &groups, &strips),
        notes: Vec::new(),
        comparison: Vec::new(),
        week: week::Week::default(),
        assumptions: job.assumptions.clone(),
        sheets: groups,
        strips,
        offcuts,
    };
    Plan { levels: aims::levels(job, &solved.levels, &plan), notes: notes::notes(job, &plan), ..plan }
}
