//! The calendar: hands work in working hours and in one place at a time, as long as the job says; nothing is taken up
//! before it is dry or pressed; bench and press hold one batch at a time; start, finish and deadline are what they are.

use super::super::Rule;
use super::super::findings::Findings;
use super::made::Made;
use super::{batches, hours};
use crate::data::Job;
use crate::data::week::{Calendar, Step};
use crate::plan::Plan;
use crate::plan::week::{Row, WeekPlan};

const PLACE: &str = "calendar";

/// Checks the calendar, if there is one.
pub(super) fn check(job: &Job, plan: &Plan, made: &[Made], found: &mut Findings) {
    let Some((calendar, week)) = job.week.calendar.as_ref().zip(plan.week.calendar.as_ref()) else { return };
    let steps = batches::steps(job, plan, made);
    found.hold(Rule::Calendar, week.steps == steps, PLACE, || {
        format!("steps should be {steps:?}, not {:?}", week.steps)
    });
    batches::check(plan, calendar, week, made, found);
    let mut hands = 0;
    for row in &week.rows {
        hands += timing(calendar, week, row, found);
    }
    found.equal(Rule::Calendar, PLACE, "hands-on minutes in all", week.hands_on, hands);
    one_at_a_time(week, plan.week.press.is_some(), found);
    dry_first(week, found);
    ends(calendar, week, found);
}

/// The batch takes the hands as long as the job says, in working hours, and then its wait; the minutes of the hands.
fn timing(calendar: &Calendar, week: &WeekPlan, row: &Row, found: &mut Findings) -> i64 {
    let step = week.steps[row.step];
    let place = format!("{PLACE}, {step:?} {}", row.batch);
    let (seconds, wait) = calendar.times.get(&step).map_or((0, 0), |timing| (timing.seconds, timing.wait));
    let minutes = (i64::from(row.panels) * i64::from(seconds) + 59) / 60;
    let worked = hours::worked(calendar, row.begin, row.free);
    found.equal(Rule::Calendar, &place, "working minutes from begin to end", worked, minutes);
    let longest = calendar.hours.iter().map(|shift| shift.to.duration_since(shift.from).as_mins()).max().unwrap_or(0);
    let whole = minutes > longest || hours::minutes(row.begin, row.free) == minutes;
    found.hold(Rule::Calendar, whole, &place, || "it is torn apart though it fits between two breaks".into());
    let in_hours =
        minutes == 0 || hours::worked(calendar, row.begin, row.begin.saturating_add(jiff::Span::new().minutes(1))) == 1;
    found.hold(Rule::Calendar, in_hours, &place, || "it begins out of working hours".into());
    found.equal(Rule::Calendar, &place, "minutes of waiting", hours::minutes(row.free, row.ready), i64::from(wait));
    minutes
}

/// Neither the hands nor the bench nor the press have two batches at once.
fn one_at_a_time(week: &WeekPlan, press: bool, found: &mut Findings) {
    let apart = |mut spans: Vec<(jiff::civil::DateTime, jiff::civil::DateTime)>| {
        spans.sort_unstable();
        spans.windows(2).all(|pair| pair[0].1 <= pair[1].0)
    };
    let hands = week.rows.iter().map(|row| (row.begin, row.free)).collect();
    found.hold(Rule::Calendar, apart(hands), PLACE, || "the hands are in two places at once".into());
    let on = |bench: bool| {
        let there = |row: &&Row| match week.steps[row.step] {
            Step::Fill | Step::Seal | Step::Coat => bench,
            Step::Glue => bench != press,
            _ => false,
        };
        week.rows.iter().filter(there).map(|row| (row.begin, row.ready)).collect()
    };
    found.hold(Rule::Calendar, apart(on(true)), PLACE, || "two batches lie on the bench at once".into());
    found.hold(Rule::Calendar, apart(on(false)), PLACE, || "two batches lie under the press at once".into());
}

/// Panels are numbered through, those with canvas first: none is taken up before it is ready from the steps before.
fn dry_first(week: &WeekPlan, found: &mut Findings) {
    let mut done = vec![0_u64; week.steps.len()];
    let spans: Vec<(u64, u64)> = week
        .rows
        .iter()
        .map(|row| {
            let from = done[row.step];
            done[row.step] += u64::from(row.panels);
            (from, done[row.step])
        })
        .collect();
    for (at, row) in week.rows.iter().enumerate() {
        let before = |other: usize| {
            week.rows[other].step < row.step && spans[other].0 < spans[at].1 && spans[at].0 < spans[other].1
        };
        let dry = (0..week.rows.len()).filter(|other| before(*other)).all(|other| week.rows[other].ready <= row.begin);
        found.hold(Rule::Calendar, dry, PLACE, || format!("{:?} {} begins too early", week.steps[row.step], row.batch));
    }
}

fn ends(calendar: &Calendar, week: &WeekPlan, found: &mut Findings) {
    let first = week.rows.iter().map(|row| row.begin).min();
    let last = week.rows.iter().map(|row| row.ready).max();
    let right = first == Some(week.start) && last == Some(week.finish);
    found.hold(Rule::Calendar, right, PLACE, || format!("it begins {first:?} and ends {last:?}"));
    let early = calendar.start.is_some_and(|start| week.start < start);
    found.hold(Rule::Calendar, !early, PLACE, || "it begins before the job's start".into());
    let same = week.deadline == calendar.deadline && week.backwards == calendar.start.is_none();
    found.hold(Rule::Calendar, same, PLACE, || "its deadline is not that of the job".into());
    let late = week.deadline.map_or(0, |deadline| hours::minutes(deadline, week.finish));
    found.equal(Rule::Calendar, PLACE, "minutes after the deadline", week.late, late);
    let meets = |at| week.deadline.is_none_or(|deadline| at <= deadline);
    let honest = week.helps.iter().all(|help| help.meets == meets(help.finish));
    found.hold(Rule::Calendar, honest, PLACE, || "a change is said to meet the deadline and does not".into());
    let asked = week.helps.is_empty() || late > 0;
    found.hold(Rule::Calendar, asked, PLACE, || "changes are proposed though the deadline is met".into());
}
