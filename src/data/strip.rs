//! Strips on hand, from `[[strip]]` and from strip lists alike; and offcuts worth keeping, `[[keep]]`.

use super::reading::{Fields, Section};
use super::{Keeper, StripOnHand, sheet};

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
    fields.must("width", "12");
    fields.must("length", "40");
    let count = if fields.has("count") { fields.some("count") } else { Some(1) };
    let sheet = fields.read("sheet", |text| sheet::named(text, sheets));
    let grain_along = fields.word("grain", &GRAINS).unwrap_or(true);
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
