//! Reads a length as people write it: `11 7/8`, `11-7/8"`, `11.875`, `302 mm`, `30.2 cm`, `4 ft`, `4' 6 1/2"`.
//! Decimals between two raw units go to the nearer one (at most 1.6 thousandths of a millimetre away).

use super::{Length, RAW_PER_INCH, RAW_PER_MM, Unit};
use std::fmt;

/// Why a text is not a length.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum LengthError {
    /// Nothing was written.
    Empty,
    /// The text is not a number with a unit.
    NotALength(String),
    /// A fraction's lower number is zero.
    ZeroDenominator(String),
    /// Longer than [`Length::MAX`].
    TooLong(String),
}

impl fmt::Display for LengthError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            LengthError::Empty => write!(f, "a length is missing"),
            LengthError::NotALength(text) => write!(f, "`{text}` is not a length"),
            LengthError::ZeroDenominator(text) => write!(f, "`{text}` divides by zero"),
            LengthError::TooLong(text) => write!(f, "`{text}` is longer than a million inches"),
        }
    }
}

impl std::error::Error for LengthError {}

impl Length {
    /// Reads a length; a bare number is in `unit`. A minus sign is read, so that the caller can say what is wrong with
    /// it.
    ///
    /// # Errors
    /// When the text is empty, not a number with a known unit, divides by zero or is beyond [`Length::MAX`].
    pub fn parse(text: &str, unit: Unit) -> Result<Length, LengthError> {
        let clean = normal(text);
        let (negative, body) = match clean.strip_prefix('-') {
            Some(rest) => (true, rest.trim_start()),
            None => (false, clean.as_str()),
        };
        if body.is_empty() {
            return Err(if negative { LengthError::NotALength(text.trim().into()) } else { LengthError::Empty });
        }
        let raw = parts(body, unit, text.trim())?.iter().try_fold(0_i64, |sum, part| sum.checked_add(*part));
        match raw {
            Some(raw) if raw <= Length::MAX.raw() => Ok(Length::from_raw(if negative { -raw } else { raw })),
            _ => Err(LengthError::TooLong(text.trim().into())),
        }
    }
}

/// One spelling for all: typographic marks, case and spaces.
fn normal(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.trim().to_lowercase().chars() {
        match c {
            '\u{2032}' | '\u{2019}' => out.push('\''),
            '\u{2033}' | '\u{201d}' => out.push('"'),
            '\u{2212}' | '\u{2013}' => out.push('-'),
            '\u{2044}' => out.push('/'),
            '\u{a0}' | '\u{2009}' | '\u{202f}' | '\t' => out.push(' '),
            '\u{bd}' => out.push_str(" 1/2"),
            '\u{bc}' => out.push_str(" 1/4"),
            '\u{be}' => out.push_str(" 3/4"),
            '\u{215b}' => out.push_str(" 1/8"),
            '\u{215c}' => out.push_str(" 3/8"),
            '\u{215d}' => out.push_str(" 5/8"),
            '\u{215e}' => out.push_str(" 7/8"),
            other => out.push(other),
        }
    }
    out.trim().replace("''", "\"")
}

