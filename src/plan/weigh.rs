//! Weights from density and thickness, where both are known.

use crate::data::Sheet;
use crate::length::{Length, Unit};

/// Kilograms in a pound, exactly (NIST SP 811, appendix B).
pub(super) const KG_PER_POUND: f64 = 0.453_592_37;

/// Kilograms of a rectangle of this sheet kind.
pub(super) fn weight(sheet: &Sheet, width: Length, length: Length) -> Option<f64> {
    let metres_thick = sheet.thickness?.to_mm() / 1000.0;
    Some((width * length).to_square_metres() * metres_thick * sheet.density?)
}

/// A weight for a sentence: whole pounds in an inch job, else whole kilograms.
pub(super) fn say(kilograms: f64, units: Unit) -> String {
    match units {
        Unit::In => format!("{:.0} lb", kilograms / KG_PER_POUND),
        Unit::Mm | Unit::Cm => format!("{kilograms:.0} kg"),
    }
}
