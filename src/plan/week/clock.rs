//! Working hours as minutes counted from the midnight before a base day, so that a calendar is plain arithmetic.
//! No clock is read: the base day comes from the job.

use crate::data::week::{Calendar, Shift};
use jiff::Span;
use jiff::civil::{Date, DateTime, Time};

/// Minutes since midnight of the base day; may be negative.
pub type Minute = i64;

const DAY: Minute = 24 * 60;
/// How far ahead a free shift is looked for, in days; a job file has at least one working day a week.
const HORIZON: i64 = 3660;

/// The working hours of a calendar.
#[derive(Clone, Debug, PartialEq)]
pub struct Clock {
    base: Date,
    /// For each day of the week, Monday first, whether it is worked.
    days: [bool; 7],
    /// Shifts of a working day as minutes of the day.
    shifts: Vec<(Minute, Minute)>,
}

impl Clock {
    /// Takes the working hours of a job, counted from `base`.
    pub fn new(calendar: &Calendar, base: Date) -> Self {
        let mut days = [false; 7];
        for day in &calendar.days {
            if let Some(worked) = usize::try_from(day - 1).ok().and_then(|index| days.get_mut(index)) {
                *worked = true;
            }
        }
        let minutes = |shift: &Shift| (of_day(shift.from), of_day(shift.to));
        Clock { base, days, shifts: calendar.hours.iter().map(minutes).collect() }
    }

    /// The same hours with each day's last shift ending `minutes` later, at midnight at the latest.
    #[must_use]
    pub fn longer(mut self, minutes: Minute) -> Self {
        if let Some(last) = self.shifts.last_mut() {
            last.1 = (last.1 + minutes).min(DAY);
        }
        self
    }

    /// The same hours on all seven days.
    #[must_use]
    pub fn every_day(mut self) -> Self {
        self.days = [true; 7];
        self
    }

    /// The minute of a date and time.
    pub fn minute(&self, at: DateTime) -> Minute {
        let days = at.date().since(self.base).map_or(0, |span| i64::from(span.get_days()));
        days * DAY + of_day(at.time())
    }

    /// The date and time of a minute.
    pub fn at(&self, minute: Minute) -> DateTime {
        // A span has one sign for all its units, so the day and the minutes of it are added one after the other.
        let day = self.base.at(0, 0, 0, 0).checked_add(Span::new().days(minute.div_euclid(DAY)));
        let at = day.and_then(|day| day.checked_add(Span::new().minutes(minute.rem_euclid(DAY))));
        at.unwrap_or(DateTime::MAX)
    }

    /// Whether hands work at this minute.
    pub fn works_at(&self, minute: Minute) -> bool {
        let of_day = minute.rem_euclid(DAY);
        self.worked(minute.div_euclid(DAY)) && self.shifts.iter().any(|(from, to)| (*from..*to).contains(&of_day))
    }

    /// When hands-on work of so many minutes begins and ends, not before `after`: in one shift if any shift is long
    /// enough, else spread over shifts.
    pub fn hands_on(&self, after: Minute, minutes: Minute) -> (Minute, Minute) {
        let longest = self.shifts.iter().map(|(from, to)| to - from).max().unwrap_or(0);
        let mut begin = None;
        let mut left = minutes;
        for (from, to) in self.shifts_from(after) {
            let from = from.max(after);
            if minutes <= longest && to - from < minutes {
                continue;
            }
            let begun = *begin.get_or_insert(from);
            if to - from >= left {
                return (begun, from + left);
            }
            left -= to - from;
        }
        (after, after + minutes) // only where no day is worked at all, which no job file asks for
    }

    /// Working minutes between two moments.
    pub fn worked_between(&self, from: Minute, to: Minute) -> Minute {
        let shifts = self.shifts_from(from).take_while(|shift| shift.0 < to);
        shifts.map(|shift| shift.1.min(to) - shift.0.max(from)).sum()
    }

    /// Shifts that end after a minute, in order.
    fn shifts_from(&self, after: Minute) -> impl Iterator<Item = (Minute, Minute)> + '_ {
        let first = after.div_euclid(DAY);
        let days = (first..first + HORIZON).filter(|day| self.worked(*day));
        let shifts = days.flat_map(|day| self.shifts.iter().map(move |(from, to)| (day * DAY + from, day * DAY + to)));
        shifts.filter(move |(_, to)| *to > after)
    }

    fn worked(&self, day: i64) -> bool {
        let monday = i64::from(self.base.weekday().to_monday_zero_offset());
        self.days[usize::try_from((monday + day).rem_euclid(7)).unwrap_or(0)]
    }
}

fn of_day(time: Time) -> Minute {
    i64::from(time.hour()) * 60 + i64::from(time.minute())
}
