//! The words on a panel: its name and size as large as they fit, turned or over more lines where that helps; where
//! nothing readable fits, a key letter, which the list under the drawing explains.

use crate::documents::font::{self, Weight};
use crate::documents::frame::{Anchor, Field, Frame, Spot, Text};

/// Largest and smallest size of a label.
const LARGEST: f64 = 4.2;
const SMALLEST: f64 = 1.9;
/// Lines that fit at this size are not broken to make them larger.
const READABLE: f64 = 2.8;
/// From one base line to the next, in sizes.
const LEADING: f64 = 1.2;

/// Writes the first of `choices` (each some lines, the first one bold) that fits in the field at a readable size;
/// returns its number, or `None` where none fits.
pub(in crate::documents) fn label(frame: &mut Frame, field: Field, choices: &[Vec<String>]) -> Option<usize> {
    let inside = field.inside(0.8);
    for (at, lines) in choices.iter().enumerate() {
        let (level, upward) = (set(lines, inside.width, inside.height), set(lines, inside.height, inside.width));
        // Words are turned only where that makes them clearly larger.
        let turned = upward.size > level.size + 0.3 || level.size < SMALLEST;
        let set = if turned { upward } else { level };
        if set.size >= SMALLEST {
            write(frame, inside, set, turned);
            return Some(at);
        }
    }
    None
}

/// Lines as they are written: one size, each with its weight.
struct Set {
    size: f64,
    lines: Vec<(String, Weight)>,
}

/// The lines as large as they fit in the room, broken between words where that makes small ones clearly larger.
fn set(lines: &[String], width: f64, height: f64) -> Set {
    let whole = |(at, line): (usize, &String)| (line.clone(), weight(at));
    let plain = Set { size: fitting(lines, width, height), lines: lines.iter().enumerate().map(whole).collect() };
    if plain.size >= READABLE {
        return plain;
    }
    let mut size = LARGEST;
    while size > SMALLEST.max(plain.size + 0.3) {
        if let Some(lines) = broken(lines, size, width, height) {
            return Set { size, lines };
        }
        size -= 0.1;
    }
    plain
}

/// The lines broken between words at this size; `None` where they do not fit.
fn broken(lines: &[String], size: f64, width: f64, height: f64) -> Option<Vec<(String, Weight)>> {
    if lines.iter().any(|line| font::longest_word(line, size, Weight::Bold) > width) {
        return None;
    }
    let parts = |(at, line): (usize, &String)| {
        let lines = font::wrap(line, width, size, Weight::Bold);
        lines.into_iter().map(|part| (part, weight(at))).collect::<Vec<_>>()
    };
    let parts: Vec<_> = lines.iter().enumerate().flat_map(parts).collect();
    (crate::documents::count(parts.len()) * LEADING * size <= height).then_some(parts)
}

fn weight(line: usize) -> Weight {
    if line == 0 { Weight::Bold } else { Weight::Regular }
}

/// The largest size at which the lines fit in the room.
fn fitting(lines: &[String], width: f64, height: f64) -> f64 {
    let by_height = height / (LEADING * crate::documents::count(lines.len()));
    let size = LARGEST.min(by_height);
    lines.iter().map(|line| font::size_within(line, width, size, Weight::Bold)).fold(size, f64::min)
}

fn write(frame: &mut Frame, field: Field, set: Set, upward: bool) {
    let (middle, size) = (field.middle(), set.size);
    let first = -0.5 * LEADING * crate::documents::count(set.lines.len()) * size + 0.95 * size;
    for (at, (text, weight)) in set.lines.into_iter().enumerate() {
        let down = first + LEADING * crate::documents::count(at) * size;
        let spot = if upward { Spot::new(middle.x + down, middle.y) } else { Spot::new(middle.x, middle.y + down) };
        frame.text(Text { at: spot, text, size, weight, anchor: Anchor::Middle, upward });
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

    #[test]
    fn a_long_name_is_broken_between_words_rather_than_written_small() {
        let mut frame = Frame { width: 100.0, height: 100.0, marks: Vec::new() };
        let field = Field::new(10.0, 10.0, 30.0, 25.0);
        label(&mut frame, field, &[vec!["the old boathouse seen from the breakwater".into(), "16 x 20".into()]]);
        let texts: Vec<&Text> =
            frame.marks.iter().filter_map(|mark| if let Mark::Text(text) = mark { Some(text) } else { None }).collect();
        assert!(texts.len() > 2, "{texts:?}");
        for text in texts {
            assert!(text.size >= 2.7 && font::width(&text.text, text.size, text.weight) <= 28.4 + 1e-9, "{text:?}");
            assert_eq!(text.weight == Weight::Regular, text.text == "16 x 20");
        }
    }
}
