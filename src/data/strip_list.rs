//! Strips and offcuts on hand as a CSV list: the offcut rack, and what the yard really cut.

use super::{Fault, File, Sheet, StripOnHand};
use crate::length::Unit;

/// Reads a list of strips: `name` (or letter), `width`, `length`, `count` (default 1), `sheet`, `grain` (`along` or
/// `across`), columns in any order; bare numbers are in `units`, sheets are known by the names of `sheets`.
///
/// # Errors
/// Every fault found in the list.
pub fn read_strips(_list: &File, _units: Unit, _sheets: &[Sheet]) -> Result<Vec<StripOnHand>, Vec<Fault>> {
    Err(vec![Fault::anywhere("strip lists are not read yet", "")])
}

/// Writes a list of strips as CSV text that [`read_strips`] reads back to the same strips.
pub fn write_strips(_strips: &[StripOnHand], _units: Unit, _sheets: &[Sheet]) -> String {
    String::new()
}
