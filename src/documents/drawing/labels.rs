//! The words on a panel: its name and size as large as they fit, turned where that helps; where nothing readable
//! fits, a key letter, which the list under the drawing explains.

use crate::documents::font::{self, Weight};
use crate::documents::frame::{Anchor, Field, Frame, Spot, Text};

/// Largest and smallest size of a label.
const LARGEST: f64 = 4.2;
const SMALLEST: f64 = 1.9;

/// Writes the first of `choices` (each some lines, the first one bold) that fits in the field at a readable size; returns
/// its number, or `None` where none fits.
pub(in crate::documents) fn label(frame: &mut Frame, field: Field, choices: &[Vec<String>]) -> Option<usize> {
    let inside = field.inside(0.8);
    for (at, lines) in choices.iter().enumerate() {
        let (level, upward) =
            (fitting(lines, inside.width, inside.height), fitting(lines, inside.height, inside.width));
        // Words are turned only where that makes them clearly larger.
        let turned = upward > level + 0.3 || level < SMALLEST;
        let size = if turned { upward } else { level };
        if size >= SMALLEST {
            write(frame, inside, lines, size, turned);
            return Some(at);
        }
    }
    None
}

/// The largest size at which the lines fit in the room.
fn fitting(lines: &[String], width: f64, height: f64) -> f64 {
    let by_height = height / (1.2 * crate::documents::count(lines.len()));
    let size = LARGEST.min(by_height);
    lines.iter().map(|line| font::size_within(line, width, size, Weight::Bold)).fold(size, f64::min)
}

fn write(frame: &mut Frame, field: Field, lines: &[String], size: f64, upward: bool) {
    let middle = field.middle();
    let first = -0.6 * crate::documents::count(lines.len()) * size + 0.95 * size;
    for (at, line) in lines.iter().enumerate() {
        let down = first + 1.2 * crate::documents::count(at) * size;
        let at_spot = if upward { Spot::new(middle.x + down, middle.y) } else { Spot::new(middle.x, middle.y + down) };
        let weight = if at == 0 { Weight::Bold } else { Weight::Regular };
        let text = Text { at: at_spot, text: line.clone(), size, weight, anchor: Anchor::Middle, upward };
        frame.text(text);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::documents::frame::Mark;

    #[test]
    fn words_that_fit_a_little_larger_when_turned_stay_level_and_inside() {
        // 12 signs are about 5.5 em wide: 23.1 mm at the largest size, and the field has 21.7 mm inside its margins.
        let mut frame = Frame { width: 100.0, height: 100.0, marks: Vec::new() };
        let field = Field::new(10.0, 10.0, 23.3, 29.6);
        label(&mut frame, field, &[vec!["gulls; small".into()]]);
        let Some(Mark::Text(text)) = frame.marks.first() else { panic!("nothing is written") };
        assert!(!text.upward);
        let wide = font::width(&text.text, text.size, Weight::Bold);
        assert!(wide <= 21.7 + 1e-9 && wide > 21.0, "{wide} mm");
    }
}
