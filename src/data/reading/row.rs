//! One line of a list, read column by column.

use super::{Fields, Notes, Table};
use crate::data::Place;

/// A line of a list; columns that the list lacks, and empty cells, are silent.
pub(crate) struct Row<'a> {
    notes: &'a Notes,
    table: &'a Table<'a>,
    index: usize,
}

/// Columns that hold words, where a comma is a comma.
const WORDS: [&str; 4] = ["name", "grain", "sheet", "sheets"];

impl<'a> Row<'a> {
    /// All rows of a list.
    pub(crate) fn all(notes: &'a Notes, table: &'a Table<'a>) -> impl Iterator<Item = Row<'a>> {
        (0..table.rows.len()).map(move |index| Row { notes, table, index })
    }

    fn cell(&self, key: &str) -> Option<&'a str> {
        let column = self.table.columns.iter().find(|column| column.name == key)?;
        self.table.rows[self.index].1.get(column.position).filter(|cell| !cell.is_empty())
    }
}

impl Fields for Row<'_> {
    fn notes(&self) -> &Notes {
        self.notes
    }

    fn place(&self, key: &str) -> Place {
        let column = self.table.columns.iter().find(|column| column.name == key);
        self.table.at(self.table.rows[self.index].0, column.map_or("", |column| &column.written))
    }

    fn has(&self, key: &str) -> bool {
        self.cell(key).is_some()
    }

    fn remedy(&self, key: &str, example: &str) -> String {
        format!("fill in the column `{key}`, such as `{}`", example.trim_matches('"'))
    }

    fn given(&mut self, key: &'static str) -> Option<String> {
        let cell = self.cell(key)?;
        let points = self.table.comma_decimals && !WORDS.contains(&key);
        Some(if points { cell.replace(',', ".") } else { cell.to_owned() })
    }

    /// The parts of a cell between `|` or `;`.
    fn list(&mut self, key: &'static str) -> Option<Vec<String>> {
        let cell = self.cell(key)?;
        Some(cell.split(['|', ';']).map(|part| part.trim().to_owned()).filter(|part| !part.is_empty()).collect())
    }
}
