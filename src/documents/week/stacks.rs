//! Stacks seen from above on a board or the base of a box.

use super::roll::inscribe;
use crate::documents::frame::{Field, Frame, Pen};
use crate::length::Length;
use crate::plan::week::Spot;

/// Longest side of a drawing in millimetres.
const LONGEST: f64 = 80.0;

/// A board of this length and width with stacks on it, each with its lines of text.
pub(super) fn from_above(length: Length, width: Length, stacks: &[(Spot, Vec<String>)]) -> Frame {
    let scale = LONGEST / length.to_mm().max(width.to_mm());
    let (wide, high) = (length.to_mm() * scale, width.to_mm() * scale);
    let mut frame = Frame::new(wide + 2.0, high + 2.0);
    let whole = Field::new(1.0, 1.0, wide, high);
    frame.hatch(whole, 2.4);
    for (spot, lines) in stacks {
        let field = Field::new(
            1.0 + spot.along.to_mm() * scale,
            1.0 + spot.across.to_mm() * scale,
            spot.length.to_mm() * scale,
            spot.width.to_mm() * scale,
        );
        frame.clear(field);
        frame.outline(Pen::Thin, field);
        inscribe(&mut frame, field, lines);
    }
    frame.outline(Pen::Thick, whole);
    frame
}
