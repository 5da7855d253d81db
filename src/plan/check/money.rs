//! Money added up again: sheets, cuts counted one by one, the free ones taken off; and that the plan claims no more
//! proof than its bound gives.

use super::Rule;
use super::findings::Findings;
use super::sheets::Yard;
use crate::data::{FreePer, Job};
use crate::plan::Plan;

/// Checks every figure of the cost, and the claim of proof.
pub(super) fn check(job: &Job, plan: &Plan, yard: &Yard, found: &mut Findings) {
    let (place, cost) = ("cost", &plan.cost);
    let groups = || plan.sheets.iter().zip(&yard.cuts);
    let bought: u64 = groups().map(|(group, _)| u64::from(group.count)).sum();
    let cuts: u64 = groups().map(|(group, cuts)| u64::from(group.count) * cuts).sum();
    let free = u64::from(job.yard.free_cuts);
    let paid = match job.yard.free_per {
        FreePer::Sheet => groups().map(|(group, cuts)| u64::from(group.count) * cuts.saturating_sub(free)).sum(),
        FreePer::Order => cuts.saturating_sub(free),
    };
    found.equal(Rule::Price, place, "sheets bought", u64::from(cost.sheets_bought), bought);
    found.equal(Rule::PaidCuts, place, "yard cuts", u64::from(cost.yard_cuts), cuts);
    found.equal(Rule::PaidCuts, place, "paid cuts", u64::from(cost.paid_cuts), paid);
    let price = |sheet: usize| i128::from(job.sheets[sheet].price.0);
    let sheets: i128 = plan.sheets.iter().map(|group| price(group.sheet) * i128::from(group.count)).sum();
    let cutting = i128::from(paid) * i128::from(job.yard.cut_price.0);
    found.equal(Rule::Price, place, "cents for sheets", i128::from(cost.sheets.0), sheets);
    found.equal(Rule::Price, place, "cents for cuts", i128::from(cost.cuts.0), cutting);
    found.equal(Rule::Price, place, "cents in all", i128::from(cost.total.0), sheets + cutting);
    proof(plan, found);
}

fn proof(plan: &Plan, found: &mut Findings) {
    let (bound, total) = (plan.proof.bound, plan.cost.total);
    found.hold(Rule::Proof, bound <= total, "proof", || format!("the bound {bound} is above the cost {total}"));
    let closed = !plan.proof.proved || bound == total;
    found.hold(Rule::Proof, closed, "proof", || format!("claimed proved, but the bound {bound} is under {total}"));
}
