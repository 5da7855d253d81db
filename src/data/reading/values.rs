//! Single values from their text: lengths, sizes, money, counts, weights, words. Each says what is wrong and what to
//! write.

use super::nearest;
use crate::data::Cents;
use crate::length::{Length, Unit};

/// The highest count, of panels, sheets, strips or cuts, that is read; sums of counts stay below it too.
pub(crate) const MOST: u32 = 1_000_000;

/// The highest amount of money that is read: a million.
pub(crate) const RICHEST: Cents = Cents(100_000_000);

/// Kilograms in a pound, exactly (NIST SP 811, appendix B).
pub(crate) const KG_PER_POUND: f64 = 0.453_592_37;

/// Square metres in a square foot, exactly: an inch is 25.4 mm.
pub(crate) const SQUARE_FOOT: f64 = 0.092_903_04;

/// Why a text is not the value asked for, and what to write instead.
#[derive(Debug, PartialEq, Eq)]
pub(crate) struct Wrong {
    pub(crate) cause: String,
    pub(crate) remedy: String,
}

impl Wrong {
    pub(crate) fn new(cause: impl Into<String>, remedy: impl Into<String>) -> Self {
        Wrong { cause: cause.into(), remedy: remedy.into() }
    }
}

/// A length of any sign.
fn any_length(text: &str, units: Unit) -> Result<Length, Wrong> {
    let example = if units == Unit::In { "`11 7/8`, `11.875` or `302 mm`" } else { "`302`, `30.2 cm` or `11 7/8 in`" };
    Length::parse(text, units)
        .map_err(|error| Wrong::new(error.to_string(), format!("write a length such as {example}")))
}

/// A length above zero.
pub(crate) fn length(text: &str, units: Unit) -> Result<Length, Wrong> {
    let length = allowance(text, units)?;
    if length.is_zero() {
        Err(Wrong::new(format!("`{}` is not above zero", text.trim()), "write a length above zero"))
    } else {
        Ok(length)
    }
}

/// A length that may be zero.
pub(crate) fn allowance(text: &str, units: Unit) -> Result<Length, Wrong> {
    let length = any_length(text, units)?;
    let below = length < Length::ZERO;
    if below {
        Err(Wrong::new(format!("`{}` is below zero", text.trim()), "write it without a minus sign"))
    } else {
        Ok(length)
    }
}

/// Width and height from `12 x 16` and its like, with the name that the size goes by.
pub(crate) fn size(text: &str, units: Unit) -> Result<(String, Length, Length), Wrong> {
    let plain = text.to_lowercase().replace(['\u{d7}', '*'], "x").replace("by", "x");
    let sides: Vec<&str> = plain.split('x').map(str::trim).collect();
    let [width, height] = sides[..] else {
        return Err(Wrong::new(
            format!("`{text}` is not a size"),
            "write width x height, such as `12 x 16` or `302 x 403 mm`",
        ));
    };
    let sign = height.trim_start_matches(|c: char| !c.is_alphabetic() && c != '"' && c != '\'');
    let bare = !width.is_empty() && width.chars().all(|c| !c.is_alphabetic() && c != '"' && c != '\'');
    let first = if bare && sign.chars().all(|c| c.is_alphabetic() || ".\"'".contains(c)) {
        length(&format!("{width} {sign}"), units)
    } else {
        length(width, units)
    };
    Ok((format!("{width} x {height}"), first?, length(height, units)?))
}

/// A whole number up to [`MOST`].
pub(crate) fn count(text: &str) -> Result<u32, Wrong> {
    let digits = text.strip_prefix('+').unwrap_or(text);
    let whole = !digits.is_empty() && digits.bytes().all(|byte| byte.is_ascii_digit());
    if !whole {
        let below = text.starts_with('-') && text[1..].bytes().all(|byte| byte.is_ascii_digit()) && text.len() > 1;
        let cause = if below { "is below zero" } else { "is not a whole number" };
        return Err(Wrong::new(format!("`{text}` {cause}"), "write a whole number such as `24`"));
    }
    let count = digits.parse().ok().filter(|count| *count <= MOST);
    count.ok_or_else(|| {
        Wrong::new(format!("`{text}` is more than a million"), "write a smaller count, or split the job")
    })
}

