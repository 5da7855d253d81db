//! Made-up jobs are solved and laid out, and every plan must pass the checker.

use crate::made_up_jobs::{jobs, settings};
use crate::moment::Moment;
use proptest::prelude::*;
use proptest::strategy::ValueTree;
use proptest::test_runner::TestRunner;
use yardslip::data::Job;
use yardslip::plan::{Plan, check, lay_out};
use yardslip::solve::solve;

/// The plan of a job, if it can be done.
fn planned(job: &Job) -> Option<Plan> {
    let solved = solve(job, &Moment::of(1.0));
    solved.ok().map(|solved| lay_out(job, &solved))
}

/// What the checker finds wrong, in words; empty for a good plan.
fn wrong(job: &Job, plan: &Plan) -> String {
    let found = check(job, plan).err().unwrap_or_default();
    let lines: Vec<String> = found.iter().map(|violation| format!("{:?}: {violation}", violation.rule)).collect();
    lines.join("\n")
}

proptest! {
    #![proptest_config(settings(100))]

    #[test]
    fn every_plan_of_a_made_up_job_passes(job in jobs()) {
        if let Some(plan) = planned(&job) {
            let wrong = wrong(&job, &plan);
            prop_assert!(wrong.is_empty(), "{wrong}");
        }
    }
}

#[test]
fn most_made_up_jobs_can_be_done() {
    let mut runner = TestRunner::new(settings(1));
    let made_up = (0..100).map(|_| jobs().new_tree(&mut runner).expect("a job").current());
    let done = made_up.filter(|job| planned(job).is_some()).count();
    assert!(done > 40, "only {done} of 100");
}
