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
    if document.text.trim_start().starts_with('{') {
        let remedy = "give the job file that it was made from; a plan.json is for `yardslip recut`";
        notes.fault_at(document.place(0, ""), "this is JSON, not a job file", remedy);
        return None;
    }
    let (table, errors) = DeTable::parse_recoverable(document.text);
    let mut legible = true;
    for (told, error) in errors.iter().enumerate() {
        let (fault, minor) = fault(document, error);
        legible &= minor;
        if told < MOST_SLIPS {
            notes.fault(fault);
        } else {
            let (cause, remedy) = (format!("{} more slips from here on", errors.len() - told), "is this a job file?");
            notes.fault(Fault { cause, remedy: format!("mend those above first; {remedy}"), ..fault });
            return None;
        }
    }
    legible.then_some(table)
}

/// So many slips are shown; a file with more is another kind of file, or one slip has led to all the others.
const MOST_SLIPS: usize = 10;

/// What to do about a slip, by words of the parser's message.
const REMEDIES: [(&str, &str); 9] = [
    ("escape", "write the backslash twice, or the text between single quotes"),
    ("opening quote", "put the whole text in quotes; one with a double quote in it between single quotes"),
    ("boolean", "write `true` or `false`, in small letters"),
    ("leading zero", "write the number without it"),
    ("mantissa", "write the number with a digit on both sides of the point"),
    ("fraction", "write the number with a digit on both sides of the point"),
    ("array table", "close the brackets, as in `[[panel]]`"),
    ("table", "close the bracket, as in `[yard]`"),
    ("unexpected key or value", "write one value a line: texts in quotes, numbers without commas"),
];

/// A slip as a fault, and whether the values around it can be trusted all the same.
fn fault(document: &Document, error: &Error) -> (Fault, bool) {
    let at = error.span().map_or(0, |span| span.start);
    let (cause, remedy, minor) = told(error.message(), error.span().and_then(|span| document.text.get(span)));
    let excerpt = document.excerpt(at);
    (Fault { excerpt, ..Fault::at(document.place(at, ""), cause, remedy) }, minor)
}

/// Cause and remedy of a slip, and whether it is a minor one.
fn told(message: &str, slip: Option<&str>) -> (String, String, bool) {
    let slip = slip.unwrap_or_default();
    if message.contains("must be quoted") {
        let straight = slip.trim_matches(['\u{201c}', '\u{201d}', '\u{201e}']);
        return (format!("`{slip}` stands without straight quotes"), format!("write `\"{straight}\"`"), true);
    }
    if message.contains("duplicate key") {
        return (format!("`{slip}` stands here for the second time"), "leave one of the two out".into(), true);
    }
    let remedy = REMEDIES.iter().find(|(part, _)| message.contains(part)).map(|(_, remedy)| *remedy);
    let remedy = remedy.unwrap_or("write `name = value`, with texts in quotes and sections in brackets");
    (message.replace('\n', ", "), remedy.into(), false)
}
