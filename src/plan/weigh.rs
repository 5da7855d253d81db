//! Weights from density and thickness, where both are known.

use crate::data::Sheet;
use crate::length::Length;

/// Kilograms of a rectangle of this sheet kind.
pub(super) fn weight(sheet: &Sheet, width: Length, length: Length) -> Option<f64> {
    let metres_thick = sheet.thickness?.to_mm() / 1000.0;
    Some((width * length).to_square_metres() * metres_thick * sheet.density?)
}
