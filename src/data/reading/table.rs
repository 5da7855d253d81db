//! A list kept in a spreadsheet: finds its separator and its header, and hands out its rows with their lines.

use super::header::{Column, columns};
use super::{Document, Notes};
use crate::data::Place;
use csv::{ReaderBuilder, StringRecord};

/// A list with its header read: which column holds which name.
pub(crate) struct Table<'a> {
    pub(crate) document: &'a Document<'a>,
    /// The columns that the header names.
    pub(crate) columns: Vec<Column>,
    /// Rows with something in them, each with its line.
    pub(crate) rows: Vec<(usize, StringRecord)>,
    /// Whether a comma is a decimal point, as where semicolons part the columns.
    pub(crate) comma_decimals: bool,
    /// Whether some rows could not be told apart, so that their number is not known.
    pub(crate) torn: bool,
    /// The header's line.
    line: usize,
}

impl<'a> Table<'a> {
    /// Reads header and rows; `names` are the known columns, first name first, other names for it after.
    pub(crate) fn read(document: &'a Document<'a>, notes: &Notes, names: &[&[&'static str]]) -> Table<'a> {
        let separator = separator(document.text);
        let (mut rows, torn) = rows(document, notes, separator);
        let comma_decimals = separator == b';';
        if rows.is_empty() {
            let remedy = "write a line of column names, then a line for each size or strip";
            notes.fault_at(document.place(0, ""), "the list is empty", remedy);
            return Table { document, columns: Vec::new(), rows, comma_decimals, torn, line: 1 };
        }
        let (line, header) = rows.remove(0);
        check_widths(document, notes, &rows, header.len());
        let columns = columns(notes, names, &header, |column| place(document, line, column));
        Table { document, columns, rows, comma_decimals, torn, line }
    }

    /// A place in the list.
    pub(crate) fn at(&self, line: usize, column: &str) -> Place {
        place(self.document, line, column)
    }

    /// The header's place.
    pub(crate) fn header(&self) -> Place {
        self.at(self.line, "")
    }

    /// Whether the header names this column.
    pub(crate) fn has(&self, name: &str) -> bool {
        self.columns.iter().any(|column| column.name == name)
    }
}

/// The place of a line and the column with this header, if any.
fn place(document: &Document, line: usize, column: &str) -> Place {
    let key = if column.is_empty() { String::new() } else { format!("column {column}") };
    Place { file: document.file.to_owned(), line, key }
}

/// Refuses lines with more in them than the header has names for.
fn check_widths(document: &Document, notes: &Notes, rows: &[(usize, StringRecord)], width: usize) {
    for (line, row) in rows.iter().filter(|(_, row)| row.iter().skip(width).any(|cell| !cell.is_empty())) {
        let cause = format!("the line has {} columns, its header {width}", row.len());
        let remedy = "put a text with the separator in it between double quotes";
        notes.fault_at(place(document, *line, ""), cause, remedy);
    }
}

/// Tab, semicolon or comma: whichever the first written line has most of, quoted text aside.
fn separator(text: &str) -> u8 {
    let line = text.lines().find(|line| !line.trim().is_empty()).unwrap_or_default();
    let bare: String = line.split('"').step_by(2).collect();
    let often = |separator: u8| bare.bytes().filter(|byte| *byte == separator).count();
    let (tabs, semicolons, commas) = (often(b'\t'), often(b';'), often(b','));
    if tabs > 0 && tabs >= semicolons.max(commas) {
        b'\t'
    } else if semicolons > 0 && semicolons >= commas {
        b';'
    } else {
        b','
    }
}

/// All rows that are not blank, trimmed, with their lines; and whether a quote left open tore some.
fn rows(document: &Document, notes: &Notes, separator: u8) -> (Vec<(usize, StringRecord)>, bool) {
    let mut builder = ReaderBuilder::new();
    let builder = builder.has_headers(false).flexible(true).delimiter(separator).trim(csv::Trim::All);
    let mut reader = builder.from_reader(document.text.as_bytes());
    let (mut rows, mut torn) = (Vec::new(), false);
    for row in reader.records().filter_map(Result::ok) {
        let line = line(document, &row);
        if row.iter().any(|cell| cell.contains('\n')) {
            let cause = "a quoted text does not end on its line";
            notes.fault_at(place(document, line, ""), cause, "close it with a double quote");
            torn = true;
        } else if row.iter().any(|cell| !cell.is_empty()) {
            rows.push((line, row));
        }
    }
    (rows, torn)
}

/// The line a row begins on; the reader's own count takes blank lines before it for its own.
fn line(document: &Document, row: &StringRecord) -> usize {
    let begin = row.position().and_then(|position| usize::try_from(position.byte()).ok()).unwrap_or(0);
    let rest = document.text.get(begin..).unwrap_or_default();
    document.line(begin + rest.len() - rest.trim_start_matches(['\r', '\n']).len())
}
