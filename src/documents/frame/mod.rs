//! A neutral page in millimetres, from which every printed form is made: lines, rectangles, hatching, filled shapes
//! and text. Y runs downwards from the top left corner. Two line weights, 2:1, as ASME Y14.2 asks (thin at least
//! 0.3 mm, thick at least 0.6 mm); black on white only.

mod dimension;
mod hatch;

pub use dimension::Dimension;

use super::font::Weight;

/// A page or a drawing.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Frame {
    /// Width in millimetres.
    pub width: f64,
    /// Height in millimetres.
    pub height: f64,
    /// What is drawn, later marks over earlier ones.
    pub marks: Vec<Mark>,
}

/// A point in millimetres.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Spot {
    /// To the right.
    pub x: f64,
    /// Downwards.
    pub y: f64,
}

/// An upright rectangle in millimetres.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Field {
    /// Left edge.
    pub x: f64,
    /// Upper edge.
    pub y: f64,
    /// Extent to the right.
    pub width: f64,
    /// Extent downwards.
    pub height: f64,
}

/// A kind of line.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Pen {
    /// 0.3 mm: dimensions, hatching, rules of tables.
    Thin,
    /// 0.6 mm: outlines.
    Thick,
    /// 0.3 mm in dashes: edges that are not cut.
    Dashed,
}

/// Where a text stands to its spot.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Anchor {
    /// It begins there.
    #[default]
    Start,
    /// It is centred on it.
    Middle,
    /// It ends there.
    End,
}

/// A run of text on one line.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Text {
    /// Where its base line is.
    pub at: Spot,
    /// What it says.
    pub text: String,
    /// Height of the em in millimetres.
    pub size: f64,
    /// How heavy.
    pub weight: Weight,
    /// Which part of it is at the spot.
    pub anchor: Anchor,
    /// True where it reads upwards, from the right side of the page.
    pub upward: bool,
}

/// Something drawn.
#[derive(Clone, Debug, PartialEq)]
pub enum Mark {
    /// Straight lines drawn with one pen.
    Lines(Pen, Vec<(Spot, Spot)>),
    /// The outline of a rectangle.
    Outline(Pen, Field),
    /// A filled rectangle: black, or else white.
    Filled(Field, bool),
    /// A black shape.
    Shape(Vec<Spot>),
    /// Text.
    Text(Text),
}

impl Pen {
    /// Its width in millimetres.
    pub const fn width(self) -> f64 {
        match self {
            Pen::Thin | Pen::Dashed => 0.3,
            Pen::Thick => 0.6,
        }
    }
}

impl Spot {
    /// A point.
    pub const fn new(x: f64, y: f64) -> Spot {
        Spot { x, y }
    }

    fn placed(self, x: f64, y: f64, scale: f64) -> Spot {
        Spot::new(x + self.x * scale, y + self.y * scale)
    }
}

impl Field {
    /// A rectangle from its upper left corner.
    pub const fn new(x: f64, y: f64, width: f64, height: f64) -> Field {
        Field { x, y, width, height }
    }

    /// Right edge.
    pub fn right(self) -> f64 {
        self.x + self.width
    }

    /// Lower edge.
    pub fn bottom(self) -> f64 {
        self.y + self.height
    }

    /// Its middle.
    pub fn middle(self) -> Spot {
        Spot::new(self.x + self.width / 2.0, self.y + self.height / 2.0)
    }

    /// The rectangle that is smaller by `edge` on each side.
    #[must_use]
    pub fn inside(self, edge: f64) -> Field {
        let (width, height) = ((self.width - 2.0 * edge).max(0.0), (self.height - 2.0 * edge).max(0.0));
        Field::new(self.x + edge, self.y + edge, width, height)
    }

    fn placed(self, x: f64, y: f64, scale: f64) -> Field {
        Field::new(x + self.x * scale, y + self.y * scale, self.width * scale, self.height * scale)
    }
}

impl Mark {
    /// The mark moved and scaled; pens keep their widths.
    fn placed(&self, x: f64, y: f64, scale: f64) -> Mark {
        match self {
            Mark::Lines(pen, lines) => {
                let moved = lines.iter().map(|(a, b)| (a.placed(x, y, scale), b.placed(x, y, scale)));
                Mark::Lines(*pen, moved.collect())
            }
            Mark::Outline(pen, field) => Mark::Outline(*pen, field.placed(x, y, scale)),
            Mark::Filled(field, black) => Mark::Filled(field.placed(x, y, scale), *black),
            Mark::Shape(corners) => Mark::Shape(corners.iter().map(|spot| spot.placed(x, y, scale)).collect()),
            Mark::Text(text) => {
                Mark::Text(Text { at: text.at.placed(x, y, scale), size: text.size * scale, ..text.clone() })
            }
        }
    }
}

impl Frame {
    /// An empty page of this size.
    pub const fn new(width: f64, height: f64) -> Frame {
        Frame { width, height, marks: Vec::new() }
    }

    /// A straight line.
    pub fn line(&mut self, pen: Pen, from: Spot, to: Spot) {
        self.marks.push(Mark::Lines(pen, vec![(from, to)]));
    }

    /// The outline of a rectangle.
    pub fn outline(&mut self, pen: Pen, field: Field) {
        self.marks.push(Mark::Outline(pen, field));
    }

    /// A black rectangle.
    pub fn blacken(&mut self, field: Field) {
        self.marks.push(Mark::Filled(field, true));
    }

    /// A white rectangle, to keep text clear of what is under it.
    pub fn clear(&mut self, field: Field) {
        self.marks.push(Mark::Filled(field, false));
    }

    /// Text.
    pub fn text(&mut self, text: Text) {
        self.marks.push(Mark::Text(text));
    }

    /// Text that begins at a spot on its base line.
    pub fn write(&mut self, at: Spot, text: impl Into<String>, size: f64, weight: Weight) {
        self.text(Text { at, text: text.into(), size, weight, ..Text::default() });
    }

    /// Another frame's marks, its corner at (`x`, `y`), at `scale` times their size; pens keep their widths.
    pub fn place(&mut self, frame: &Frame, x: f64, y: f64, scale: f64) {
        self.marks.extend(frame.marks.iter().map(|mark| mark.placed(x, y, scale)));
    }
}
