//! The finishing week, checked as the sheets are: canvas, press, packing, labels, shopping list and calendar are held
//! against the job and against the panels that the cuts give. Nothing is shared with what planned them but their types.

mod batches;
mod calendar;
mod floor;
mod hours;
mod labels;
mod made;
mod needs;
mod packing;
mod parcel;
mod plane;
mod press;
mod reach;
mod roll;
mod shopping;
mod sold;

use super::Rule;
use super::findings::Findings;
use crate::data::Job;
use crate::plan::Plan;
use made::{Made, made};

/// Checks every part of the week that stands in the plan, and that it is there only where the job asks for it.
pub(super) fn check(job: &Job, plan: &Plan, found: &mut Findings) {
    let made = made(job, plan);
    parts(job, plan, &made, found);
    reach::check(plan, found);
    if !found.is_empty() {
        return;
    }
    roll::check(job, plan, &made, found);
    press::check(job, plan, &made, found);
    packing::check(job, plan, &made, found);
    labels::check(job, plan, &made, found);
    shopping::check(job, plan, &made, found);
    calendar::check(job, plan, &made, found);
}

/// Every part that the job asks for is there, and no other.
fn parts(job: &Job, plan: &Plan, made: &[Made], found: &mut Findings) {
    let (asked, there) = (&job.week, &plan.week);
    let canvas = made.iter().any(|line| line.canvas.is_some() && line.count > 0);
    let press = asked.press.is_some() && canvas;
    let glued = canvas && there.press.as_ref().is_none_or(|press| !press.loads.is_empty());
    let steps = asked.finish.is_some() || glued || asked.labels.is_some() || asked.pack.is_some();
    let mut part = |name: &str, asked: bool, there: bool| {
        let what = || if asked { "it is missing".to_string() } else { "nobody asked for it".into() };
        found.hold(Rule::WeekPart, asked == there, name, what);
    };
    part("canvas", canvas, there.canvas.is_some());
    part("press", press, there.press.is_some());
    part("labels", asked.labels.is_some(), there.labels.is_some());
    part("packing", asked.pack.is_some(), there.packing.is_some());
    let buys = asked.finish.is_some() || asked.glue.is_some() || canvas;
    part("shopping list", buys, there.shopping.is_some());
    part("calendar", asked.calendar.is_some() && steps, there.calendar.is_some());
}
