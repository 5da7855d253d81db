//! Whatever leave a job is given beyond what it had, its plan never costs more: one more sheet, cut or strip to be had,
//! a cheaper one, one panel fewer, one rule of yard, car, saw or grain dropped. Held on tiny jobs and on small awkward
//! batches, all leaves one by one: costs are compared where both are proved, and always the bound with leave with the
//! plan without.

use crate::instances::awkward::awkward;
use crate::made_up_jobs::settings;
use crate::moment::Moment;
use crate::tiny_jobs::{jobs_to_break_down, tiny_jobs};
use proptest::prelude::*;
use yardslip::data::*;
use yardslip::length::Length;
use yardslip::solve::{Solved, solve};

/// What is permitted, and the change that permits it.
type Leave = (&'static str, fn(&mut Job));

const LEAVES: [Leave; 19] = [
    ("one more sheet of each kind", |job| {
        job.sheets.iter_mut().for_each(|sheet| sheet.stock = sheet.stock.map(one_more));
    }),
    ("cheaper sheets", |job| job.sheets.iter_mut().for_each(|sheet| sheet.price.0 -= sheet.price.0 / 7)),
    ("clean edges", |job| job.sheets.iter_mut().for_each(|sheet| sheet.edge_trim = Length::ZERO)),
    ("one more of each strip on hand", |job| job.strips.iter_mut().for_each(|strip| strip.count += 1)),
    ("one panel fewer", |job| job.panels[0].count = (job.panels[0].count - 1).max(1)),
    ("panels from any kind", |job| job.panels.iter_mut().for_each(|panel| panel.sheets.clear())),
    ("one more cut a sheet", |job| job.yard.most_cuts = job.yard.most_cuts.map(one_more)),
    ("one more free cut", |job| job.yard.free_cuts += 1),
    ("cheaper cuts", |job| job.yard.cut_price.0 /= 2),
    ("no strip too narrow", |job| job.yard.narrowest = Length::from_raw(1)),
    ("no strip too wide for the yard", |job| job.yard.widest = None),
    ("no strip too wide for the car", |job| job.car.widest = None),
    ("no strip too wide for the saw", |job| job.saw.crosses = None),
    ("no strip too long, or broken down all the same", no_strip_too_long),
    ("sheets broken down", |job| job.yard.breakdown = Breakdown::Allowed),
    ("panels trimmed", |job| job.saw.trims = true),
    ("no end squared", |job| job.saw.squaring = Length::ZERO),
    ("no panel too short", |job| job.saw.shortest = Length::ZERO),
    ("strips either way", |job| job.yard.rips = Rips::Either),
];

fn one_more(most: u32) -> u32 {
    most + 1
}

/// Where a sheet may be broken down only if the car asks for it, a longer car takes that leave away: it is given back.
fn no_strip_too_long(job: &mut Job) {
    job.car.longest = None;
    if job.yard.breakdown == Breakdown::IfNeeded {
        job.yard.breakdown = Breakdown::Allowed;
    }
}

/// Fails where the job with a leave is known to cost more; how often both costs are known.
fn no_leave_costs(job: &Job) -> Result<usize, String> {
    let Ok(without) = solve(job, &Moment::of(0.5)) else { return Ok(0) };
    let mut known = 0;
    for (name, give) in LEAVES {
        let mut freer = job.clone();
        give(&mut freer);
        let with = solve(&freer, &Moment::of(0.5)).map_err(|faults| format!("{name}: {}", faults[0].cause))?;
        known += usize::from(both_known(&without, &with).map_err(|why| format!("{name}: {why}"))?);
    }
    Ok(known)
}

fn both_known(without: &Solved, with: &Solved) -> Result<bool, String> {
    let both = without.proof.proved && with.proof.proved;
    if with.proof.bound > without.cost || (both && with.cost > without.cost) {
        return Err(format!("{} to {} after {}", with.proof.bound, with.cost, without.cost));
    }
    Ok(both)
}

/// Listed widths decide how large a panel comes out, and a side that may lie across a strip in more ways may come out
/// larger: where that can change, any width is cut.
fn any_width(mut job: Job) -> Job {
    job.yard.rip_widths = RipWidths::Any;
    job
}

proptest! {
    #![proptest_config(settings(12))]

    #[test]
    fn no_leave_makes_a_tiny_job_dearer(job in tiny_jobs()) {
        no_leave_costs(&any_width(job)).map_err(TestCaseError::fail)?;
    }

    #[test]
    fn nor_one_whose_sheets_may_be_broken_down(job in jobs_to_break_down()) {
        no_leave_costs(&any_width(job)).map_err(TestCaseError::fail)?;
    }
}

#[test]
fn no_leave_makes_an_awkward_batch_dearer() {
    let known: Vec<usize> = (1..=8)
        .map(|seed| {
            let mut job = any_width(awkward(seed).1);
            job.panels.truncate(3);
            job.panels.iter_mut().for_each(|panel| panel.count = panel.count.min(5));
            no_leave_costs(&job).unwrap_or_else(|why| panic!("awkward batch {seed}: {why}"))
        })
        .collect();
    let (compared, all) = (known.iter().sum::<usize>(), known.len() * LEAVES.len());
    assert!(compared * 10 >= all * 9, "only {compared} of {all} compared");
}