/// The raw lengths of the text's parts: feet and inches, or a single number with its unit.
fn parts(body: &str, unit: Unit, whole: &str) -> Result<Vec<i64>, LengthError> {
    let fault = || LengthError::NotALength(whole.into());
    for sign in ["feet", "foot", "ft.", "ft", "'"] {
        if let Some((feet, rest)) = body.split_once(sign) {
            let feet = number(feet, 12 * RAW_PER_INCH, whole)?;
            let rest = rest.trim_start().trim_start_matches('-').trim_start();
            if rest.is_empty() {
                return Ok(vec![feet]);
            }
            let inches = strip_inch_sign(rest).unwrap_or(rest);
            return Ok(vec![feet, number(inches, RAW_PER_INCH, whole)?]);
        }
    }
    let (digits, per_unit) = if let Some(rest) = ["yards", "yard", "yd"].iter().find_map(|sign| body.strip_suffix(sign))
    {
        (rest, 36 * RAW_PER_INCH)
    } else if let Some(rest) = body.strip_suffix("mm") {
        (rest, RAW_PER_MM)
    } else if let Some(rest) = body.strip_suffix("cm") {
        (rest, 10 * RAW_PER_MM)
    } else if let Some(rest) = strip_inch_sign(body) {
        (rest, RAW_PER_INCH)
    } else if let Some(rest) = body.strip_suffix('m') {
        (rest, 1000 * RAW_PER_MM)
    } else {
        (body, unit.raw())
    };
    if digits.trim().is_empty() {
        return Err(fault());
    }
    Ok(vec![number(digits, per_unit, whole)?])
}

/// The text before an inch sign, if it ends in one.
fn strip_inch_sign(text: &str) -> Option<&str> {
    ["inches", "inch", "in.", "in", "\""].iter().find_map(|sign| text.strip_suffix(sign))
}

/// A whole number, decimal, fraction or mixed number (`11 7/8`, `11-7/8`) of units of `per_unit` raw lengths.
fn number(text: &str, per_unit: i64, whole: &str) -> Result<i64, LengthError> {
    let fault = || LengthError::NotALength(whole.into());
    let text = text.trim();
    let Some((before, bottom)) = text.split_once('/') else {
        return decimal(text, per_unit, whole);
    };
    let before = before.trim_end();
    let (units, top) = match before.rsplit_once([' ', '-']) {
        // `11.5 7/8` is a slip of the pen, not a length.
        Some((units, _)) if units.contains('.') => return Err(fault()),
        Some((units, top)) => (decimal(units.trim_end_matches(['-', ' ']), per_unit, whole)?, top),
        None => (0, before),
    };
    let (top, bottom) = (digits(top).ok_or_else(fault)?, digits(bottom.trim()).ok_or_else(fault)?);
    if bottom == 0 {
        return Err(LengthError::ZeroDenominator(whole.into()));
    }
    let part = rounded(i128::from(top) * i128::from(per_unit), i128::from(bottom));
    let part = part.ok_or_else(|| LengthError::TooLong(whole.into()))?;
    units.checked_add(part).ok_or_else(|| LengthError::TooLong(whole.into()))
}

/// A plain decimal number of units; nine decimals count, the rest cannot matter.
fn decimal(text: &str, per_unit: i64, whole: &str) -> Result<i64, LengthError> {
    let fault = || LengthError::NotALength(whole.into());
    let (units, decimals) = text.split_once('.').unwrap_or((text, ""));
    if units.is_empty() && decimals.is_empty() {
        return Err(fault());
    }
    if !units.chars().chain(decimals.chars()).all(|c| c.is_ascii_digit()) {
        return Err(fault());
    }
    let too_long = || LengthError::TooLong(whole.into());
    let units = if units.is_empty() { 0 } else { units.parse::<i64>().map_err(|_| too_long())? };
    let decimals: String = format!("{decimals:0<9}").chars().take(9).collect();
    let decimals = decimals.parse::<i64>().map_err(|_| fault())?;
    let nano = i128::from(units) * 1_000_000_000 + i128::from(decimals);
    rounded(nano * i128::from(per_unit), 1_000_000_000).ok_or_else(too_long)
}

/// A short run of digits as a number.
fn digits(text: &str) -> Option<i64> {
    let fits = !text.is_empty() && text.len() <= 9 && text.chars().all(|c| c.is_ascii_digit());
    fits.then(|| text.parse().ok()).flatten()
}

/// The nearest whole quotient of two numbers that are not negative.
fn rounded(top: i128, bottom: i128) -> Option<i64> {
    i64::try_from((top * 2 + bottom) / (bottom * 2)).ok()
}
