//! Known optima: cases that can be worked by hand, and instances of the literature with proved optima.

use crate::instances::batches::{hobby, random};
use crate::instances::{bare_job, panel_mm};
use crate::jobs::{panel, small_job};
use crate::moment::Moment;
use yardslip::data::*;
use yardslip::length::Length;
use yardslip::solve::{Patient, Solved, solve};

/// One 48 x 96 sheet kind with 1/8 in. kerfs and so many panels of 12 x 16.
fn known_case(count: u32) -> Job {
    Job { panels: vec![panel("12", "16", count)], ..small_job() }
}

fn sheets_bought(solved: &Solved) -> u32 {
    solved.sheets.iter().map(|sheet| sheet.count).sum()
}

fn takes(job: &Job, sheets: u32) {
    let solved = solve(job, &Patient).expect("the job can be done");
    assert!(solved.proof.proved, "bound {} for a plan of {}", solved.proof.bound, solved.cost);
    assert_eq!(sheets_bought(&solved), sheets);
}

#[test]
fn one_sheet_gives_nineteen_panels_and_not_twenty() {
    takes(&known_case(19), 1);
    takes(&known_case(20), 2);
}

#[test]
fn upright_panels_come_fifteen_to_a_sheet() {
    for (count, sheets) in [(15, 1), (16, 2)] {
        let mut job = known_case(count);
        job.panels[0].grain = Grain::Upright;
        takes(&job, sheets);
    }
}

#[test]
fn an_eighth_of_scant_makes_it_twenty_four() {
    for (count, sheets) in [(24, 1), (25, 2)] {
        let mut job = known_case(count);
        job.panels[0].scant = Length::sixty_fourths(8);
        takes(&job, sheets);
    }
}

#[test]
fn twelve_inch_rips_alone_give_fifteen() {
    for (count, sheets) in [(15, 1), (16, 2)] {
        let mut job = known_case(count);
        job.yard.rip_widths = RipWidths::Only(vec![Length::inches(12)]);
        takes(&job, sheets);
    }
}

/// The worked example of the encyclopaedia page "Cutting stock problem": 73 rolls of 5600 mm.
#[test]
fn the_paper_rolls_take_seventy_three() {
    let widths = [1380, 1520, 1560, 1710, 1820, 1880, 1930, 2000, 2050, 2100, 2140, 2150, 2200];
    let demands = [22, 25, 12, 14, 18, 18, 20, 10, 12, 14, 16, 18, 20];
    let mut job = bare_job(Length::mm(1000), Length::mm(5600));
    for (width, demand) in widths.into_iter().zip(demands) {
        job.panels.push(Panel { grain: Grain::Upright, ..panel_mm(width, 1000, demand) });
    }
    takes(&job, 73);
}

#[test]
fn batches_of_a_hobby_painter_are_proved() {
    for (seed, trims) in [(1, false), (2, true), (3, false), (4, true)] {
        let solved = solve(&hobby(seed, 1, trims), &Patient).expect("every usual size can be made");
        assert!(solved.proof.proved, "batch {seed}: bound {} for a plan of {}", solved.proof.bound, solved.cost);
    }
}

/// One who has no time at all still gets a plan that can be cut, and a bound that is worth something.
#[test]
fn a_plan_is_had_in_no_time() {
    let mut job = known_case(200);
    job.panels.push(panel("9", "12", 77));
    let solved = solve(&job, &Moment::of(0.0)).expect("there are sheets without end");
    let (cost, bound) = (solved.cost, solved.proof.bound);
    assert!(bound <= cost && cost.0 <= 2 * bound.0, "from {bound} to {cost}");
}

/// Once all their strips are settled, very many patterns are left and none costs more than another, so that no list holds
/// them all.
#[test]
fn batches_whose_lists_are_endless_are_not_given_up() {
    for seed in [3415, 3762] {
        let solved = solve(&random(seed), &Patient).expect("the batch can be made");
        assert!(solved.proof.proved, "batch {seed}: bound {} for a plan of {}", solved.proof.bound, solved.cost);
    }
}
