//! The yard slip: one page, big figures, what to refuse, the cuts in the order they are made.

use super::plans::ALL;
use crate::by_hand::{broken_down_job, broken_down_plan, mixed_job, mixed_plan};
use crate::jobs::{len, panel, small_job};
use crate::paper_frames::texts;
use yardslip::data::{Breakdown, Job};
use yardslip::documents::font::Weight;
use yardslip::documents::frame::Mark;
use yardslip::documents::page_size::PageSize;
use yardslip::documents::slip;
use yardslip::plan::make;
use yardslip::solve::Patient;

#[test]
fn the_slip_is_one_page_whose_widths_are_read_at_arms_length() {
    for (name, job, plan) in ALL.iter() {
        let slip = slip::paper(job, plan, PageSize::Letter).expect("there is something to rip");
        assert_eq!(slip.printed.len(), 1, "{name}");
        let width = plan.sheets[0].boards[0].rips[0].width.show(plan.units);
        let figure = slip.printed[0].marks.iter().find_map(|mark| match mark {
            Mark::Text(text) if text.text == width && text.weight == Weight::Bold => Some(text.size),
            _ => None,
        });
        let size = figure.unwrap_or_else(|| panic!("{name}: the slip does not say {width}"));
        assert!(size >= 7.0, "{name}: widths are only {size} mm high");
    }
}

#[test]
fn the_slip_says_what_to_refuse_and_when_to_measure_first() {
    let (job, mut plan) = (mixed_job(), mixed_plan());
    plan.sheets[0].measure_first = true;
    let slip = slip::paper(&job, &plan, PageSize::Letter).unwrap();
    let words = texts(&slip.printed[0]).join("\n");
    assert!(words.contains("MEASURE FIRST: needs 36 1/4 in."), "{words}");
    assert!(words.contains("refuse under 11 7/8, over 12 1/8"), "{words}");
    assert!(words.contains("3 strips: A A B") && words.contains("11 5/8\nleft over"), "{words}");
    assert!(words.contains("Blade 1/8 in. Rips good to 1/16 in."), "{words}");
    assert!(!words.contains("12 x 16"), "panels are no business of the yard");
}

#[test]
fn the_slip_makes_the_breakdown_crosscut_first_and_trims_bad_edges() {
    let slip = slip::paper(&broken_down_job(), &broken_down_plan(), PageSize::A4).unwrap();
    let words = texts(&slip.printed[0]);
    let at =
        |text: &str| words.iter().position(|word| word == text).unwrap_or_else(|| panic!("no `{text}` in {words:?}"));
    assert!(at("crosscut the sheet here first") < at("trim off the reference edge, blade included"));
    assert!(at("trim off the reference edge, blade included") < at("3 strips: A A A"));
    assert!(at("3 strips: A A A") < at("3 strips: B B B"));
}

#[test]
fn the_slip_says_so_where_a_piece_of_a_breakdown_stays_whole() {
    let mut job = Job { panels: vec![panel("12", "70", 3)], ..small_job() };
    (job.car.longest, job.yard.breakdown) = (Some(len("75")), Breakdown::IfNeeded);
    let plan = make(&job, &Patient).expect("it can be done");
    let board =
        plan.sheets[0].boards.iter().find(|board| board.rips.is_empty()).expect("only one board is long enough");
    let slip = slip::paper(&job, &plan, PageSize::Letter).unwrap();
    let words = texts(&slip.printed[0]).join(" ");
    let whole = format!("the piece {} long stays whole: left over", board.length.show(plan.units));
    assert!(words.contains(&whole), "{words}");
    assert!(!words.contains(&format!("from {whole}")), "{words}");
}