/// An amount of money, exact to the cent; a currency sign before or behind it is passed over.
pub(crate) fn money(text: &str) -> Result<Cents, Wrong> {
    let wrong = |cause: &str| Wrong::new(format!("`{text}` {cause}"), "write an amount such as `38.50`");
    let sign = |c: char| !c.is_ascii_digit() && !".,-+".contains(c);
    let amount = text.trim_matches(sign);
    if text.trim().chars().count() - amount.chars().count() > 4 {
        return Err(wrong("is not an amount of money"));
    }
    if let Some(rest) = amount.strip_prefix('-') {
        let cause = if plain_amount(rest).is_some() { "is below zero" } else { "is not an amount of money" };
        return Err(wrong(cause));
    }
    let (units, part) = plain_amount(amount).ok_or_else(|| wrong("is not an amount of money"))?;
    if part.trim_end_matches('0').len() > 2 {
        return Err(wrong("has fractions of a cent"));
    }
    let part: String = format!("{part}00").chars().take(2).collect();
    let cents = format!("{units}{part}").parse().ok().filter(|cents| *cents <= RICHEST.0);
    cents.map(Cents).ok_or_else(|| wrong("is more than a million"))
}

/// The digits before and after the point.
fn plain_amount(text: &str) -> Option<(&str, &str)> {
    let text = text.strip_prefix('+').unwrap_or(text);
    let (units, part) = text.split_once('.').unwrap_or((text, ""));
    let digits = units.bytes().chain(part.bytes()).all(|byte| byte.is_ascii_digit());
    (digits && !text.is_empty() && text != ".").then_some((units, part))
}

/// A weight in kilograms from `300 lb` or `136 kg`; a bare number is in pounds in an inch job.
pub(crate) fn weight(text: &str, units: Unit) -> Result<f64, Wrong> {
    let plain = text.trim().to_lowercase();
    let bare = plain.trim_end_matches(|c: char| c.is_alphabetic() || c == '.').trim_end();
    let kilograms = match plain[bare.len()..].trim() {
        "" if units != Unit::In => 1.0,
        "" | "lb" | "lbs" | "lb." | "lbs." => KG_PER_POUND,
        "kg" | "kg." => 1.0,
        _ => {
            return Err(Wrong::new(format!("`{text}` is not a weight"), "write a weight such as `300 lb` or `136 kg`"));
        }
    };
    number(bare, 0.01, 1e6).map(|number| number * kilograms)
}

/// A plain decimal number from `least` to `most`.
pub(crate) fn number(text: &str, least: f64, most: f64) -> Result<f64, Wrong> {
    let plain = text.bytes().all(|byte| byte.is_ascii_digit() || b".+-".contains(&byte));
    let number = text.parse().ok().filter(|number: &f64| plain && number.is_finite());
    let number = number
        .ok_or_else(|| Wrong::new(format!("`{text}` is not a number"), "write a number such as `680` or `0.5`"))?;
    if (least..=most).contains(&number) {
        return Ok(number);
    }
    Err(Wrong::new(format!("`{text}` is out of range"), format!("write a number from {least} to {most}")))
}

/// One line of text for print.
pub(crate) fn text(text: &str) -> Result<String, Wrong> {
    if text.chars().any(char::is_control) {
        return Err(Wrong::new("the text has line breaks or control signs in it", "write it on one line"));
    }
    if text.chars().count() > 200 {
        return Err(Wrong::new("the text is longer than 200 signs", "shorten it; it is printed on every paper"));
    }
    Ok(text.trim().to_owned())
}

/// One of a few known words.
pub(crate) fn word<T: Copy>(key: &str, text: &str, choices: &[(&str, T)]) -> Result<T, Wrong> {
    let plain = text.trim().to_lowercase();
    if let Some((_, meaning)) = choices.iter().find(|(word, _)| *word == plain) {
        return Ok(*meaning);
    }
    let known: Vec<&str> = choices.iter().map(|(word, _)| *word).collect();
    let all = known.join("`, `");
    let remedy = match nearest(&plain, known) {
        Some(near) => format!("did you mean `{near}`? known are `{all}`"),
        None => format!("write one of `{all}`"),
    };
    Err(Wrong::new(format!("`{text}` is not known for `{key}`"), remedy))
}
