//! What is possible at nominal size is possible with scant too: yard and hand ask for sizes that scant alone would
//! miss.

use crate::brute_force::least_money;
use crate::jobs::{len, panel, sheet, small_job};
use yardslip::data::{Cents, Grain, Job, Panel, RipWidths};
use yardslip::documents::wording;
use yardslip::length::Length;
use yardslip::model::build;
use yardslip::plan::{Plan, check, make};
use yardslip::solve::{Patient, solve};

/// Panels 1/8 in. scant, upright, from one kind of sheet.
fn upright(size: (&str, &str), count: u32, from: (&str, &str)) -> Job {
    let line = Panel { scant: len("1/8"), grain: Grain::Upright, ..panel(size.0, size.1, count) };
    Job { panels: vec![line], sheets: vec![sheet("birch", from.0, from.1)], ..small_job() }
}

fn made(job: &Job) -> Plan {
    let plan = make(job, &Patient).unwrap_or_else(|faults| panic!("{faults:?}"));
    check(job, &plan).unwrap_or_else(|violations| panic!("{violations:?}"));
    plan
}

fn cut_size(plan: &Plan) -> (Length, Length) {
    (plan.panels[0].cut_width, plan.panels[0].cut_height)
}

#[test]
fn a_strip_is_asked_as_wide_as_the_yard_rips_at_least() {
    let mut job = upright(("3", "3"), 12, ("96", "48"));
    job.yard.narrowest = len("3");
    let plan = made(&job);
    assert_eq!((plan.strips[0].width, plan.panels[0].cut_width), (len("3"), len("3")));
    assert_eq!(least_money(&job), Some(plan.cost.total));
    // Good to 1/32 in., the yard is asked for that much more than the smallest width, or for its own narrowest.
    (job.yard.tolerance, job.panels[0].scant) = (len("1/32"), len("1/16"));
    let solved = solve(&job, &Patient).expect("it can be cut");
    assert_eq!(solved.sheets[0].boards[0].strips[0].width, len("3"));
    assert_eq!(yardslip::model::sizes::of(&job)[0].width.least, len("2 31/32"));
}

#[test]
fn of_listed_widths_the_narrowest_that_the_yard_rips_is_asked() {
    let mut job = upright(("3", "12"), 12, ("96", "48"));
    (job.yard.narrowest, job.yard.rip_widths) = (len("3"), RipWidths::Only(vec![len("2 7/8"), len("3")]));
    assert_eq!(made(&job).strips[0].width, len("3"));
}

#[test]
fn a_yard_that_rips_nothing_so_narrow_refuses_with_the_least_change_as_remedy() {
    let mut job = upright(("3", "3"), 12, ("96", "48"));
    job.yard.narrowest = len("3 1/2");
    let fault = build(&job).expect_err("nothing so narrow is ripped").remove(0);
    assert_eq!(
        (fault.place.key.as_str(), fault.remedy.as_str()),
        ("yard.narrowest", "a narrowest rip of 3 in. would do")
    );
    job.yard.narrowest = len("3");
    assert!(build(&job).is_ok());
}

#[test]
fn a_piece_that_only_scant_makes_too_short_to_hold_is_cut_as_long_as_the_hand_needs() {
    // 12 - 7 7/8 - 1/8 leaves 4 in. to hold; a piece of 8 in. is held itself.
    let mut job = upright(("8", "8"), 1, ("12", "12"));
    job.saw.shortest = len("8");
    let plan = made(&job);
    assert_eq!(plan.panels[0].cut_height, len("8"));
    assert_eq!((least_money(&job), plan.cost.total), (Some(Cents(3850)), Cents(3850)));
    // With 8 in. behind it, it may be as small as scant allows: two of them need 16 in. and two kerfs.
    job.sheets[0].length = len("24");
    job.panels[0].count = 2;
    assert_eq!(solve(&job, &Patient).expect("it can be cut").cost, Cents(3850));
}

#[test]
fn where_longer_pieces_to_hold_save_a_sheet_panels_are_cut_at_nominal_size() {
    // Two pieces of 11 7/8 in. leave nothing to hold on 24 1/8 in.; two of 12 in. are held themselves.
    let mut job = upright(("8", "12"), 2, ("24 1/8", "8"));
    job.saw.shortest = len("12");
    assert_eq!(solve(&job, &Patient).expect("two sheets do").cost, Cents(7700));
    let plan = made(&job);
    assert_eq!((plan.cost.total, cut_size(&plan)), (Cents(3850), (len("8"), len("12"))));
    assert_eq!(wording::proof(&plan), "Proved: no plan for this job costs less.");
    // Nor is it refused where no other sheet can be had.
    job.sheets[0].stock = Some(1);
    assert!(solve(&job, &Patient).is_err());
    assert_eq!(made(&job).cost.total, Cents(3850));
}

#[test]
fn panels_that_share_a_strip_at_nominal_size_only_are_not_refused() {
    let mut job = upright(("12", "47"), 1, ("96", "12"));
    job.panels.push(Panel { scant: Length::ZERO, ..job.panels[0].clone() });
    job.sheets[0].stock = Some(1);
    assert!(solve(&job, &Patient).is_err());
    assert_eq!(made(&job).cost.total, Cents(3850));
}

#[test]
fn a_side_held_to_a_width_narrows_what_is_proved() {
    let mut job = upright(("12", "16"), 12, ("96", "48"));
    (job.panels[0].grain, job.yard.rip_widths) = (Grain::Any, RipWidths::Only(vec![len("12"), len("16")]));
    let end = "Panels of a size that all lie one way might be cut smaller still.";
    assert!(wording::proof(&made(&job)).ends_with(end));
    job.panels[0].grain = Grain::Upright;
    assert_eq!(wording::proof(&made(&job)), "Proved: no plan for this job costs less.");
}

#[test]
fn a_yard_that_may_rip_too_wide_is_asked_for_strips_that_cannot_come_out_over_size() {
    // 12 - 2 x 1/16 is the panel, 11 15/16 is asked, and 12 is the most that may come of it.
    let mut job = upright(("12", "16"), 10, ("96", "48"));
    job.yard.tolerance = len("1/16");
    let plan = made(&job);
    assert_eq!((plan.strips[0].width, plan.strips[0].widest), (len("11 15/16"), len("12")));
    assert!(plan.notes.iter().all(|note| !note.text.contains("wider")), "{:?}", plan.notes);
}

#[test]
fn where_the_yards_cuts_are_counted_a_size_between_may_save_one() {
    // 9 61/64 + 3/32 + 9 61/64 = 20: one cut gives two strips that size, and of 9 7/8 in. only one.
    let mut job = upright(("10", "20"), 2, ("24", "20"));
    (job.yard.kerf, job.yard.most_cuts) = (len("3/32"), Some(1));
    let plan = made(&job);
    assert_eq!(plan.cost.total, Cents(7700));
    assert!(wording::proof(&plan).contains("at their smallest or at nominal sizes"), "{}", wording::proof(&plan));
    (job.panels[0].width, job.panels[0].scant) = (len("9 61/64"), Length::ZERO);
    assert_eq!(least_money(&job), Some(Cents(3850)));
}
