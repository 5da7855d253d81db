//! Dimension lines as ASME Y14.2 and Y14.5 draw them: thin, between arrowheads three times as long as wide, with
//! extension lines that leave a gap at the outline and run a little past the dimension line.

use super::{Anchor, Field, Frame, Mark, Pen, Spot, Text};
use crate::documents::font::{self, Weight};

const ARROW: f64 = 2.4; // length; its width is a third of it
const PAST: f64 = 1.5;
const GAP: f64 = 0.8;
/// Smallest text that is still read on paper.
const LEAST: f64 = 1.8;

/// A measure between two points of an edge.
#[derive(Clone, Debug, PartialEq)]
pub struct Dimension {
    /// Where the measured stretch begins, along the edge.
    pub from: f64,
    /// Where it ends.
    pub to: f64,
    /// Where the outline is, across the edge.
    pub outline: f64,
    /// Where the dimension line is; above or left of the outline if it is less, else below or right of it.
    pub line: f64,
    /// True for a stretch along a vertical edge, its text reading upwards.
    pub vertical: bool,
    /// The text on the line.
    pub text: String,
    /// Size of the text.
    pub size: f64,
}

impl Frame {
    /// Draws a dimension. Its text breaks the line where there is room between the arrowheads, else it stands outside
    /// the line, smaller if it must; under 1.8 mm it is left out, and `false` comes back so that the caller can say it
    /// elsewhere.
    pub fn dimension(&mut self, dimension: &Dimension) -> bool {
        let d = dimension;
        let side = if d.line < d.outline { -1.0 } else { 1.0 };
        let extension = |along: f64| (d.spot(along, d.outline + side * GAP), d.spot(along, d.line + side * PAST));
        let measure = (d.spot(d.from, d.line), d.spot(d.to, d.line));
        self.marks.push(Mark::Lines(Pen::Thin, vec![extension(d.from), extension(d.to), measure]));
        let length = d.to - d.from;
        if length >= 2.5 * ARROW {
            self.arrowhead(d, d.from, 1.0);
            self.arrowhead(d, d.to, -1.0);
        }
        let size = font::size_within(&d.text, length - 1.0, d.size, Weight::Regular);
        let breaks = font::width(&d.text, d.size, Weight::Regular) + 2.0 * ARROW + 2.4 <= length;
        match (breaks, size < LEAST) {
            (true, _) => self.figure_on(d),
            (false, false) => self.figure_beside(d, size),
            (false, true) => return false,
        }
        true
    }

    /// The text in a gap of the line.
    fn figure_on(&mut self, d: &Dimension) {
        let half = font::width(&d.text, d.size, Weight::Regular) / 2.0 + 0.6;
        let middle = f64::midpoint(d.from, d.to);
        let (a, b) = (d.spot(middle - half, d.line - d.size / 2.0), d.spot(middle + half, d.line + d.size / 2.0));
        self.clear(Field::new(a.x.min(b.x), a.y.min(b.y), (b.x - a.x).abs(), (b.y - a.y).abs()));
        self.words(d, d.line + 0.36 * d.size, d.size);
    }

    /// The text outside the line.
    fn figure_beside(&mut self, d: &Dimension, size: f64) {
        let base = if d.line < d.outline { d.line - 0.7 } else { d.line + 0.7 + 0.72 * size };
        self.words(d, base, size);
    }

    fn words(&mut self, d: &Dimension, base: f64, size: f64) {
        let at = d.spot(f64::midpoint(d.from, d.to), base);
        let text =
            Text { at, text: d.text.clone(), size, anchor: Anchor::Middle, upward: d.vertical, ..Text::default() };
        self.text(text);
    }

    fn arrowhead(&mut self, d: &Dimension, tip: f64, inward: f64) {
        let back = tip + inward * ARROW;
        let half = ARROW / 6.0;
        let corners = vec![d.spot(tip, d.line), d.spot(back, d.line - half), d.spot(back, d.line + half)];
        self.marks.push(Mark::Shape(corners));
    }
}

impl Dimension {
    /// A point from its place along and across the edge.
    fn spot(&self, along: f64, across: f64) -> Spot {
        if self.vertical { Spot::new(across, along) } else { Spot::new(along, across) }
    }
}
