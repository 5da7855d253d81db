//! Panels wanted, from `[[panel]]` and from the panel list alike.

use super::reading::{Document, Fields, MOST, Notes, Row, Section, Table};
use super::{Cents, Grain, Panel, Place, sheet};
use crate::length::Length;

/// The words for face grain.
const GRAINS: [(&str, Grain); 3] = [("any", Grain::Any), ("upright", Grain::Upright), ("level", Grain::Level)];

/// The columns of a panel list.
const COLUMNS: [&[&str]; 10] = [
    &["size"],
    &["width"],
    &["height"],
    &["count"],
    &["name"],
    &["scant"],
    &["grain"],
    &["extra"],
    &["worth"],
    &["sheets", "sheet"],
];

/// A panel and where its size stands.
pub(crate) type Placed = (Panel, Place);

/// A `[[panel]]`; `None` where a fault was noted.
pub(crate) fn read(section: &mut Section, sheets: &[String]) -> Option<Placed> {
    let panel = panel(section, sheets);
    section.end();
    panel
}

/// The panels of a list.
pub(crate) fn read_list(document: &Document, notes: &Notes, sheets: &[String]) -> Vec<Placed> {
    let table = Table::read(document, notes, &COLUMNS);
    if table.columns.is_empty() {
        return Vec::new();
    }
    let sized = table.has("size") || (table.has("width") && table.has("height"));
    if !sized {
        notes.fault_at(table.header(), "the list has no column `size`", "add it, or both `width` and `height`");
    }
    if !table.has("count") {
        notes.fault_at(table.header(), "the list has no column `count`", "add it: how many panels of each size");
    }
    if table.rows.is_empty() && !table.torn {
        notes.fault_at(table.header(), "the list has no panels", "write a line for each size");
    }
    let complete = sized && table.has("count");
    Row::all(notes, &table).filter(|_| complete).filter_map(|mut row| panel(&mut row, sheets)).collect()
}

/// A panel from its fields.
fn panel(fields: &mut impl Fields, sheets: &[String]) -> Option<Placed> {
    let size = size(fields);
    let name = fields.text("name");
    let count = fields.count("count");
    fields.must("count", "12");
    let scant = fields.allowance("scant").unwrap_or_default();
    let grain = fields.word("grain", &GRAINS).unwrap_or_default();
    let extra = fields.count("extra").unwrap_or_default();
    let worth = worth(fields, extra);
    let sheets = fields.read_each("sheets", |text| sheet::named(text, sheets)).unwrap_or_default();
    let (sized, width, height, place) = size?;
    let smallest = width.min(height);
    if scant >= smallest {
        let (scant, side) = (scant.say(fields.units()), smallest.say(fields.units()));
        fields.fault(
            "scant",
            format!("{scant} under size leaves nothing of a side of {side}"),
            "write a smaller `scant`, such as `1/8 in`",
        );
    }
    if count == Some(0) && extra == 0 {
        fields.fault("count", "no panel of this size is wanted", "write how many, or leave the line out");
    }
    let name = name.unwrap_or(sized);
    Some((Panel { name, width, height, count: count.unwrap_or(1), scant, grain, extra, worth, sheets }, place))
}

/// The size from `size`, or from `width` and `height`, with its name and place.
fn size(fields: &mut impl Fields) -> Option<(String, Length, Length, Place)> {
    let apart = fields.has("width") || fields.has("height");
    let (width, height) = (fields.length("width"), fields.length("height"));
    let whole = fields.size("size");
    if apart && fields.has("size") {
        fields.fault("size", "the size is given twice", "write either `size`, or `width` and `height`");
        return None;
    }
    if !apart {
        fields.must("size", "\"12 x 16\"");
        return whole.map(|(name, width, height)| (name, width, height, fields.place("size")));
    }
    fields.must("width", "12");
    fields.must("height", "16");
    let (width, height) = (width?, height?);
    let name = format!("{} x {}", width.show(fields.units()), height.show(fields.units()));
    Some((name, width, height, fields.place("width")))
}

/// What an extra panel is worth; a token where nobody says, so that it is cut rather than wasted.
fn worth(fields: &mut impl Fields, extra: u32) -> Cents {
    let worth = fields.money("worth");
    if extra > 0 && !fields.has("worth") {
        let origin = "no worth given: any extra panel is better than waste";
        fields.notes().assume("panel.worth".into(), "1.00".into(), origin);
        return Cents(100);
    }
    worth.unwrap_or_default()
}

/// Gives panels with the same name different ones, and refuses more panels than can be counted.
pub(crate) fn settle(panels: &mut [Placed], notes: &Notes) {
    let mut taken: Vec<String> = Vec::new();
    for (panel, _) in panels.iter_mut() {
        let mut number = 2;
        let plain = panel.name.clone();
        while taken.contains(&panel.name) {
            panel.name = format!("{plain} ({number})");
            number += 1;
        }
        taken.push(panel.name.clone());
    }
    let all: u64 = panels.iter().map(|(panel, _)| u64::from(panel.count) + u64::from(panel.extra)).sum();
    if all > u64::from(MOST) {
        let place = panels.last().map(|(_, place)| place.clone()).unwrap_or_default();
        notes.fault_at(place, format!("{all} panels are more than a million"), "split the job");
    }
}
