//! Known optima: cases that can be worked by hand, and instances of the literature with proved optima.

use crate::jobs::{panel, sheet, small_job};
use yardslip::data::*;
use yardslip::length::Length;
use yardslip::solve::{Patient, Solved, solve};

/// One sheet kind at 1.00, nothing lost to any saw.
fn plain_job(length: Length, width: Length) -> Job {
    let mut job = small_job();
    job.sheets = vec![Sheet { length, width, price: Cents(100), ..sheet("birch", "96", "48") }];
    job.yard.kerf = Length::ZERO;
    job.yard.narrowest = Length::from_raw(1);
    job.saw.kerf = Length::ZERO;
    job
}

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
