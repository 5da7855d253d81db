//! How raw text is read: [`Notes`] gathers faults and assumptions, [`Section`] walks a table of the job file and
//! [`Row`] a line of a list, both through the same [`Fields`], so that a panel is read alike from either.
//!
//! A new section of the job file takes three steps: a file in `data` with `pub(crate) fn read(section: &mut Section) ->
//! Option<Its type>` that asks for each key and ends with `section.end()`; a field of that type in `Job`; and a line in
//! `read.rs`: `root.section("name")` where defaults hold without it, `root.optional("name")` where it may be left out
//! altogether, `root.each("name")` for `[[name]]`. A key that is asked for is known; all others are refused.

mod document;
mod fields;
mod header;
mod notes;
mod row;
mod section;
mod table;
mod values;

pub(crate) use document::Document;
pub(crate) use fields::Fields;
pub(crate) use notes::{Notes, nearest};
pub(crate) use row::Row;
pub(crate) use section::Section;
pub(crate) use table::Table;
pub(crate) use values::{KG_PER_POUND, MOST, RICHEST, SQUARE_FOOT, Wrong, length, money, size};
