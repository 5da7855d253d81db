//! `[calendar]`: working hours, the bench, how long each step takes, and the start or the deadline.

use super::moments::{moment, shift, timing, weekday};
use super::read::within;
use crate::data::reading::{Fields, Section};
use jiff::civil::{DateTime, Time};
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// When the hands are free, and by when all must be packed.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Calendar {
    /// Nothing is done before this.
    pub start: Option<DateTime>,
    /// All is packed by this.
    pub deadline: Option<DateTime>,
    /// Days of the week that are worked, as numbers from Monday = 1.
    pub days: Vec<i8>,
    /// Working hours of such a day, in order and apart.
    pub hours: Vec<Shift>,
    /// Panels that can lie on the bench side by side.
    pub bench: u32,
    /// How long each step takes.
    pub times: BTreeMap<Step, Timing>,
}

/// Working hours without a break.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Shift {
    /// Work begins.
    pub from: Time,
    /// Work ends.
    pub to: Time,
}

/// A step of the week, in the order of the work.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Step {
    /// Flaws are filled; the filler dries.
    Fill,
    /// Faces are sanded, edges eased.
    Sand,
    /// The first coat of sealer; it dries.
    Seal,
    /// Each further coat; it dries.
    Coat,
    /// Canvas is glued on, and the panels go under weight.
    Glue,
    /// Canvas is trimmed flush.
    Trim,
    /// Backs are labelled.
    Label,
    /// Panels are packed.
    Pack,
}

/// Hands-on time and the wait after it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Timing {
    /// Hands-on seconds a panel.
    pub seconds: u32,
    /// Minutes of waiting once the last panel of a batch is done.
    pub wait: u32,
}

/// Steps with their keys and usual times: hands-on seconds a panel, then minutes of waiting.
const TIMES: [(&str, Step, u32, u32, &str); 8] = [
    ("fill", Step::Fill, 90, 120, "thin fills dry in about 1 to 2 h (common practice); time your own hands"),
    ("sand", Step::Sand, 240, 0, "a guess to start from; time your own hands"),
    ("seal", Step::Seal, 120, 120, "waterborne coats: about 2 h to recoat (makers' sheets); time your own hands"),
    ("coat", Step::Coat, 150, 720, "light sanding and a coat, dry overnight before gluing; time your own hands"),
    ("glue", Step::Glue, 240, 720, "common practice: under weight overnight; time your own hands"),
    ("trim", Step::Trim, 120, 0, "a guess to start from; time your own hands"),
    ("label", Step::Label, 30, 0, "a guess to start from; time your own hands"),
    ("pack", Step::Pack, 60, 0, "a guess to start from; time your own hands"),
];

const OWN_HOURS: &str = "a usual working day; write your own";

/// `[calendar]`, with the usual values where the job is silent; `asked` says which steps the job asks for, so that only
/// their times count as assumed.
pub(super) fn read(section: &mut Section, asked: impl Fn(Step) -> bool) -> Calendar {
    let start = section.read("start", |text| moment(text, None));
    let deadline = section.read("deadline", |text| moment(text, start));
    if !section.has("start") && !section.has("deadline") {
        section.fault("", "the calendar has neither a start nor a deadline", "write `start = \"2026-05-04 09:00\"`");
    }
    let days = section.read_some("days", weekday);
    let days = section.or("days", days, vec![1, 2, 3, 4, 5], "Monday to Friday", OWN_HOURS);
    let hours = section.read_each("hours", shift);
    let hours = section.or("hours", hours, usual_hours(), "9:00-12:00, 13:00-18:00", OWN_HOURS);
    let bench = section.some("bench").filter(|bench| within(section, "bench", *bench, 1, 100_000));
    let bench = section.or("bench", bench, 12, "12 panels", "a guess to start from: what lies flat to dry at one time");
    let times = TIMES.iter().map(|(key, step, seconds, wait, origin)| {
        let read = section.read(key, timing);
        let usual = Timing { seconds: *seconds, wait: *wait };
        let time = if asked(*step) { section.or(key, read, usual, usual.say(), origin) } else { read.unwrap_or(usual) };
        (*step, time)
    });
    let times = times.collect();
    section.end();
    check(section, &hours, start, deadline);
    Calendar { start, deadline, days, hours, bench, times }
}

fn usual_hours() -> Vec<Shift> {
    let hour = |hour: i8| Time::constant(hour, 0, 0, 0);
    vec![Shift { from: hour(9), to: hour(12) }, Shift { from: hour(13), to: hour(18) }]
}

fn check(section: &Section, hours: &[Shift], start: Option<DateTime>, deadline: Option<DateTime>) {
    if hours.is_empty() || hours.windows(2).any(|pair| pair[0].to > pair[1].from) {
        section.fault("hours", "working hours are not in order and apart", "write `[\"9:00-12:00\", \"13:00-18:00\"]`");
    }
    if start.zip(deadline).is_some_and(|(start, deadline)| deadline <= start) {
        section.fault(
            "deadline",
            "the deadline is not after the start",
            "write a later `deadline` or an earlier `start`",
        );
    }
}

impl Timing {
    /// In the words of the papers: `2 min a panel, then 2 h`.
    pub fn say(self) -> String {
        let hands = if self.seconds.is_multiple_of(60) { self.seconds / 60 } else { 0 };
        let hands = if hands > 0 { format!("{hands} min") } else { format!("{} s", self.seconds) };
        let wait =
            if self.wait.is_multiple_of(60) { format!("{} h", self.wait / 60) } else { format!("{} min", self.wait) };
        if self.wait == 0 { format!("{hands} a panel") } else { format!("{hands} a panel, then {wait}") }
    }
}
