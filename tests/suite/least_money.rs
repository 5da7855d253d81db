//! The solver is held against brute force on tiny jobs, and brute force against what can be worked by hand.

use crate::brute_force::least_money;
use crate::jobs::{len, panel, small_job};
use crate::made_up_jobs::settings;
use crate::moment::Moment;
use crate::tiny_jobs::{jobs_to_break_down, tiny_jobs};
use proptest::prelude::*;
use proptest::strategy::ValueTree;
use proptest::test_runner::{Config, RngSeed, TestRunner};
use yardslip::data::{Breakdown, Cents, FreePer, Grain, Job, Panel, StripOnHand};
use yardslip::length::Length;
use yardslip::plan::{Against, Claim, make};
use yardslip::solve::{Patient, Proof, solve};

/// What the solver claims of a job must be possible beside its least money.
fn in_order(job: &Job) -> Result<(), TestCaseError> {
    let Ok(solved) = solve(job, &Moment::of(0.3)) else { return Ok(()) };
    let (cost, Proof { proved, bound }) = (solved.cost, solved.proof);
    let Some(least) = least_money(job) else {
        return Err(TestCaseError::fail(format!("a plan of {cost} where nothing can be made")));
    };
    prop_assert!(bound <= least, "the bound {bound} is above a plan of {least}");
    prop_assert!(least <= cost, "a plan of {cost} is below anything possible, {least}");
    prop_assert!(!proved || cost == least, "{cost} is said to be proved, but {least} will do");
    Ok(())
}

/// The same panels, each side so many eighths of the scant under its nominal size, and no further.
fn at_sizes_between(job: &Job, parts: &[i64]) -> Job {
    let mut between = job.clone();
    for (panel, parts) in between.panels.iter_mut().zip(parts.chunks(2)) {
        let under = |part: i64| Length::from_raw(panel.scant.raw() * part / 8);
        (panel.width, panel.height) = (panel.width - under(parts[0]), panel.height - under(parts[1]));
        panel.scant = Length::ZERO;
    }
    between
}

proptest! {
    #![proptest_config(settings(100))]

    #[test]
    fn bound_least_money_and_plan_come_in_this_order(job in tiny_jobs()) {
        in_order(&job)?;
    }

    #[test]
    fn what_can_be_made_is_not_refused(job in prop_oneof![tiny_jobs(), jobs_to_break_down()]) {
        if let (Err(faults), Some(least)) = (solve(&job, &Patient), least_money(&job)) {
            return Err(TestCaseError::fail(format!("{faults:?}, but {least} will do")));
        }
    }

    #[test]
    fn what_is_proved_of_all_plans_holds_at_sizes_between(
        job in prop_oneof![tiny_jobs(), jobs_to_break_down()],
        parts in prop::collection::vec(prop::collection::vec(0..=8_i64, 6), 3),
    ) {
        let Ok(plan) = make(&job, &Moment::of(0.5)) else { return Ok(()) };
        let of_all = plan.claim == Claim::Cost(Against::default());
        if !of_all {
            return Ok(());
        }
        for parts in parts {
            let between = at_sizes_between(&job, &parts);
            if let Some(least) = least_money(&between) {
                prop_assert!(plan.proof.bound <= least, "{} is above {least} for {:?}", plan.proof.bound, between.panels);
            }
        }
    }

    #[test]
    fn they_do_too_where_sheets_may_be_broken_down(job in jobs_to_break_down()) {
        in_order(&job)?;
    }
}

#[test]
fn many_tiny_jobs_need_several_sheets() {
    // The same jobs at every seed: of others about as many do, but how many is a matter of chance.
    let mut runner = TestRunner::new(Config { rng_seed: RngSeed::Fixed(1912), ..settings(1) });
    let made_up = (0..200).map(|_| tiny_jobs().new_tree(&mut runner).expect("a job").current());
    let several = made_up.filter(|job| {
        let dearest = job.sheets.iter().map(|sheet| sheet.price).max();
        least_money(job) > dearest
    });
    let several = several.count();
    assert!(several > 50, "only {several} of 200");
}

