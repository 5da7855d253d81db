//! At the saw: what the squaring cut costs, pieces too short to hold, panels to trim, factory ends beyond the offcuts.

use super::super::{Origin, Plan};
use super::{far_end, needs_along, strip_words};
use crate::data::Job;
use crate::length::Length;
use std::collections::BTreeMap;

pub(super) fn notes(job: &Job, plan: &Plan) -> Vec<String> {
    squaring(job, plan)
        .into_iter()
        .chain(short(job, plan))
        .chain(trimming(plan))
        .chain(factory_ends(job, plan))
        .collect()
}

/// Where another panel would fit but for the squaring cut.
fn squaring(job: &Job, plan: &Plan) -> Vec<String> {
    let mut lost: BTreeMap<Length, Vec<usize>> = BTreeMap::new();
    for index in 0..plan.strips.len() {
        if let Some(length) = lost_to_squaring(job, plan, index) {
            lost.entry(length).or_default().push(index);
        }
    }
    let told = lost.into_iter().rev().map(|(length, strips)| {
        let strips_words = strip_words(plan, &strips);
        let (cut, piece) = (job.saw.squaring.say(job.units), length.say(job.units));
        format!("The squaring cut of {cut} costs a piece of {piece} on {strips_words}: skip it where an end is square already.")
    });
    told.collect()
}

/// The longest of a strip's own pieces that one more of would fit, were the first end not squared.
fn lost_to_squaring(job: &Job, plan: &Plan, index: usize) -> Option<Length> {
    let strip = &plan.strips[index];
    let edge_trim = match strip.origin {
        Origin::Sheet { sheet, .. } => job.sheets[sheet].edge_trim,
        Origin::OnHand { .. } => Length::ZERO,
    };
    let left = strip.length - needs_along(job, plan, index) - job.saw.kerf;
    let gained = strip.squaring - edge_trim;
    let fits = |length: &Length| left < *length && left + gained >= *length;
    strip.pieces.iter().map(|piece| piece.length).filter(fits).max()
}

fn short(job: &Job, plan: &Plan) -> Option<String> {
    let held = plan.stops.iter().flat_map(|stop| &stop.cuts).any(|cut| cut.hold_long_end);
    let shortest = job.saw.shortest.say(job.units);
    held.then(|| format!("Pieces under {shortest} are cut first, while the strip is long: hold the long end and let the short piece fall free."))
}

/// What lies beyond an offcut, where the strip ends in the sheet's bad end: a rule at the saw measures both.
fn factory_ends(job: &Job, plan: &Plan) -> Vec<String> {
    let mut ends: BTreeMap<Length, Vec<usize>> = BTreeMap::new();
    for (index, _) in plan.strips.iter().enumerate().filter(|(_, strip)| strip.fall_off.is_positive()) {
        let end = far_end(job, plan, index);
        if end.is_positive() {
            ends.entry(end).or_default().push(index);
        }
    }
    let told = ends.into_iter().map(|(end, strips)| {
        let (strips, end) = (strip_words(plan, &strips), end.say(job.units));
        format!("What is left of {strips} ends in {end} of bad factory end: at the stop block it measures so much more than the offcut listed.")
    });
    told.collect()
}

fn trimming(plan: &Plan) -> Option<String> {
    let mut strips: Vec<usize> = plan.trims.iter().map(|trim| trim.strip).collect();
    strips.sort_unstable();
    strips.dedup();
    (!strips.is_empty())
        .then(|| format!("After crosscutting, trim to width the panels marked so on {}.", strip_words(plan, &strips)))
}
