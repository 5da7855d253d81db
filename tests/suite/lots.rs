//! Lots of finished panels for the tests of the week.

pub(crate) use crate::jobs::len;

use yardslip::length::{Length, Unit};
use yardslip::plan::week::Lot;

/// So many panels of a size in inches, 1/4 in. thick, without canvas.
pub(crate) fn lot(panel: usize, width: &str, height: &str, count: u32) -> Lot {
    let (width, height) = (len(width), len(height));
    let name = format!("{} x {}", width.show(Unit::In), height.show(Unit::In));
    Lot {
        panel,
        name,
        width,
        height,
        count,
        thickness: Some(len("1/4")),
        cloth: Length::ZERO,
        weight: None,
        canvas: None,
    }
}

/// The same with canvas that is so much larger each way.
pub(crate) fn canvassed(panel: usize, width: &str, height: &str, count: u32, more: &str) -> Lot {
    let bare = lot(panel, width, height, count);
    Lot { canvas: Some((bare.width + len(more), bare.height + len(more))), ..bare }
}

/// The same at a weight in kilograms.
pub(crate) fn weighing(lot: Lot, kilograms: f64) -> Lot {
    Lot { weight: Some(kilograms), ..lot }
}
