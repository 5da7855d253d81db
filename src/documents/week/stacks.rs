//! Stacks seen from above on a board or the base of a box.

use super::names::Names;
use crate::documents::frame::{Field, Frame, Pen};
use crate::length::Length;
use crate::plan::week::Spot;

/// Longest side of a drawing in millimetres.
const LONGEST: f64 = 80.0;

/// A stack: its panels from the bottom with how many of each, and how high it is, in words.
pub(super) struct Stack {
    pub(super) spot: Spot,
    pub(super) layers: Vec<(usize, u32)>,
    pub(super) high: Option<String>,
}

/// A board of this length and width with stacks on it.
pub(super) fn from_above(names: &mut Names, length: Length, width: Length, stacks: &[Stack]) -> Frame {
    let scale = LONGEST / length.to_mm().max(width.to_mm());
    let (wide, high) = (length.to_mm() * scale, width.to_mm() * scale);
    let mut frame = Frame::new(wide + 2.0, high + 2.0);
    let whole = Field::new(1.0, 1.0, wide, high);
    frame.hatch(whole, 2.4);
    for stack in stacks {
        let spot = &stack.spot;
        let field = Field::new(
            1.0 + spot.along.to_mm() * scale,
            1.0 + spot.across.to_mm() * scale,
            spot.length.to_mm() * scale,
            spot.width.to_mm() * scale,
        );
        frame.clear(field);
        frame.outline(Pen::Thin, field);
        let panels: Vec<usize> = stack.layers.iter().map(|layer| layer.0).collect();
        names.write(&mut frame, field, &panels, &|called| {
            let layers = stack.layers.iter().map(|(panel, count)| format!("{count} of {}", called(*panel)));
            layers.chain(stack.high.clone()).collect()
        });
    }
    frame.outline(Pen::Thick, whole);
    frame
}
