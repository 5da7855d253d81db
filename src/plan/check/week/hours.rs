//! Working hours of a job, read a second time: how many minutes are worked between two moments.

use crate::data::week::Calendar;
use jiff::civil::DateTime;

/// Minutes from one moment to another; below zero where it is earlier.
pub(super) fn minutes(from: DateTime, to: DateTime) -> i64 {
    to.duration_since(from).as_mins()
}

/// Working minutes between two moments; nothing where they lie more than ten years apart.
pub(super) fn worked(calendar: &Calendar, from: DateTime, to: DateTime) -> i64 {
    let mut worked = 0;
    let mut date = from.date();
    for _ in 0..3700 {
        if date > to.date() {
            return worked;
        }
        if calendar.days.contains(&date.weekday().to_monday_one_offset()) {
            for shift in &calendar.hours {
                let (begin, end) = (date.to_datetime(shift.from).max(from), date.to_datetime(shift.to).min(to));
                worked += minutes(begin, end).max(0);
            }
        }
        let Ok(next) = date.tomorrow() else { return worked };
        date = next;
    }
    0
}
