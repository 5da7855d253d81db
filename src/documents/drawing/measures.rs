//! The measures of a drawn sheet: letters and widths of its strips, its whole extent, the edge that is measured from.

use super::place::{extents, lying};
use super::sheet::Drawing;
use crate::documents::font::{self, Weight};
use crate::documents::frame::{Anchor, Dimension, Field, Spot, Text};
use crate::length::Length;
use crate::plan::Board;

impl Drawing<'_> {
    /// Letters and widths of a board's strips, and the width left over, beside the first board or past the second.
    pub(super) fn widths(&mut self, board: &Board, across: Length, second: bool) {
        let mut stretches: Vec<(Length, Length, &str)> = Vec::new();
        for rip in &board.rips {
            stretches.push((rip.across, rip.across + rip.width, &self.plan.strips[rip.strip].letter));
        }
        if board.fall_off.is_positive() {
            stretches.push((across - board.fall_off, across, ""));
        }
        for (from, to, letter) in stretches {
            let field = self.place.field((board.start, board.start + board.length), (from, to));
            let width = (to - from).show(self.plan.units);
            if second {
                self.far_strip(field, letter, &width);
            } else {
                self.letter(field, letter);
                self.width(field, width);
            }
        }
    }

    /// A strip's letter, before its first end.
    fn letter(&mut self, field: Field, letter: &str) {
        let room = if self.place.level { field.height } else { field.width };
        let size = 5.0_f64.min(room);
        let at = if self.place.level {
            Spot::new(field.x - 2.7, field.middle().y + 0.36 * size)
        } else {
            Spot::new(field.middle().x, field.y - 2.7 + 0.36 * size)
        };
        self.words(at, letter, size, false);
    }

    /// Letter and width of a strip of the second board, past the sheet's far end; the letter alone where room is short.
    fn far_strip(&mut self, field: Field, letter: &str, width: &str) {
        if letter.is_empty() {
            return;
        }
        let level = self.place.level;
        let (room, middle) = if level { (field.height, field.middle().y) } else { (field.width, field.middle().x) };
        let both = format!("{letter}: {width}");
        let fits = font::width(&both, 3.6, Weight::Bold) <= room;
        let (text, size) = if fits { (both.as_str(), 3.6) } else { (letter, 5.0_f64.min(room)) };
        let at = match (level, fits) {
            (true, true) => Spot::new(field.right() + 4.2, middle),
            (true, false) => Spot::new(field.right() + 3.0, middle + 0.36 * size),
            (false, _) => Spot::new(middle, field.bottom() + 3.0 + 0.36 * size),
        };
        self.words(at, text, size, level && fits);
    }

    fn words(&mut self, at: Spot, text: &str, size: f64, upward: bool) {
        let text = Text { at, text: text.into(), size, weight: Weight::Bold, anchor: Anchor::Middle, upward };
        if !text.text.is_empty() {
            self.frame.text(text);
        }
    }

    fn width(&mut self, field: Field, text: String) {
        let level = self.place.level;
        let (from, to) = if level { (field.y, field.bottom()) } else { (field.x, field.right()) };
        let outline = if level { self.place.x } else { self.place.y };
        let line = outline - 7.6;
        self.frame.dimension(&Dimension { from, to, outline, line, vertical: level, text, size: 3.2 });
    }

    /// The name of the edge the rips are measured from.
    pub(super) fn reference(&mut self) {
        let (x, y, level) = (self.place.x, self.place.y, self.place.level);
        let (at, upward) = if level {
            (Spot::new(x, y - 2.2), false)
        } else {
            (Spot::new(x - 2.2, y + lying(self.group).1 * self.place.scale), true)
        };
        let words = "reference edge: rips are measured from here".to_string();
        self.frame.text(Text { at, text: words, size: 3.2, weight: Weight::Bold, upward, ..Text::default() });
        let (along, across) = extents(self.group);
        let edge = self.place.field((Length::ZERO, along), (Length::ZERO, across));
        let bar = if level {
            Field::new(edge.x, edge.y - 1.2, edge.width, 1.2)
        } else {
            Field::new(edge.x - 1.2, edge.y, 1.2, edge.height)
        };
        self.frame.blacken(bar);
    }

    /// The whole extent along the lower edge, and the pieces of a breakdown crosscut.
    pub(super) fn overall(&mut self, along: Length, across: Length) {
        let (wide, high) = if self.place.level { (along, across) } else { (across, along) };
        let outline = self.place.y + high.to_mm() * self.place.scale;
        let two = self.group.boards.len() > 1;
        let first = outline + if two && !self.place.level { 9.0 } else { 5.0 };
        if two {
            for board in &self.group.boards {
                let (from, to) = (board.start, board.start + board.length);
                let line = if self.place.level { (outline, first) } else { (self.place.x - 1.2, self.place.x - 7.6) };
                self.measure((from, to), line, !self.place.level);
            }
        }
        let line = if two && self.place.level { first + 5.0 } else { first };
        self.measure((Length::ZERO, wide), (outline, line), false);
    }

    /// A dimension of a stretch of the sheet: where its outline is, where its line.
    fn measure(&mut self, (from, to): (Length, Length), (outline, line): (f64, f64), vertical: bool) {
        let start = if vertical { self.place.y } else { self.place.x };
        let drawn = |length: Length| start + length.to_mm() * self.place.scale;
        let text = (to - from).show(self.plan.units);
        let (from, to) = (drawn(from), drawn(to));
        self.frame.dimension(&Dimension { from, to, outline, line, vertical, text, size: 3.2 });
    }
}
