//! Hatching: thin lines at 45 degrees, cut off exactly at the edges of a rectangle.

use super::{Field, Frame, Mark, Pen, Spot};

impl Frame {
    /// Hatches a rectangle with thin lines that far apart, measured along its edges.
    pub fn hatch(&mut self, field: Field, apart: f64) {
        let mut lines = Vec::new();
        let mut foot = apart;
        // Each line rises to the right from `foot` along the upper and left edges taken as one.
        while foot < field.width + field.height {
            let (from, to) = rising(field, foot);
            lines.push((from, to));
            foot += apart;
        }
        if !lines.is_empty() {
            self.marks.push(Mark::Lines(Pen::Thin, lines));
        }
    }
}

/// The line x + y = `sum` (from the corner of the field) inside the field.
fn rising(field: Field, sum: f64) -> (Spot, Spot) {
    let low = if sum <= field.height { (0.0, sum) } else { (sum - field.height, field.height) };
    let high = if sum <= field.width { (sum, 0.0) } else { (field.width, sum - field.width) };
    (Spot::new(field.x + low.0, field.y + low.1), Spot::new(field.x + high.0, field.y + high.1))
}