/// Panels of one size from 48 x 96 sheets at 38.50, both kerfs 1/8 in.
fn of(size: (&str, &str), count: u32) -> Job {
    Job { panels: vec![panel(size.0, size.1, count)], ..small_job() }
}

fn costs(job: &Job, cents: i64) {
    assert_eq!(least_money(job), Some(Cents(cents)));
}

#[test]
fn brute_force_finds_what_a_sheet_gives() {
    // Two rips of 16 in. and one of 12: 7 + 7 + 5 panels of 12 x 16. Four strips of 11 7/8 in. with six of 15 7/8: 24.
    costs(&of(("12", "16"), 19), 3850);
    costs(&of(("12", "16"), 20), 7700);
    let scant = |count| {
        let mut job = of(("12", "16"), count);
        job.panels[0].scant = len("1/8");
        job
    };
    costs(&scant(24), 3850);
    costs(&scant(25), 7700);
}

#[test]
fn brute_force_counts_the_cuts_of_the_yard() {
    // Three strips of 12 in. leave 11 5/8 in.: three cuts. Two of 23 15/16 in. use 48 in. up: one cut. A rough edge
    // costs a cut more, and then the strips no longer fit.
    let mut job = of(("12", "96"), 3);
    job.yard.cut_price = Cents(50);
    costs(&job, 3850 + 150);
    job.yard.free_cuts = 2;
    costs(&job, 3850 + 50);
    let mut job = of(("23 15/16", "96"), 2);
    job.yard.cut_price = Cents(50);
    costs(&job, 3850 + 50);
    job.panels[0].height = len("95");
    job.sheets[0].edge_trim = len("1/8");
    costs(&job, 2 * (3850 + 100));
}

#[test]
fn brute_force_counts_free_cuts_by_the_sheet_or_the_order() {
    // Four panels of 12 x 96: three on one sheet (three cuts), one on another (one cut).
    let mut job = of(("12", "96"), 4);
    (job.yard.cut_price, job.yard.free_cuts) = (Cents(50), 2);
    costs(&job, 2 * 3850);
    job.yard.free_per = FreePer::Order;
    costs(&job, 2 * 3850 + 100);
}

#[test]
fn brute_force_keeps_the_stock_and_uses_the_rack() {
    let mut job = of(("12", "96"), 4);
    job.sheets[0].stock = Some(1);
    assert_eq!(least_money(&job), None);
    let width = Length::inches(12);
    job.strips = vec![StripOnHand {
        name: String::new(),
        width,
        length: Length::inches(96),
        count: 1,
        sheet: None,
        grain_along: true,
    }];
    costs(&job, 3850);
}

#[test]
fn brute_force_breaks_a_sheet_down_for_the_car() {
    // A car of 50 in.: 96 = 50 + 1/8 + 45 7/8, so that three strips of 45 7/8 and three of 50 are what a sheet gives.
    let mut job = of(("12", "45 7/8"), 6);
    job.car.longest = Some(len("50"));
    assert_eq!(least_money(&job), None);
    job.yard.breakdown = Breakdown::IfNeeded;
    costs(&job, 3850);
    // Turned, 48 in. across a strip as wide as the sheet: four of them on 50 in., three on 45 7/8. Upright, one on
    // each.
    job.panels[0] = panel("12", "48", 7);
    costs(&job, 3850);
    job.panels[0] = Panel { grain: Grain::Upright, ..panel("12", "48", 6) };
    costs(&job, 2 * 3850);
}

#[test]
fn brute_force_leaves_the_hand_something_to_hold() {
    // Two pieces of 3 in. and one of 8: the long one is cut last. Alone on their strip they need 8 in. behind them.
    let upright = |size: (&str, &str), count| Panel { grain: Grain::Upright, ..panel(size.0, size.1, count) };
    let mut job = Job { panels: vec![upright(("12", "3"), 2)], ..small_job() };
    job.sheets[0].length = len("14 1/4");
    job.saw.shortest = len("8");
    costs(&job, 3850);
    job.sheets[0].length = len("14");
    job.yard.most_cuts = Some(1);
    costs(&job, 7700);
    job.panels.push(upright(("12", "7 3/4"), 1));
    assert_eq!(least_money(&job), None);
    job.panels[1] = upright(("12", "8"), 1);
    costs(&job, 7700);
}
