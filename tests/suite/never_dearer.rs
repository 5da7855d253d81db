//! What must never make a plan dearer: another sheet kind, a thinner blade, more scant. And splitting a line in two
//! changes nothing. Held on tiny jobs with every shop rule and on small batches of usual sizes: costs are compared
//! where both plans are proved, and always the bound of the easier job with the plan of the harder one.

use crate::instances::awkward::awkward;
use crate::instances::batches::random;
use crate::made_up_jobs::settings;
use crate::moment::Moment;
use crate::tiny_jobs::{sheet_kind, tiny_jobs};
use proptest::prelude::*;
use yardslip::data::{Cents, Job, RipWidths, Sheet};
use yardslip::length::Length;
use yardslip::solve::solve;

/// Fails where the changed job is known to cost more; true where both costs are known.
fn never_dearer(job: &Job, change: impl Fn(&mut Job)) -> Result<bool, TestCaseError> {
    let mut changed = job.clone();
    change(&mut changed);
    let Ok(before) = solve(job, &Moment::of(2.0)) else { return Ok(false) };
    let Ok(after) = solve(&changed, &Moment::of(2.0)) else {
        let why = format!("a plan of {} is there no more", before.cost);
        return Err(TestCaseError::fail(why));
    };
    prop_assert!(after.proof.bound <= before.cost, "{} at least, after {}", after.proof.bound, before.cost);
    let known = before.proof.proved && after.proof.proved;
    prop_assert!(!known || after.cost <= before.cost, "{} after {}", after.cost, before.cost);
    Ok(known)
}

/// Holds it on small batches of usual sizes, twelve at random and twenty awkward ones, on most of which both costs must
/// be known.
fn on_batches(prepare: impl Fn(&mut Job), change: impl Fn(&mut Job)) {
    let at_random = (1..=12).map(|seed| (format!("batch {seed}"), random(seed)));
    let awkward = (1..=20).map(|seed| (format!("awkward batch {seed}"), awkward(seed).1));
    let known = at_random.chain(awkward).filter(|(name, job)| {
        let mut job = job.clone();
        job.panels.truncate(4);
        job.panels.iter_mut().for_each(|panel| panel.count = panel.count.min(9));
        prepare(&mut job);
        never_dearer(&job, &change).unwrap_or_else(|why| panic!("{name}: {why}"))
    });
    let known = known.count();
    assert!(known >= 28, "only {known} of 32 compared");
}

fn add_kind(job: &mut Job, kind: &Sheet) {
    job.sheets.push(Sheet { name: "one more".into(), ..kind.clone() });
}

/// A thinner blade or a narrower strip may leave a sliver where a sheet was used up, and that costs the yard a cut. So
/// where these change, cuts are free and as many as wanted.
fn free_the_cuts(job: &mut Job) {
    job.yard.cut_price = Cents::ZERO;
    job.yard.most_cuts = None;
}

fn thinner_blade_at_the_yard(job: &mut Job) {
    job.yard.kerf = Length::from_raw(job.yard.kerf.raw() / 2);
}

fn thinner_blade_at_home(job: &mut Job) {
    job.saw.kerf = Length::from_raw(job.saw.kerf.raw() / 2);
}

/// Sizes are decided at their smallest: those of a list of widths, the narrowest rip and the shortest piece to hold may
/// each rule a smaller size out.
fn let_any_size_be(job: &mut Job) {
    free_the_cuts(job);
    job.yard.rip_widths = RipWidths::Any;
    job.yard.narrowest = Length::from_raw(1);
    job.saw.shortest = Length::ZERO;
}

/// All lines alike, so that sides that share a strip still do.
fn more_scant(job: &mut Job) {
    job.panels.iter_mut().for_each(|panel| panel.scant += Length::sixty_fourths(8));
}

/// The first line becomes two.
fn split(job: &mut Job) {
    let mut half = job.panels[0].clone();
    half.count /= 2;
    half.extra = 0;
    half.name.push_str(", the rest");
    if half.count > 0 {
        job.panels[0].count -= half.count;
        job.panels.push(half);
    }
}

proptest! {
    #![proptest_config(settings(40))]

    #[test]
    fn another_sheet_kind_never_costs_more(job in tiny_jobs(), kind in sheet_kind()) {
        never_dearer(&job, |job| add_kind(job, &kind))?;
    }

    #[test]
    fn a_thinner_blade_at_home_never_costs_more(job in tiny_jobs()) {
        never_dearer(&job, thinner_blade_at_home)?;
    }

    #[test]
    fn a_thinner_blade_at_the_yard_never_costs_more(mut job in tiny_jobs()) {
        free_the_cuts(&mut job);
        never_dearer(&job, thinner_blade_at_the_yard)?;
    }

    #[test]
    fn more_scant_never_costs_more(mut job in tiny_jobs()) {
        let_any_size_be(&mut job);
        never_dearer(&job, more_scant)?;
    }

    #[test]
    fn splitting_a_line_changes_nothing(job in tiny_jobs()) {
        never_dearer(&job, split)?;
        let mut splitted = job.clone();
        split(&mut splitted);
        never_dearer(&splitted, |changed| *changed = job.clone())?;
    }
}

#[test]
fn another_sheet_kind_never_makes_a_batch_dearer() {
    on_batches(
        |_| {},
        |job| {
            let mut kind = job.sheets[0].clone();
            kind.length = Length::inches(120);
            kind.price.0 += 900;
            add_kind(job, &kind);
        },
    );
}

#[test]
fn thinner_blades_never_make_a_batch_dearer() {
    on_batches(|_| {}, thinner_blade_at_home);
    on_batches(free_the_cuts, thinner_blade_at_the_yard);
}

#[test]
fn more_scant_never_makes_a_batch_dearer() {
    on_batches(let_any_size_be, more_scant);
}

#[test]
fn splitting_a_line_of_a_batch_changes_nothing() {
    on_batches(|_| {}, split);
    on_batches(split, |job| {
        let half = job.panels.pop().expect("a line that was split");
        job.panels[0].count += half.count;
    });
}
