//! Strips and offcuts on hand as a CSV list: the offcut rack, and what the yard really cut.

use super::reading::{Document, Notes, Row, Table};
use super::{Fault, File, Sheet, StripOnHand, strip};
use crate::length::Unit;

/// The columns of a strip list.
const COLUMNS: [&[&str]; 6] =
    [&["name", "letter", "strip"], &["width"], &["length"], &["count"], &["sheet", "sheets"], &["grain"]];

/// Reads a list of strips: `name` (or `letter`), `width`, `length`, `count` (default 1), `sheet`, `grain` (`along` or
/// `across`), columns in any order; bare numbers are in `units`, sheets are known by the names of `sheets`.
///
/// # Errors
/// Every fault found in the list.
pub fn read_strips(list: &File, units: Unit, sheets: &[Sheet]) -> Result<Vec<StripOnHand>, Vec<Fault>> {
    let notes = Notes::default();
    notes.set_units(units);
    let names: Vec<String> = sheets.iter().map(|sheet| sheet.name.clone()).collect();
    let strips = match list.text() {
        Ok(text) => rows(&Document::new(&list.name, text), &notes, &names),
        Err(fault) => {
            notes.fault(*fault);
            Vec::new()
        }
    };
    notes.close(&[&list.name]).map(|_| strips)
}

/// The strips of a list; a list with a header only holds none.
pub(crate) fn rows(document: &Document, notes: &Notes, sheets: &[String]) -> Vec<StripOnHand> {
    let table = Table::read(document, notes, &COLUMNS);
    if table.columns.is_empty() {
        return Vec::new();
    }
    let missing: Vec<&str> = ["width", "length"].into_iter().filter(|name| !table.has(name)).collect();
    for name in &missing {
        notes.fault_at(
            table.header(),
            format!("the list has no column `{name}`"),
            "add it: a strip needs `width` and `length`",
        );
    }
    Row::all(notes, &table)
        .filter(|_| missing.is_empty())
        .filter_map(|mut row| strip::strip(&mut row, sheets))
        .collect()
}

/// Writes a list of strips as CSV text that [`read_strips`] reads back to the same strips.
pub fn write_strips(strips: &[StripOnHand], units: Unit, sheets: &[Sheet]) -> String {
    let mut writer = csv::Writer::from_writer(Vec::new());
    let sign = units.sign().trim_end_matches('.');
    let header = ["name", "width", "length", "count", "sheet", "grain"].map(String::from);
    let lines = strips.iter().map(|strip| {
        let sheet = strip.sheet.and_then(|index| sheets.get(index)).map_or("", |sheet| &sheet.name);
        [
            strip.name.clone(),
            format!("{} {sign}", strip.width.show(units)),
            format!("{} {sign}", strip.length.show(units)),
            strip.count.to_string(),
            sheet.to_owned(),
            if strip.grain_along { "along" } else { "across" }.to_owned(),
        ]
    });
    for line in std::iter::once(header).chain(lines) {
        writer.write_record(&line).expect("memory takes every line");
    }
    String::from_utf8(writer.into_inner().expect("memory takes every line")).expect("all of it is text")
}
