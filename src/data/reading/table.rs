//! A list kept in a spreadsheet: finds its separator and its header, and hands out its rows with their lines.

use super::{Document, Notes, nearest};
use csv::{ReaderBuilder, StringRecord};

/// A list with its header read: which column holds which name.
pub(crate) struct Table<'a> {
    pub(crate) document: &'a Document<'a>,
    /// Known names with their columns and the header as the user wrote it.
    pub(crate) columns: Vec<(&'static str, usize, String)>,
    /// Rows with something in them, each with its line.
    pub(crate) rows: Vec<(usize, StringRecord)>,
    /// Whether a comma is a decimal point, as where semicolons part the columns.
    pub(crate) comma_decimals: bool,
    /// The header's line.
    header: usize,
}

impl<'a> Table<'a> {
    /// Reads header and rows; `names` are the known columns, first name first, other names for it after.
    pub(crate) fn read(document: &'a Document<'a>, notes: &Notes, names: &[&[&'static str]]) -> Table<'a> {
        let separator = separator(document.text);
        let mut rows = rows(document, notes, separator);
        let mut table =
            Table { document, columns: Vec::new(), rows: Vec::new(), comma_decimals: separator == b';', header: 0 };
        if rows.is_empty() {
            notes.fault_at(
                document.place(0, ""),
                "the list is empty",
                "write a line of column names, then a line for each size",
            );
            return table;
        }
        let (line, header) = rows.remove(0);
        table.header = line;
        table.columns = columns(document, notes, names, line, &header);
        let wide = |row: &StringRecord| row.iter().skip(header.len()).any(|cell| !cell.is_empty());
        for (line, row) in &rows {
            if wide(row) {
                let cause = format!("the line has {} columns, its header {}", row.len(), header.len());
                notes.fault_at(table.at(*line, ""), cause, "put a text with the separator in it between double quotes");
            }
        }
        table.rows = rows;
        table
    }

    /// A place in the list.
    pub(crate) fn at(&self, line: usize, column: &str) -> crate::data::Place {
        at(self.document, line, column)
    }

    /// The header's place.
    pub(crate) fn header(&self) -> crate::data::Place {
        self.at(self.header, "")
    }

    /// Whether the header names this column.
    pub(crate) fn has(&self, name: &str) -> bool {
        self.columns.iter().any(|(known, ..)| *known == name)
    }
}

fn at(document: &Document, line: usize, column: &str) -> crate::data::Place {
    let key = if column.is_empty() { String::new() } else { format!("column {column}") };
    crate::data::Place { file: document.file.to_owned(), line, key }
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

/// All rows that are not blank, trimmed, with their lines.
fn rows(document: &Document, notes: &Notes, separator: u8) -> Vec<(usize, StringRecord)> {
    let mut reader = ReaderBuilder::new()
        .has_headers(false)
        .flexible(true)
        .delimiter(separator)
        .trim(csv::Trim::All)
        .from_reader(document.text.as_bytes());
    let mut rows = Vec::new();
    for row in reader.records().filter_map(Result::ok) {
        let begin = row.position().map_or(0, |position| usize::try_from(position.byte()).unwrap_or(0));
        let blank =
            document.text.get(begin..).map_or(0, |rest| rest.len() - rest.trim_start_matches(['\r', '\n']).len());
        let line = document.line(begin + blank);
        if row.iter().any(|cell| cell.contains('\n')) {
            notes.fault_at(
                at(document, line, ""),
                "a quoted text does not end on its line",
                "close it with a double quote",
            );
        } else if row.iter().any(|cell| !cell.is_empty()) {
            rows.push((line, row));
        }
    }
    rows
}

/// Which known name stands in which column.
fn columns(
    document: &Document,
    notes: &Notes,
    names: &[&[&'static str]],
    line: usize,
    header: &StringRecord,
) -> Vec<(&'static str, usize, String)> {
    let mut columns: Vec<(&'static str, usize, String)> = Vec::new();
    let known: Vec<&str> = names.iter().map(|known| known[0]).collect();
    let all = known.join("`, `");
    if !header.iter().any(|written| names.iter().any(|known| known.contains(&written.to_lowercase().as_str()))) {
        notes.fault_at(
            at(document, line, ""),
            "the first line names no columns",
            format!("begin with column names, from `{all}`"),
        );
        return columns;
    }
    for (column, written) in header.iter().enumerate().filter(|(_, written)| !written.is_empty()) {
        let plain = written.to_lowercase();
        let Some(name) = names.iter().find(|known| known.contains(&plain.as_str())).map(|known| known[0]) else {
            let remedy = match nearest(&plain, known.iter().copied()) {
                Some(near) => format!("did you mean `{near}`?"),
                None => format!("name the columns `{all}`, or leave its name empty"),
            };
            notes.fault_at(at(document, line, written), format!("`{written}` is not a known column"), remedy);
            continue;
        };
        if columns.iter().any(|(known, ..)| *known == name) {
            notes.fault_at(
                at(document, line, written),
                format!("column `{name}` comes twice"),
                "leave one of them out",
            );
        }
        columns.push((name, column, written.to_owned()));
    }
    columns
}
