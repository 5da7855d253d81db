//! Every rule of yard, car and saw changes a plan: worked by hand on 12 x 16 panels from 48 x 96 sheets at 38.50, both
//! kerfs 1/8 in. One sheet gives 19 of them at nominal size (two rips of 16 in. with 7 each, one of 12 in. with 5), and
//! 24 that are 1/8 in. scant (four rips of 11 7/8 in. with 6 each).

use crate::jobs::{len, panel, small_job};
use yardslip::data::*;
use yardslip::length::Length;
use yardslip::plan::{Plan, check, lay_out};
use yardslip::solve::{Patient, solve};

fn nominal(count: u32) -> Job {
    Job { panels: vec![panel("12", "16", count)], ..small_job() }
}

fn scant(count: u32) -> Job {
    Job { panels: vec![Panel { scant: len("1/8"), ..panel("12", "16", count) }], ..small_job() }
}

fn planned(job: &Job) -> Plan {
    let solved = solve(job, &Patient).unwrap_or_else(|faults| panic!("{faults:?}"));
    let plan = lay_out(job, &solved);
    check(job, &plan).unwrap_or_else(|violations| panic!("{violations:?}"));
    assert!(plan.proof.proved);
    plan
}

/// The money for the job as it is, and with the rule.
fn cents(job: &Job, rule: impl FnOnce(&mut Job)) -> (i64, i64) {
    let mut ruled = job.clone();
    rule(&mut ruled);
    (planned(job).cost.total.0, planned(&ruled).cost.total.0)
}

const ONE: i64 = 3850;
const TWO: i64 = 7700;

#[test]
fn the_yards_widths_decide_what_a_sheet_gives() {
    assert_eq!(cents(&nominal(19), |job| job.yard.narrowest = len("13")), (ONE, TWO));
    assert_eq!(cents(&nominal(19), |job| job.yard.widest = Some(len("12"))), (ONE, TWO));
    assert_eq!(cents(&nominal(19), |job| job.yard.rip_widths = RipWidths::Only(vec![len("16")])), (ONE, TWO));
    assert_eq!(cents(&scant(24), |job| job.yard.rip_widths = RipWidths::Step(len("1"))), (ONE, TWO));
}

#[test]
fn a_tolerance_of_the_yard_takes_room_for_each_strip() {
    // Four strips of 11 7/8 in. and three kerfs are 47 7/8 in.; asked 1/16 in. wider each they are 48 1/8 in.
    assert_eq!(cents(&scant(24), |job| job.yard.tolerance = len("1/16")), (ONE, TWO));
}

#[test]
fn the_yards_cuts_are_counted_limited_and_paid() {
    assert_eq!(cents(&nominal(19), |job| job.yard.most_cuts = Some(2)), (ONE, TWO));
    // Three strips that leave something over take three cuts.
    let paid = |free: u32, free_per: FreePer| {
        move |job: &mut Job| (job.yard.cut_price, job.yard.free_cuts, job.yard.free_per) = (Cents(50), free, free_per)
    };
    assert_eq!(cents(&nominal(19), paid(2, FreePer::Sheet)), (ONE, ONE + 50));
    assert_eq!(cents(&nominal(38), paid(2, FreePer::Sheet)), (TWO, TWO + 100));
    assert_eq!(cents(&nominal(38), paid(2, FreePer::Order)), (TWO, TWO + 200));
}

#[test]
fn a_sheets_rough_edges_and_the_squaring_cut_take_room() {
    assert_eq!(cents(&scant(24), |job| job.sheets[0].edge_trim = len("1/8")), (ONE, TWO));
    // Six panels of 15 7/8 in. and five kerfs are 95 7/8 in.
    assert_eq!(cents(&scant(24), |job| job.saw.squaring = len("1/8")), (ONE, ONE));
    assert_eq!(cents(&scant(24), |job| job.saw.squaring = len("1/4")), (ONE, TWO));
}

#[test]
fn the_saw_crosses_only_so_much() {
    assert_eq!(cents(&nominal(19), |job| job.saw.crosses = Some(len("12"))), (ONE, TWO));
}

#[test]
fn the_hand_needs_something_to_hold() {
    // Pieces under 20 in. need 20 in. behind the last one: 4 of 16 in. or 6 of 12 in. a strip, so 6 + 6 + 4 a sheet.
    assert_eq!(cents(&nominal(16), |job| job.saw.shortest = len("20")), (ONE, ONE));
    assert_eq!(cents(&nominal(17), |job| job.saw.shortest = len("20")), (ONE, TWO));
}

#[test]
fn a_saw_that_trims_takes_panels_from_wider_strips() {
    let mut job = nominal(15);
    job.yard.rip_widths = RipWidths::Only(vec![len("14")]);
    assert!(solve(&job, &Patient).is_err());
    job.saw.trims = true;
    assert_eq!(planned(&job).cost.total, Cents(ONE));
}

#[test]
fn the_car_takes_only_strips_that_fit() {
    assert_eq!(cents(&nominal(19), |job| job.car.widest = Some(len("12"))), (ONE, TWO));
    let mut job = nominal(14);
    job.car.longest = Some(len("75"));
    assert!(solve(&job, &Patient).is_err());
    job.yard.breakdown = Breakdown::IfNeeded;
    let plan = planned(&job);
    assert_eq!(plan.cost.total, Cents(ONE));
    assert!(plan.sheets.iter().all(|group| group.boards.len() == 2));
    assert!(plan.strips.iter().all(|strip| strip.length <= len("75")));
}

#[test]
fn strips_on_hand_save_a_sheet() {
    let strip = StripOnHand {
        name: "shelf".into(),
        width: len("12"),
        length: len("40"),
        count: 1,
        sheet: None,
        grain_along: true,
    };
    assert_eq!(cents(&nominal(21), |job| job.strips = vec![strip]), (TWO, ONE));
    assert_eq!(Length::inches(40).times(len("16 1/8")), 2);
}

#[test]
fn panels_that_may_vary_by_different_amounts_narrow_what_is_proved() {
    let mut job = scant(4);
    job.panels.push(panel("9", "12", 4));
    let told = |job: &Job| yardslip::documents::wording::proof(&planned(job));
    // At 12 in. both lie on one strip; at 11 7/8 in. only the first does.
    assert_eq!(
        told(&job),
        "Proved: no plan with panels at their smallest or at nominal sizes costs less. A size between might let different panels \
         share a strip."
    );
    job.panels[1].scant = len("1/8");
    assert_eq!(told(&job), "Proved: no plan for this job costs less.");
}
