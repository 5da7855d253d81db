//! Whoever follows a remedy gets the panel made: each is taken at its word, and the job built again.

use crate::jobs::{len, panel, small_job};
use crate::made_up_jobs::{jobs, settings};
use proptest::prelude::*;
use std::cell::Cell;
use yardslip::data::*;
use yardslip::length::Length;
use yardslip::model::build;

/// The only fault of a job that cannot be done.
fn fault(job: &Job) -> Fault {
    let mut faults = build(job).expect_err("it cannot be done");
    assert_eq!(faults.len(), 1, "{faults:?}");
    faults.remove(0)
}

/// The job as it is when somebody does what the remedy says, in its own words.
fn followed(job: &Job, fault: &Fault) -> Job {
    let mut job = job.clone();
    let remedy = fault.remedy.strip_suffix(" would do").unwrap_or_else(|| panic!("{fault}"));
    remedy.split(" and ").for_each(|one| follow(&mut job, one));
    job
}

fn follow(job: &mut Job, remedy: &str) {
    let length = |after: &str| {
        let rest = remedy.strip_prefix(after)?;
        let end = rest.find(" in.").expect("a length in inches");
        Some(len(&rest[..end]))
    };
    let named = |sheets: &[Sheet]| {
        let name = remedy.split('`').nth(1).expect("a sheet's name");
        sheets.iter().position(|sheet| sheet.name == name).expect("a sheet of that name")
    };
    if let Some(width) = length("a narrowest rip of ") {
        job.yard.narrowest = width;
    } else if let Some(width) = length("a widest rip of ") {
        job.yard.widest = Some(width);
    } else if let Some(width) = length("a saw that crosses ") {
        job.saw.crosses = Some(width);
    } else if let Some(room) = length("room for strips ") {
        let limit = if remedy.ends_with("wide") { &mut job.car.widest } else { &mut job.car.longest };
        *limit = Some(room);
    } else if let Some(width) = length("a rip of ") {
        let list = if let RipWidths::Only(list) = &job.yard.rip_widths { list.as_slice() } else { &[] };
        job.yard.rip_widths = RipWidths::Only([list, &[width]].concat());
    } else if let Some(scant) = length("a scant of ") {
        job.panels[0].scant = scant;
    } else if let Some(least) = length("a shortest piece of ") {
        job.saw.shortest = least;
    } else if let Some(squaring) =
        length("a squaring cut of ").or((remedy == "no squaring cut").then_some(Length::ZERO))
    {
        job.saw.squaring = squaring;
    } else if let Some(trim) =
        length("an edge trim of ").or(remedy.starts_with("no edge trim on ").then_some(Length::ZERO))
    {
        let kind = named(&job.sheets);
        job.sheets[kind].edge_trim = trim;
    } else if remedy == "a yard that rips \"either\" way" {
        job.yard.rips = Rips::Either;
    } else if remedy == "a grain of \"any\"" {
        job.panels[0].grain = Grain::Any;
    } else if remedy.starts_with("a breakdown crosscut") {
        job.yard.breakdown = if remedy.ends_with("the car") { Breakdown::IfNeeded } else { Breakdown::Allowed };
    } else if remedy.starts_with("a stock of ") {
        let kind = named(&job.sheets);
        job.sheets[kind].stock = Some(1);
    } else if remedy.starts_with("letting it be cut from any kind") {
        job.panels[0].sheets = vec![];
    } else if remedy.starts_with("letting it be cut from ") {
        job.panels[0].sheets = vec![named(&job.sheets)];
    } else {
        let cuts = remedy.strip_suffix(" cuts a sheet").unwrap_or_else(|| panic!("who could follow `{remedy}`?"));
        job.yard.most_cuts = Some(cuts.parse().unwrap());
    }
}

/// A job of one panel on 48 x 96 sheets, changed so that it cannot be done; the key at fault and the remedy.
fn told(width: &str, height: &str, change: impl FnOnce(&mut Job)) -> (String, String) {
    let mut job = Job { panels: vec![panel(width, height, 4)], ..small_job() };
    change(&mut job);
    let fault = fault(&job);
    assert!(build(&followed(&job, &fault)).is_ok(), "{fault}");
    (fault.place.key, fault.remedy)
}

