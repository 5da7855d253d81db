//! Dates, working hours and durations as people write them. No clock is asked: a weekday alone needs a start.

use super::{Shift, Timing};
use crate::data::reading::Wrong;
use jiff::Span;
use jiff::civil::{Date, DateTime, Time};

const DAYS: [&str; 7] = ["monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday"];

/// `2026-05-08 18:00`, or `Friday 18:00` for the first Friday at that hour after a start.
pub(super) fn moment(text: &str, start: Option<DateTime>) -> Result<DateTime, Wrong> {
    let wrong = || Wrong::new(format!("`{text}` is not a date and time"), "write it as `2026-05-08 18:00`");
    let (day, time) = text.trim().rsplit_once([' ', 'T']).ok_or_else(wrong)?;
    let time = time_of_day(time).ok_or_else(wrong)?;
    if let Ok(date) = day.trim().parse::<Date>() {
        let usual = (1900..=2200).contains(&date.year());
        return if usual { Ok(date.to_datetime(time)) } else { Err(wrong()) };
    }
    if day.split('-').count() == 3 && day.bytes().all(|byte| byte.is_ascii_digit() || byte == b'-') {
        return Err(Wrong::new(format!("there is no day `{day}`"), "write it as `2026-05-08`: year, month, day"));
    }
    let day = weekday(day).map_err(|_| wrong())?;
    let start = start.ok_or_else(|| {
        Wrong::new(
            format!("`{text}` names a day of the week, but there is no start"),
            "write the date: `2026-05-08 18:00`",
        )
    })?;
    let ahead = (day - start.date().weekday().to_monday_one_offset()).rem_euclid(7);
    let first = start.date().checked_add(Span::new().days(ahead)).map_err(|_| wrong())?.to_datetime(time);
    if first > start { Ok(first) } else { first.checked_add(Span::new().days(7)).map_err(|_| wrong()) }
}

/// A day of the week by its name or the first three letters of it; Monday is 1.
pub(super) fn weekday(text: &str) -> Result<i8, Wrong> {
    let plain = text.trim().to_lowercase();
    let named = |day: &str| day == plain || (plain.len() == 3 && day.starts_with(&plain));
    let found = DAYS.iter().position(|day| named(day)).and_then(|index| i8::try_from(index + 1).ok());
    found.ok_or_else(|| {
        Wrong::new(format!("`{text}` is not a day of the week"), "write days such as `[\"Mon\", \"Tue\"]`")
    })
}

/// Working hours such as `9:00-12:30`.
pub(super) fn shift(text: &str) -> Result<Shift, Wrong> {
    let wrong = || Wrong::new(format!("`{text}` is not a working time"), "write it as `9:00-12:30`");
    let (from, to) = text.split_once(['-', '\u{2013}']).ok_or_else(wrong)?;
    let shift = Shift { from: time_of_day(from).ok_or_else(wrong)?, to: time_of_day(to).ok_or_else(wrong)? };
    if shift.from < shift.to { Ok(shift) } else { Err(wrong()) }
}

fn time_of_day(text: &str) -> Option<Time> {
    let (hour, minute) = text.trim().split_once(':').unwrap_or((text.trim(), "0"));
    Time::new(hour.parse().ok()?, minute.parse().ok()?, 0, 0).ok()
}

/// `2 min`, `90 s`, or `2 min, then 2 h`: hands-on time a panel, then waiting.
pub(super) fn timing(text: &str) -> Result<Timing, Wrong> {
    let wrong =
        || Wrong::new(format!("`{text}` is not a time a panel"), "write `2 min`, or `2 min, then 2 h` with the wait");
    let (hands, wait) = text.split_once("then").unwrap_or((text, "0 min"));
    let seconds = seconds(hands.trim().trim_end_matches(',')).filter(|seconds| *seconds <= 86_400).ok_or_else(wrong)?;
    let wait = self::seconds(wait).map(|seconds| seconds.div_ceil(60)).ok_or_else(wrong)?;
    Ok(Timing { seconds, wait })
}

/// So many seconds, minutes, hours or days, up to 60 days.
fn seconds(text: &str) -> Option<u32> {
    let text = text.trim().to_lowercase();
    let split = text.find(char::is_alphabetic)?;
    let unit = match text[split..].trim() {
        "s" | "sec" => 1.0,
        "min" => 60.0,
        "h" | "hour" | "hours" => 3600.0,
        "d" | "day" | "days" => 86_400.0,
        _ => return None,
    };
    let count: f64 = text[..split].trim().parse().ok()?;
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)] // checked to lie in range
    (0.0..=5_184_000.0).contains(&(count * unit)).then(|| (count * unit).round() as u32)
}
