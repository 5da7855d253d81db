//! The press: stacks of one size in pairs, no higher than it takes, on its board with room between them; every panel
//! that gets canvas under it once, or said not to fit where it does not.

use super::super::Rule;
use super::super::findings::Findings;
use super::made::Made;
use super::{floor, plane};
use crate::data::Job;
use crate::data::week::Press;
use crate::length::Length;
use crate::plan::Plan;
use crate::plan::week::{PressLoad, PressMisfit, PressPlan, PressStack};

/// Checks the press plan, if there is one.
pub(super) fn check(job: &Job, plan: &Plan, made: &[Made], found: &mut Findings) {
    let Some((press, pressed)) = job.week.press.as_ref().zip(plan.week.press.as_ref()) else { return };
    for (at, load) in pressed.loads.iter().enumerate() {
        let place = format!("press, load {}", at + 1);
        on_the_board(press, load, &place, found);
        for stack in &load.stacks {
            let line = &made[stack.panel];
            height(press, line, stack, &place, found);
            let (long, short) = footprint(line);
            let sides = (stack.spot.length.max(stack.spot.width), stack.spot.length.min(stack.spot.width));
            found.hold(Rule::Press, sides == (long, short), &place, || {
                format!("a stack of {} is not as large as its canvas", line.name)
            });
        }
    }
    floor::press(press, pressed, made, found);
    for (at, line) in made.iter().enumerate() {
        counts(press, pressed, line, at, found);
    }
}

pub(super) fn footprint(line: &Made) -> (Length, Length) {
    let (width, height) = line.canvas.unwrap_or((line.width, line.height));
    (width.max(height), width.min(height))
}

/// What a panel adds to its stack.
pub(super) fn rise(press: &Press, line: &Made) -> Length {
    line.thickness.unwrap_or_default() + press.padding
}

fn on_the_board(press: &Press, load: &PressLoad, place: &str, found: &mut Findings) {
    let inside = load.stacks.iter().all(|stack| plane::inside(&stack.spot, press.length, press.width));
    found.hold(Rule::Edge, inside, place, || "a stack reaches beyond the board".into());
    let apart = plane::all_clear(load.stacks.iter().map(|stack| &stack.spot), press.gap);
    found.hold(Rule::Overlap, apart, place, || "two stacks lie too close to each other".into());
    let panels: u64 = load.stacks.iter().map(|stack| u64::from(stack.count)).sum();
    found.equal(Rule::Count, place, "panels in all", u64::from(load.panels), panels);
    let most = press.most.map_or(u64::MAX, u64::from);
    found.hold(Rule::Press, panels <= most, place, || format!("{panels} panels where the press takes {most}"));
    found.hold(Rule::Press, panels > 0, place, || "nothing lies in it".into());
}

fn height(press: &Press, line: &Made, stack: &PressStack, place: &str, found: &mut Findings) {
    let rise = rise(press, line) * i64::from(stack.count);
    found.same(Rule::Press, place, &format!("the height of a stack of {}", line.name), stack.height, rise);
    let said = found.say(rise);
    found.hold(Rule::Press, rise <= press.height, place, || {
        format!("a stack is {said} high, more than the press takes")
    });
}

/// All of a line once, in pairs but for the last one; or none, where it is said not to fit and does not.
fn counts(press: &Press, pressed: &PressPlan, line: &Made, at: usize, found: &mut Findings) {
    let place = format!("press, {}", line.name);
    let counts: Vec<u32> = pressed
        .loads
        .iter()
        .flat_map(|load| &load.stacks)
        .filter(|stack| stack.panel == at)
        .map(|stack| stack.count)
        .collect();
    let refused = refused(press, line, at);
    let wanted = if line.canvas.is_none() || refused.is_some() { 0 } else { u64::from(line.count) };
    let under: u64 = counts.iter().map(|count| u64::from(*count)).sum();
    found.equal(Rule::Count, &place, "panels under the press", under, wanted);
    let odd = counts.iter().filter(|count| *count % 2 == 1);
    let paired = odd.count() <= 1 || counts.iter().all(|count| *count == 1);
    found.hold(Rule::Press, paired, &place, || "more than one stack is not in pairs".into());
    let told: Vec<&PressMisfit> = pressed.misfits.iter().filter(|misfit| misfit.panel == at).collect();
    let refused: Vec<&PressMisfit> = refused.iter().collect();
    found.hold(Rule::Misfit, told == refused, &place, || format!("said of it: {told:?}; it should be {refused:?}"));
}

/// Why a line that gets canvas cannot be pressed.
pub(super) fn refused(press: &Press, line: &Made, panel: usize) -> Option<PressMisfit> {
    line.canvas.filter(|_| line.count > 0)?;
    let (long, short) = footprint(line);
    let (length, width) = (press.length.max(press.width), press.length.min(press.width));
    let too_large = long > length || short > width;
    (too_large || rise(press, line) > press.height).then_some(PressMisfit { panel, too_large })
}