fn tells(width: &str, height: &str, change: impl FnOnce(&mut Job), key: &str, remedy: &str) {
    assert_eq!(told(width, height, change), (key.into(), format!("{remedy} would do")));
}

#[test]
fn a_panel_whose_grain_lays_its_long_side_across_needs_a_saw_that_crosses_that_side() {
    // Level grain on strips that run along the sheet: the height lies across, 24 - 1/8 + 1/16 = 23 15/16.
    let level = |job: &mut Job| {
        (job.panels[0].grain, job.panels[0].scant) = (Grain::Level, len("1/8"));
        (job.saw.crosses, job.yard.tolerance) = (Some(len("15")), len("1/16"));
    };
    tells("12", "24", level, "saw.crosses", "a saw that crosses 23 15/16 in.");
}

#[test]
fn limits_on_a_strips_width_name_the_width_that_would_do() {
    tells("2", "2", |job| job.yard.narrowest = len("3"), "yard.narrowest", "a narrowest rip of 2 in.");
    tells("2", "2 1/2", |job| job.yard.narrowest = len("3"), "yard.narrowest", "a narrowest rip of 2 1/2 in.");
    tells("20", "24", |job| job.yard.widest = Some(len("16")), "yard.widest", "a widest rip of 20 in.");
    tells("20", "24", |job| job.saw.crosses = Some(len("15")), "saw.crosses", "a saw that crosses 20 in.");
    tells("20", "24", |job| job.car.widest = Some(len("18")), "car.widest", "room for strips 20 in. wide");
    let list = |job: &mut Job| job.yard.rip_widths = RipWidths::Only(vec![len("10"), len("14")]);
    tells("12", "16", list, "yard.rip_widths", "a rip of 12 in. too");
    // Rips of whole inches, good to 1/16 in., are asked that much wider than the panel: 12 - 1/16 fits between 11 15/16
    // and 12.
    let inches = |job: &mut Job| {
        (job.yard.rip_widths, job.yard.tolerance) = (RipWidths::Only(vec![len("8"), len("12")]), len("1/16"));
    };
    tells("12", "16", inches, "panel[0].scant", "a scant of 1/16 in.");
    let step = |job: &mut Job| job.yard.rip_widths = RipWidths::Step(len("5"));
    tells("12", "16", step, "yard.rip_widths", "a rip of 12 in., listed in place of the step,");
}

#[test]
fn limits_on_a_strips_length_name_the_length_that_would_do() {
    let words = "a breakdown crosscut where strips are too long for the car";
    tells("12", "16", |job| job.car.longest = Some(len("75")), "yard.breakdown", words);
    tells("12", "96", |job| job.saw.squaring = len("1/4"), "saw.squaring", "no squaring cut");
    let squared = |job: &mut Job| job.saw.squaring = len("1/2");
    tells("12", "95 3/4", squared, "saw.squaring", "a squaring cut of 1/4 in.");
    let stubs = |job: &mut Job| {
        // 12 - 5 - 1/8 = 6 7/8 is all that the hand could hold behind a panel of 5 in.
        (job.sheets[0].length, job.saw.shortest, job.panels[0].grain) = (len("12"), len("8"), Grain::Upright);
    };
    tells("10", "5", stubs, "saw.shortest", "a shortest piece of 5 in., held by a clamp or jig,");
}

