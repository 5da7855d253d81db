//! A small chart of the week: a row for each step, black bars for hands at work, hatched ones for waiting.

use super::calendar::named;
use super::moments::day;
use crate::documents::count;
use crate::documents::font::Weight;
use crate::documents::frame::{Field, Frame, Pen, Spot};
use crate::plan::week::WeekPlan;
use jiff::civil::{Date, DateTime};

const NAMES: f64 = 32.0;
const WIDE: f64 = 150.0;
const HEAD: f64 = 7.0;
const ROW: f64 = 7.0;
/// Narrowest day that its name still fits into.
const NAMED: f64 = 20.0;

/// The chart.
pub(super) fn chart(week: &WeekPlan) -> Frame {
    let scale = Scale::of(week);
    let mut frame = Frame::new(NAMES + WIDE + 1.0, HEAD + count(week.steps.len()) * ROW + 1.0);
    days(&mut frame, &scale);
    for (at, step) in week.steps.iter().enumerate() {
        let y = HEAD + count(at) * ROW;
        frame.write(Spot::new(0.0, y + 4.8), named(*step), 3.2, Weight::Regular);
        frame.line(Pen::Thin, Spot::new(0.0, y), Spot::new(NAMES + WIDE, y));
    }
    for row in &week.rows {
        let y = HEAD + count(row.step) * ROW + 1.4;
        let (begin, free, ready) = (scale.x(row.begin), scale.x(row.free), scale.x(row.ready));
        if ready > free {
            let wait = Field::new(free, y, ready - free, ROW - 2.8);
            frame.hatch(wait, 1.2);
            frame.outline(Pen::Thin, wait);
        }
        frame.blacken(Field::new(begin, y, (free - begin).max(0.4), ROW - 2.8));
    }
    frame.outline(Pen::Thick, Field::new(NAMES, HEAD, WIDE, count(week.steps.len()) * ROW));
    frame
}

/// Midnights as lines, days by name where there is room.
fn days(frame: &mut Frame, scale: &Scale) {
    let bottom = frame.height - 1.0;
    let every = (NAMED / scale.day).ceil().max(1.0);
    let mut date = scale.first;
    let mut number = 0.0;
    while number < scale.days {
        let x = NAMES + number * scale.day;
        frame.line(Pen::Thin, Spot::new(x, HEAD - 2.0), Spot::new(x, bottom));
        if number % every == 0.0 {
            frame.write(Spot::new(x + 0.8, HEAD - 2.0), day(date), 3.0, Weight::Regular);
        }
        number += 1.0;
        let Ok(next) = date.tomorrow() else { return };
        date = next;
    }
}

/// From moments to places.
struct Scale {
    first: Date,
    days: f64,
    day: f64,
}

impl Scale {
    fn of(week: &WeekPlan) -> Scale {
        let first = week.start.date();
        let days = days_between(first, week.finish) + if minutes(week.finish) > 0.0 { 1.0 } else { 0.0 };
        Scale { first, days: days.max(1.0), day: WIDE / days.max(1.0) }
    }

    fn x(&self, at: DateTime) -> f64 {
        NAMES + (days_between(self.first, at) + minutes(at) / 1440.0) * self.day
    }
}

fn days_between(first: Date, at: DateTime) -> f64 {
    at.date().since(first).map_or(0.0, |span| f64::from(span.get_days()))
}

fn minutes(at: DateTime) -> f64 {
    f64::from(at.hour()) * 60.0 + f64::from(at.minute())
}
