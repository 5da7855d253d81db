//! A plan whose whole week passes the checker is damaged in one place at a time: the checker must say which rule is
//! broken.

use crate::lots::len;
use crate::papers_in::job;
use std::sync::LazyLock;
use yardslip::data::{Cents, Job};
use yardslip::plan::week::{CanvasPlan, Packing, PressPlan, Shopping, Week, WeekPlan};
use yardslip::plan::{Plan, Rule, check, make};
use yardslip::solve::Patient;

mod any_number;
mod calendar;
mod canvas;
mod packing;
mod parts;
mod press;
mod shopping;

/// Three sizes off two sheets. Two of them get canvas in pieces of two lengths of roll; the press needs three loads,
/// the bench several batches, the panels two boxes; one size is too large for press and box.
const JOB: &str = r#"
title = "Harbour week"
[[sheet]]
name = "birch"
length = 96
width = 48
thickness = "1/4"
price = 38.50
density = 680
[[panel]]
size = "12 x 16"
count = 13
scant = "1/8"
[[panel]]
size = "8 x 10"
count = 15
[[panel]]
size = "24 x 30"
count = 2
[yard]
cut_price = 0.50
free_cuts = 2
[finish]
filler = ["1 pt at 7.50", "1 qt at 11.00"]
sandpaper = ["1 sheet at 1.20", "5 sheets at 4.50"]
grits = [150, 220]
sealer = ["1 qt at 24.00", "1 gal at 68.00"]
[canvas]
roll = 54
roll_length = 72
price = 34
sizes = ["12 x 16", "24 x 30"]
weave = "along"
[glue]
sold = ["1 pt at 9.00", "1 qt at 15.00"]
[press]
length = 36
width = 20
height = 2
most = 12
paper = ["25 sq ft at 4.50"]
[calendar]
start = "2026-05-04 09:00"
deadline = "Wednesday 12:00"
bench = 20
[labels]
lines = ["{title}", "{name} {size}", "no. {number}"]
[pack]
inside = "17 x 13 x 8"
heaviest = "15 lb"
empty = "1 lb"
boards = "1/4"
limit = "checked bag"
"#;

static WEEK: LazyLock<(Job, Plan)> = LazyLock::new(|| {
    let job = job(JOB);
    let plan = make(&job, &Patient).unwrap_or_else(|faults| panic!("{}", crate::papers_in::told(&faults)));
    (job, plan)
});

fn week_job() -> Job {
    WEEK.0.clone()
}

fn week_plan() -> Plan {
    WEEK.1.clone()
}

/// Holds that the checker finds this rule broken.
fn expects(rule: Rule, job: &Job, plan: &Plan) {
    let found = check(job, plan).expect_err("the damage must be found");
    assert!(found.iter().any(|violation| violation.rule == rule), "{rule:?} is not among {found:#?}");
}

/// Damages the week, and holds that the checker finds this rule broken.
fn finds<T>(rule: Rule, damage: impl Fn(&mut Week) -> T) {
    let mut plan = week_plan();
    drop(damage(&mut plan.week));
    expects(rule, &week_job(), &plan);
}

/// Leaves the plan, and makes the job ask for something else.
fn finds_against<T>(rule: Rule, change: impl Fn(&mut yardslip::data::Week) -> T) {
    let mut job = week_job();
    drop(change(&mut job.week));
    expects(rule, &job, &week_plan());
}

fn canvas(week: &mut Week) -> &mut CanvasPlan {
    week.canvas.as_mut().expect("canvas")
}

fn press(week: &mut Week) -> &mut PressPlan {
    week.press.as_mut().expect("a press")
}

fn packing(week: &mut Week) -> &mut Packing {
    week.packing.as_mut().expect("packing")
}

fn list(week: &mut Week) -> &mut Shopping {
    week.shopping.as_mut().expect("a shopping list")
}

fn calendar(week: &mut Week) -> &mut WeekPlan {
    week.calendar.as_mut().expect("a calendar")
}

#[test]
fn the_week_passes_before_it_is_damaged_and_has_something_of_everything() {
    let mut plan = week_plan();
    assert_eq!(check(&week_job(), &plan), Ok(()));
    let week = &mut plan.week;
    assert!(canvas(week).lengths.len() > 1 && canvas(week).strips.len() > 3);
    assert!(press(week).loads.len() > 1 && press(week).loads[0].stacks.len() > 1 && press(week).misfits.len() == 1);
    assert!(packing(week).parcels.len() > 1 && packing(week).misfits.len() == 1 && packing(week).carrier.is_some());
    assert!(packing(week).parcels.iter().any(|parcel| parcel.stacks.iter().any(|stack| stack.layers.len() > 1)));
    assert!(calendar(week).late > 0 && !calendar(week).helps.is_empty());
    assert_eq!(list(week).lines.len(), 9);
}
