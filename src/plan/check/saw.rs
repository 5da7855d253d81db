//! The saw order at home, replayed on the real strips: each is squared, then cut at each setting as it comes, and what
//! stands after the blade is measured and compared. The hand must always hold something long enough.

use super::Rule;
use super::findings::Findings;
use super::strips::{ends, place};
use crate::data::Job;
use crate::length::Length;
use crate::plan::{Plan, StopCut, StopSetting, Strip};
use std::collections::BTreeSet;

/// A letter's strips between two cuts.
struct Standing {
    left: Length,
    squared: bool,
    cut: usize,
}

/// Replays all stop settings in order.
pub(super) fn check(job: &Job, plan: &Plan, found: &mut Findings) {
    let whole = |strip: &Strip| Standing { left: strip.length, squared: false, cut: 0 };
    let mut standing: Vec<Standing> = plan.strips.iter().map(whole).collect();
    let mut set = BTreeSet::new();
    for stop in &plan.stops {
        let name = format!("stop at {}", found.say(stop.setting));
        found.hold(Rule::SawOrder, set.insert(stop.setting), &name, || "the stop is set here twice".into());
        found.hold(Rule::SawOrder, !stop.cuts.is_empty(), &name, || "nothing is cut".into());
        for cut in &stop.cuts {
            let strip = &plan.strips[cut.strip];
            let place = format!("{name}, {}", place(strip));
            found.equal(Rule::SawOrder, &place, "strips", cut.strips, strip.count);
            square(job, strip, cut, &mut standing[cut.strip], &place, found);
            crosscut(job, strip, stop, cut, &mut standing[cut.strip], &place, found);
        }
    }
    for (strip, standing) in plan.strips.iter().zip(standing) {
        found.equal(Rule::SawOrder, &place(strip), "panels cut", standing.cut, strip.pieces.len());
    }
}

/// A strip is squared before its first panel, where anything has to come off.
fn square(job: &Job, strip: &Strip, cut: &StopCut, standing: &mut Standing, place: &str, found: &mut Findings) {
    let first = ends(job, strip).first;
    let due = first.is_positive() && !standing.squared;
    found.equal(Rule::Squaring, place, "squared first", cut.square_first, due);
    if due {
        standing.left -= first;
        standing.squared = true;
    }
}

/// The strip's next panels at this setting, one after the other.
fn crosscut(
    job: &Job,
    strip: &Strip,
    stop: &StopSetting,
    cut: &StopCut,
    standing: &mut Standing,
    place: &str,
    found: &mut Findings,
) {
    let short = stop.setting < job.saw.shortest;
    found.equal(Rule::Hand, place, "\"hold the long end\"", cut.hold_long_end, short);
    found.hold(Rule::SawOrder, !cut.pieces.is_empty(), place, || "nothing is cut".into());
    for panel in &cut.pieces {
        let next = strip.pieces.get(standing.cut);
        let expected = next.is_some_and(|piece| piece.panel == *panel && piece.length == stop.setting);
        found.hold(Rule::SawOrder, expected, place, || "this is not the strip's next panel".into());
        let fits = stop.setting <= standing.left;
        found.hold(Rule::Edge, fits, place, || "the strip is too short for this cut by now".into());
        standing.left = after(standing.left, stop.setting, job.saw.kerf);
        standing.cut += 1;
        let held = !short || standing.left >= job.saw.shortest;
        let words =
            format!("the hand would hold {}, and {} falls off", found.say(standing.left), found.say(stop.setting));
        found.hold(Rule::Hand, held, place, || words);
    }
    found.same(Rule::SawLeft, place, "what is left of the strip", cut.left, standing.left);
}

/// What stands after a cut: the blade takes its kerf, or what there is if that is less.
fn after(left: Length, setting: Length, kerf: Length) -> Length {
    (left - setting - kerf).max(Length::ZERO)
}
