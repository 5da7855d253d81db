//! Panels wanted, from `[[panel]]` and from the panel list alike.

use super::reading::{Document, Fields, MOST, Notes, Row, Section, Table};
use super::{Cents, Place, sheet};
use crate::length::Length;
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// Which way the face grain must run on a panel.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Grain {
    /// Either way.
    #[default]
    Any,
    /// Along the panel's height.
    Upright,
    /// Along the panel's width.
    Level,
}

/// One line of panels wanted.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Panel {
    /// The user's name for the line, or its size as written (`12 x 16`).
    pub name: String,
    /// Nominal width (the level side).
    pub width: Length,
    /// Nominal height (the upright side).
    pub height: Length,
    /// How many are wanted.
    pub count: u32,
    /// Most that width and height may each come out under the nominal size.
    pub scant: Length,
    /// Face grain on the panel.
    pub grain: Grain,
    /// How many more one would gladly have.
    pub extra: u32,
    /// What one more is worth.
    pub worth: Cents,
    /// Sheet kinds it may be cut from, as indices into [`super::Job::sheets`]; empty for any.
    pub sheets: Vec<usize>,
}

/// The words for face grain.
const GRAINS: [(&str, Grain); 3] = [("any", Grain::Any), ("upright", Grain::Upright), ("level", Grain::Level)];

/// The columns of a panel list; a note is for its writer only.
const COLUMNS: [&[&str]; 11] = [
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
    &["note"],
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
    let mut taken: BTreeMap<String, u32> = BTreeMap::new();
    for (panel, _) in panels.iter_mut() {
        let plain = panel.name.clone();
        let mut number = taken.get(&plain).copied().unwrap_or(0);
        while taken.contains_key(&panel.name) {
            number += 1;
            panel.name = format!("{plain} ({})", number + 1);
        }
        taken.insert(plain, number);
        taken.entry(panel.name.clone()).or_insert(0);
    }
    let all: u64 = panels.iter().map(|(panel, _)| u64::from(panel.count) + u64::from(panel.extra)).sum();
    if all > u64::from(MOST) {
        let place = panels.last().map(|(_, place)| place.clone()).unwrap_or_default();
        notes.fault_at(place, format!("{all} panels are more than a million"), "split the job");
    }
}
