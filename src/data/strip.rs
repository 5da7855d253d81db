//! Strips on hand, from `[[strip]]` and from strip lists alike; and offcuts worth keeping, `[[keep]]`.

use super::reading::{Fields, Section};
use super::{Cents, sheet};
use crate::length::Length;
use serde::{Deserialize, Serialize};

/// Strips or offcuts on hand that are alike.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct StripOnHand {
    /// The letter or name written on it; may be empty.
    pub name: String,
    /// Across the strip.
    pub width: Length,
    /// Along the strip, the way it goes through the saw.
    pub length: Length,
    /// How many.
    pub count: u32,
    /// The sheet kind it was cut from, as an index into [`super::Job::sheets`], where known.
    pub sheet: Option<usize>,
    /// Whether its face grain runs along its length.
    pub grain_along: bool,
}

/// An offcut size worth keeping, either way round.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Keeper {
    /// The shorter side.
    pub width: Length,
    /// The longer side.
    pub length: Length,
    /// What an offcut at least this large is worth.
    pub worth: Cents,
}

const GRAINS: [(&str, bool); 2] = [("along", true), ("across", false)];

/// A `[[strip]]`; `None` where a fault was noted.
pub(crate) fn read(section: &mut Section, sheets: &[String]) -> Option<StripOnHand> {
    let strip = strip(section, sheets);
    section.end();
    strip
}

/// A strip from its fields.
pub(crate) fn strip(fields: &mut impl Fields, sheets: &[String]) -> Option<StripOnHand> {
    let name = fields.text("name").unwrap_or_default();
    let (width, length) = (fields.length("width"), fields.length("length"));
    let count = if fields.has("count") { fields.count("count") } else { Some(1) };
    let sheet = fields.read("sheet", |text| sheet::named(text, sheets));
    let grain_along = fields.word("grain", &GRAINS).unwrap_or(true);
    // A strip that is used up or broken may stay in the list with a count of none.
    if count == Some(0) {
        return None;
    }
    fields.must("width", "12");
    fields.must("length", "40");
    for (key, side) in [("width", width), ("length", length)] {
        if let Some(side) = side.filter(|side| *side > sheet::LONGEST) {
            let cause = format!("no strip is {} long", side.say(fields.units()));
            fields.fault(key, cause, "write the length with its unit, such as `40 in` or `1000 mm`");
        }
    }
    Some(StripOnHand { name, width: width?, length: length?, count: count?, sheet, grain_along })
}

/// A `[[keep]]`; `None` where a fault was noted.
pub(crate) fn read_keeper(section: &mut Section) -> Option<Keeper> {
    let size = section.size("size");
    let worth = section.money("worth");
    section.must("size", "\"6 x 24\"");
    section.must("worth", "1.50");
    section.end();
    let (_, one, other) = size?;
    Some(Keeper { width: one.min(other), length: one.max(other), worth: worth? })
}
