//! Dates, durations, heights and weights in words: `Mon 4 May 09:00`, `2 h 30 min`, `5 3/8 in.`, `48.9 lb`.

use crate::data::KG_PER_POUND;
use crate::length::{Length, Unit};
use jiff::civil::{Date, DateTime, Weekday};

const MONTHS: [&str; 12] = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"];

/// A height of a stack, rounded up to 1/16 in. or 1 mm: nobody measures it closer.
pub(super) fn height(height: Length, units: Unit) -> String {
    let step = if units == Unit::In { Length::sixty_fourths(4) } else { Length::mm(1) };
    (-((-height).round_down(step))).say(units)
}

/// A weight, rounded up to the tenth, so that a limit is never kept by rounding.
pub(super) fn weight(kilograms: f64, units: Unit) -> String {
    let (figure, sign) = if units == Unit::In { (kilograms / KG_PER_POUND, "lb") } else { (kilograms, "kg") };
    format!("{:.1} {sign}", (figure * 10.0 - 1e-6).ceil() / 10.0)
}

/// `Mon 4 May`.
pub(super) fn day(date: Date) -> String {
    let month = MONTHS[usize::try_from(date.month() - 1).unwrap_or(0)];
    format!("{} {} {month}", weekday(date), date.day())
}

/// `09:00`.
pub(super) fn hour(at: DateTime) -> String {
    format!("{:02}:{:02}", at.hour(), at.minute())
}

/// `Mon 4 May 09:00`.
pub(super) fn moment(at: DateTime) -> String {
    format!("{} {}", day(at.date()), hour(at))
}

/// `45 min`, `2 h`, `2 h 30 min`, `3 days 4 h`.
pub(crate) fn duration(minutes: i64) -> String {
    let (days, hours, minutes) = (minutes / 1440, minutes / 60 % 24, minutes % 60);
    let part = |n: i64, unit: &str| (n > 0).then(|| format!("{n} {unit}"));
    let day = if days == 1 { "day" } else { "days" };
    let parts: Vec<String> = [part(days, day), part(hours, "h"), part(minutes, "min")].into_iter().flatten().collect();
    if parts.is_empty() { "0 min".into() } else { parts.join(" ") }
}

/// Working time, in which a day has no 24 hours: `45 min`, `34 h 50 min`.
pub(super) fn hours(minutes: i64) -> String {
    match (minutes / 60, minutes % 60) {
        (0, minutes) => format!("{minutes} min"),
        (hours, 0) => format!("{hours} h"),
        (hours, minutes) => format!("{hours} h {minutes} min"),
    }
}

fn weekday(date: Date) -> &'static str {
    match date.weekday() {
        Weekday::Monday => "Mon",
        Weekday::Tuesday => "Tue",
        Weekday::Wednesday => "Wed",
        Weekday::Thursday => "Thu",
        Weekday::Friday => "Fri",
        Weekday::Saturday => "Sat",
        Weekday::Sunday => "Sun",
    }
}
