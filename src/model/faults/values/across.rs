//! Limits on how wide a strip may be: at the yard, at the saw, in the car.

use super::{Change, change, least, sides};
use crate::data::{Job, RipWidths};
use crate::length::Length;
use crate::model::sizes;

/// Strip widths that the panel could be cut from, ascending.
pub(super) fn widths(job: &Job) -> Vec<Length> {
    let sides = sides(job);
    let mut widths: Vec<Length> = [sides.width.asked, sides.height.asked].into_iter().flatten().collect();
    if job.saw.trims {
        let wide =
            least(job).map(|side| sizes::permitted(&job.yard.rip_widths, side + job.yard.tolerance, Length::MAX));
        widths.extend(wide.into_iter().flatten());
    }
    widths.sort_unstable();
    widths
}

/// A yard asked for more than a panel's smallest width gives it a larger one.
pub(in crate::model::faults) fn narrowest(job: &Job, lifted: &Job) -> Vec<Change> {
    let to = |width: Length| {
        let words = format!("a narrowest rip of {}", width.say(lifted.units));
        change("yard.narrowest", words, lifted, |job| job.yard.narrowest = width)
    };
    let sides = [job.panels[0].width, job.panels[0].height];
    let largest = sides.map(|side| next_narrower(&job.yard.rip_widths, side + job.yard.tolerance));
    let mut all: Vec<Length> = widths(lifted).into_iter().chain(largest.into_iter().flatten()).collect();
    all.sort_unstable();
    all.into_iter().rev().map(to).collect()
}

pub(in crate::model::faults) fn widest(_: &Job, lifted: &Job) -> Vec<Change> {
    let to = |width: Length| {
        let words = format!("a widest rip of {}", width.say(lifted.units));
        change("yard.widest", words, lifted, |job| job.yard.widest = Some(width))
    };
    widths(lifted).into_iter().map(to).collect()
}

/// For strips on hand too, whose widths are what they are.
pub(in crate::model::faults) fn crosses(_: &Job, lifted: &Job) -> Vec<Change> {
    let to = |width: Length| {
        let words = format!("a saw that crosses {}", width.say(lifted.units));
        change("saw.crosses", words, lifted, |job| job.saw.crosses = Some(width))
    };
    let mut widths: Vec<Length> = widths(lifted);
    widths.extend(lifted.strips.iter().map(|strip| strip.width));
    widths.sort_unstable();
    widths.into_iter().map(to).collect()
}

pub(in crate::model::faults) fn room_across(_: &Job, lifted: &Job) -> Vec<Change> {
    let to = |width: Length| {
        let words = format!("room for strips {} wide", width.say(lifted.units));
        change("car.widest", words, lifted, |job| job.car.widest = Some(width))
    };
    widths(lifted).into_iter().map(to).collect()
}

/// As much scant as a frame forgives, where one of the yard's widths then fits; else one more width, whichever side it
/// is for.
pub(in crate::model::faults) fn rip_widths(job: &Job, lifted: &Job) -> Vec<Change> {
    let mut changes = scant_for_a_width(job, lifted);
    changes.extend(one_more_width(job, lifted));
    changes
}

/// Frames leave about 1/8 in. of play (common practice, no source).
const FORGIVEN: Length = Length::sixty_fourths(8);

/// What each side lacks to the next narrower width that the yard cuts.
fn scant_for_a_width(job: &Job, lifted: &Job) -> Vec<Change> {
    let panel = &job.panels[0];
    let lacks = |side: Length| {
        let most = side + job.yard.tolerance;
        let width =
            if job.yard.rip_widths == RipWidths::Any { None } else { next_narrower(&job.yard.rip_widths, most) };
        width.map(|width| most - width)
    };
    let mut scants: Vec<Length> = [panel.width, panel.height].into_iter().filter_map(lacks).collect();
    scants.retain(|scant| (panel.scant..=FORGIVEN).contains(scant));
    scants.sort_unstable();
    let to = |scant: Length| {
        change("panel.scant", format!("a scant of {}", scant.say(lifted.units)), lifted, |changed| {
            changed.panels[0].scant = scant;
            changed.yard.rip_widths = job.yard.rip_widths.clone();
        })
    };
    scants.into_iter().map(to).collect()
}

/// The widest strip up to `most` that the yard is willing to cut.
fn next_narrower(widths: &RipWidths, most: Length) -> Option<Length> {
    match widths {
        RipWidths::Any => Some(most),
        RipWidths::Step(step) => Some(most.round_down(*step)),
        RipWidths::Only(list) => list.iter().copied().filter(|width| *width <= most).max(),
    }
}

fn one_more_width(job: &Job, lifted: &Job) -> Vec<Change> {
    let to = |width: Length| {
        let said = width.say(lifted.units);
        let (words, list) = match &job.yard.rip_widths {
            RipWidths::Only(list) => (format!("a rip of {said} too"), [list.as_slice(), &[width]].concat()),
            _ => (format!("a rip of {said}, listed in place of the step,"), vec![width]),
        };
        change("yard.rip_widths", words, lifted, |job| job.yard.rip_widths = RipWidths::Only(list))
    };
    let mut asked = widths(lifted);
    asked.dedup();
    asked.into_iter().map(to).collect()
}

pub(in crate::model::faults) fn scant(job: &Job, lifted: &Job) -> Vec<Change> {
    let more = job.panels[0].scant + job.yard.tolerance;
    let words = format!("a scant of {}", more.say(lifted.units));
    vec![change("panel.scant", words, lifted, |changed| {
        changed.panels[0].scant = more;
        changed.yard.tolerance = job.yard.tolerance;
    })]
}
