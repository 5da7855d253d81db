//! The header of a list: which known name stands in which column.

use super::{Notes, nearest};
use crate::data::Place;
use csv::StringRecord;

/// A column under a known name.
pub(crate) struct Column {
    /// The name it is known by.
    pub(crate) name: &'static str,
    /// Its position in a row.
    pub(crate) position: usize,
    /// The name as the user wrote it.
    pub(crate) written: String,
}

/// The columns of a header; a name that is unknown or comes twice is a fault at its `place`.
pub(crate) fn columns(
    notes: &Notes,
    names: &[&[&'static str]],
    header: &StringRecord,
    place: impl Fn(&str) -> Place,
) -> Vec<Column> {
    let known =
        |written: &str| names.iter().find(|names| names.contains(&written.to_lowercase().as_str())).map(|n| n[0]);
    let all: Vec<&str> = names.iter().map(|names| names[0]).collect();
    if !header.iter().any(|written| known(written).is_some()) {
        let remedy = format!("begin with column names, from `{}`", all.join("`, `"));
        notes.fault_at(place(""), "the first line names no columns", remedy);
        return Vec::new();
    }
    let mut columns: Vec<Column> = Vec::new();
    for (position, written) in header.iter().enumerate().filter(|(_, written)| !written.is_empty()) {
        let Some(name) = known(written) else {
            notes.fault_at(place(written), format!("`{written}` is not a known column"), remedy(written, &all));
            continue;
        };
        if columns.iter().any(|column| column.name == name) {
            notes.fault_at(place(written), format!("column `{name}` comes twice"), "leave one of them out");
        }
        columns.push(Column { name, position, written: written.to_owned() });
    }
    columns
}

/// What to do about an unknown column.
fn remedy(written: &str, all: &[&str]) -> String {
    match nearest(written, all.iter().copied()) {
        Some(near) => format!("did you mean `{near}`?"),
        None => format!("name the columns `{}`, or leave its name empty", all.join("`, `")),
    }
}
