//! A plan that was worked out by hand is damaged in one place at a time: the checker must say which rule is broken.

use crate::by_hand::{broken_down_job, broken_down_plan, mixed_job, mixed_plan};
use crate::jobs::len;
use yardslip::data::{Cents, Grain, Job, RipWidths};
use yardslip::length::Length;
use yardslip::plan::{Origin, Plan, Rule, Violation, YardCut, check};
use yardslip::solve::Direction;

mod yard;
mod saw;
mod panels;
mod figures;
mod any_number;

/// The violations that the checker finds.
fn violations(job: &Job, plan: &Plan) -> Vec<Violation> {
    check(job, plan).expect_err("the damage must be found")
}

/// Damages the mixed plan, and holds that the checker finds this rule broken.
fn finds<T>(rule: Rule, damage: impl Fn(&mut Plan) -> T) {
    expects(rule, &mixed_job(), mixed_plan(), damage);
}

/// The same with the plan whose sheets are broken down and edge-trimmed.
fn finds_broken_down<T>(rule: Rule, damage: impl Fn(&mut Plan) -> T) {
    expects(rule, &broken_down_job(), broken_down_plan(), damage);
}

/// Leaves the plan, and makes the job ask for something else.
fn finds_against(rule: Rule, change: impl Fn(&mut Job)) {
    let mut job = mixed_job();
    change(&mut job);
    expects(rule, &job, mixed_plan(), |_| ());
}

fn expects<T>(rule: Rule, job: &Job, mut plan: Plan, damage: impl Fn(&mut Plan) -> T) {
    drop(damage(&mut plan));
    let found = violations(job, &plan);
    assert!(found.iter().any(|violation| violation.rule == rule), "{rule:?} is not among {found:#?}");
}

/// The least damage that a rule would show.
fn sixty_fourth() -> Length {
    Length::sixty_fourths(1)
}
