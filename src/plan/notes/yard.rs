//! At the yard and on the road: strips that may come out too wide, loads, and what does not fit the car.

use super::super::load::Cargo;
use super::super::weigh::say;
use super::super::{Origin, Plan};
use super::{capital, strip_words};
use crate::data::{Cents, Job};

pub(super) fn yard_notes(job: &Job, plan: &Plan) -> Vec<String> {
    too_wide(job, plan).into_iter().chain(left_behind(job, plan)).collect()
}

/// Strips that the yard's tolerance lets come out wider than their panels may be.
pub(in crate::plan) fn over_wide(job: &Job, plan: &Plan) -> Vec<usize> {
    let ripped = plan.strips.iter().enumerate().filter(|(_, strip)| matches!(strip.origin, Origin::Sheet { .. }));
    ripped.filter(|(_, strip)| strip.width + job.yard.tolerance > strip.widest).map(|(index, _)| index).collect()
}

fn too_wide(job: &Job, plan: &Plan) -> Option<String> {
    let (tolerance, wide) = (job.yard.tolerance, over_wide(job, plan));
    let pieces = wide.iter().flat_map(|index| &plan.strips[*index].pieces);
    let little_scant = pieces.map(|piece| job.panels[piece.panel].scant).any(|scant| scant < tolerance * 2);
    let remedy = if job.saw.trims {
        "refuse what is over, or trim it".to_owned()
    } else if little_scant {
        format!("refuse what is over; a scant of {} would allow for it", (tolerance * 2).say(job.units))
    } else {
        "refuse what is over".to_owned()
    };
    (!wide.is_empty()).then(|| {
        let strips = capital(&strip_words(plan, &wide));
        let tolerance = tolerance.say(job.units);
        format!("{strips} may come out wider than the panels' nominal size (the yard cuts good to {tolerance}), and a panel over its size fits no frame: {remedy}.")
    })
}

/// What the yard may keep, because the car does not hold it.
fn left_behind(job: &Job, plan: &Plan) -> Vec<String> {
    let boards = plan.offcuts.iter().filter(|left| left.from.starts_with("sheet"));
    let large = boards.filter(|left| !Cargo::offcut(job, left).fits(&job.car));
    let told = large.map(|left| {
        let (width, length) = (left.width.show(job.units), left.length.say(job.units));
        let kept = if left.worth > Cents::ZERO { " and is worth keeping" } else { "" };
        format!(
            "What is left of {} ({width} x {length}) does not fit the car{kept}: have it cut, or leave it.",
            left.from
        )
    });
    told.collect()
}

pub(super) fn car_notes(job: &Job, plan: &Plan) -> Vec<String> {
    let Some((limit, weight)) = job.car.heaviest.zip(plan.load.weight) else { return Vec::new() };
    let (said, limit_said) = (say(weight, job.units), say(limit, job.units));
    let mut notes = Vec::new();
    if plan.load.trips > 1 {
        notes.push(format!("The load weighs {said}, the car carries {limit_said}: {} trips.", plan.load.trips));
    }
    if plan.strips.iter().any(|strip| strip.weight.is_some_and(|weight| weight > limit)) {
        notes.push(format!("A single strip weighs more than the {limit_said} that the car carries."));
    }
    notes
}