#[test]
fn limits_of_the_sheet_are_named_too() {
    let trimmed = |job: &mut Job| job.sheets[0].edge_trim = len("1/2");
    tells("47 1/2", "60", trimmed, "sheet[0].edge_trim", "an edge trim of 1/4 in. on `birch 1/4`");
    tells("12", "16", |job| job.sheets[0].stock = Some(0), "sheet[0].stock", "a stock of `birch 1/4`");
    tells("48", "60", |job| job.yard.tolerance = len("1/16"), "panel[0].scant", "a scant of 1/16 in.");
    let bound = |job: &mut Job| {
        job.sheets.push(Sheet { width: len("24"), length: len("24"), name: "handy".into(), ..job.sheets[0].clone() });
        job.panels[0].sheets = vec![1];
    };
    tells("30", "40", bound, "panel[0].sheets", "letting it be cut from `birch 1/4`");
    let only_on_hand = |job: &mut Job| {
        let (width, length) = (len("12"), len("100"));
        let grain_along = true;
        job.strips = vec![StripOnHand { name: String::new(), width, length, count: 1, sheet: None, grain_along }];
        job.panels[0].sheets = vec![0];
    };
    let any = "letting it be cut from any kind, strips of an unknown kind included,";
    tells("12", "97", only_on_hand, "panel[0].sheets", any);
    let trims_cost_cuts = |job: &mut Job| (job.sheets[0].edge_trim, job.yard.most_cuts) = (len("1/8"), Some(1));
    tells("12", "16", trims_cost_cuts, "yard.most_cuts", "2 cuts a sheet");
}

#[test]
fn two_limits_that_stop_a_panel_together_are_both_named() {
    let narrow = |job: &mut Job| (job.saw.crosses, job.yard.widest) = (Some(len("15")), Some(len("18")));
    tells("20", "24", narrow, "yard.widest", "a widest rip of 20 in. and a saw that crosses 20 in.");
}

/// A job of one panel, often too large, too small or too much for the shop.
fn hard_jobs() -> impl Strategy<Value = Job> {
    let side = |most: i64| (4..most * 8).prop_map(|eighths| Length::sixty_fourths(eighths * 8));
    (jobs(), side(50), side(97)).prop_map(|(mut job, width, height)| {
        job.panels.truncate(1);
        (job.panels[0].width, job.panels[0].height) = (width, height);
        job.panels[0].scant = job.panels[0].scant.min(Length::sixty_fourths(8));
        job
    })
}

/// The job with everything out of the way but its sheets and strips.
fn free(job: &Job) -> Job {
    let mut free = Job { yard: small_job().yard, car: Car::default(), saw: small_job().saw, ..job.clone() };
    (free.yard.rips, free.yard.narrowest, free.saw.trims) = (Rips::Either, Length::from_raw(1), true);
    (free.panels[0].grain, free.panels[0].sheets, free.strips) = (Grain::Any, vec![], vec![]);
    free.sheets.iter_mut().for_each(|sheet| (sheet.stock, sheet.edge_trim) = (None, Length::ZERO));
    free
}

#[test]
fn every_remedy_does_what_it_says() {
    let followed_up = Cell::new(0);
    let mut runner = proptest::test_runner::TestRunner::new(settings(3000));
    let run = runner.run(&hard_jobs(), |job| {
        let Err(faults) = build(&job) else { return Ok(()) };
        let fault = &faults[0];
        if fault.cause.contains("and the largest sheet is") {
            prop_assert!(build(&free(&job)).is_err(), "{}", fault);
            return Ok(());
        }
        followed_up.set(followed_up.get() + 1);
        prop_assert!(build(&followed(&job, fault)).is_ok(), "{}", fault);
        Ok(())
    });
    run.unwrap_or_else(|failure| panic!("{failure}"));
    assert!(followed_up.get() > 300, "only {} of the jobs were faulty", followed_up.get());
}

#[test]
fn a_panel_as_wide_as_the_widest_rip_is_told_why_it_is_not_made() {
    let job = Job { panels: vec![panel("20", "24", 1)], ..small_job() };
    let exact = Job { yard: Yard { widest: Some(len("20")), ..job.yard.clone() }, ..job.clone() };
    assert!(build(&exact).is_ok());
    let job = Job { yard: Yard { tolerance: len("1/8"), ..exact.yard.clone() }, ..exact };
    let told = fault(&job);
    assert!(
        told.cause.ends_with(
            "nothing wider than 20 in., and a strip is asked for 1/8 in. wider than its panel (its tolerance)"
        ),
        "{told}"
    );
    assert_eq!(told.remedy, "a widest rip of 20 1/8 in. would do");
}
