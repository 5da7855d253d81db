//! A text with the name of its file, which tells the line of any byte in it.

use crate::data::Place;

/// Signs of a long line that are shown before and behind the spot.
const AROUND: usize = 50;

/// A named text and where its lines begin.
pub(crate) struct Document<'a> {
    pub(crate) file: &'a str,
    pub(crate) text: &'a str,
    starts: Vec<usize>,
}

impl<'a> Document<'a> {
    pub(crate) fn new(file: &'a str, text: &'a str) -> Self {
        let breaks = text.bytes().enumerate().filter(|(_, byte)| *byte == b'\n').map(|(at, _)| at + 1);
        Document { file, text, starts: std::iter::once(0).chain(breaks).collect() }
    }

    /// The line, from 1, that holds this byte.
    pub(crate) fn line(&self, byte: usize) -> usize {
        self.starts.partition_point(|start| *start <= byte)
    }

    /// The place of a byte, under a key.
    pub(crate) fn place(&self, byte: usize, key: impl Into<String>) -> Place {
        Place { file: self.file.to_owned(), line: self.line(byte), key: key.into() }
    }

    /// The line that holds this byte, or the part of a long one around it, and below it a caret under the byte.
    pub(crate) fn excerpt(&self, byte: usize) -> String {
        let start = self.starts[self.line(byte) - 1];
        let line = self.text[start..].lines().next().unwrap_or_default();
        let before = self.text.get(start..byte).unwrap_or(line);
        let column = before.chars().count().min(line.chars().count());
        let skipped = column.saturating_sub(AROUND);
        let part: String = line.chars().skip(skipped).take(2 * AROUND).collect();
        format!("{}\n{}^", part.replace('\t', " "), " ".repeat(column - skipped))
    }
}
