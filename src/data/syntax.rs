//! The job file's TOML: every slip of its spelling is shown where it stands, with what to write instead.

use super::Fault;
use super::reading::{Document, Notes};
use toml::Spanned;
use toml::de::{DeTable, Error};

/// The table of a job file; `None` where its spelling leaves too much open to read on.
pub(crate) fn parse<'a>(document: &Document<'a>, notes: &Notes) -> Option<Spanned<DeTable<'a>>> {
    if document.text.trim().is_empty() {
        notes.fault_at(document.place(0, ""), "the job file is empty", "`yardslip start` writes one to begin from");
        return None;
    }
    let (table, errors) = DeTable::parse_recoverable(document.text);
    let mut legible = true;
    for error in &errors {
        let (fault, minor) = fault(document, error);
        notes.fault(fault);
        legible &= minor;
    }
    legible.then_some(table)
}

/// A slip as a fault, and whether the values around it can be trusted all the same.
fn fault(document: &Document, error: &Error) -> (Fault, bool) {
    let at = error.span().map_or(0, |span| span.start);
    let message = error.message();
    let (cause, remedy, minor) = if message.contains("must be quoted") {
        (
            "a text or fraction stands without quotes".to_owned(),
            "put it in quotes, such as \"11 7/8\" or \"12 x 16\"",
            true,
        )
    } else if message.contains("duplicate key") {
        let name = error.span().and_then(|span| document.text.get(span)).unwrap_or("this name");
        (format!("`{name}` stands here for the second time"), "leave one of the two out", true)
    } else {
        (message.replace('\n', ", "), "write `name = value`, with texts in quotes and sections in brackets", false)
    };
    let excerpt = document.excerpt(at);
    (Fault { excerpt, ..Fault::at(document.place(at, ""), cause, remedy) }, minor)
}
