//! The printed typeface: Liberation Sans Regular and Bold (SIL Open Font License 1.1, `assets/fonts/OFL.txt`), built
//! into the program so that text measures the same on every machine. Sizes and widths are in millimetres; a size is
//! the height of the em square, of which a capital letter takes about seven tenths.

use skrifa::charmap::Charmap;
use skrifa::instance::{LocationRef, Size};
use skrifa::metrics::GlyphMetrics;
use skrifa::{FontRef, MetadataProvider};
use std::sync::LazyLock;

/// How heavy the strokes of a text are.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Weight {
    /// For running text.
    #[default]
    Regular,
    /// For what is read first.
    Bold,
}

/// The font family as SVG and HTML name it: the built-in face, then faces of the same widths.
pub const FAMILY: &str = "'Liberation Sans', Arial, Helvetica, sans-serif";

static REGULAR: &[u8] = include_bytes!("../../assets/fonts/LiberationSans-Regular.ttf");
static BOLD: &[u8] = include_bytes!("../../assets/fonts/LiberationSans-Bold.ttf");

/// A face taken apart once: its character map and advances.
struct Face {
    charmap: Charmap<'static>,
    metrics: GlyphMetrics<'static>,
}

static REGULAR_FACE: LazyLock<Face> = LazyLock::new(|| Face::open(REGULAR));
static BOLD_FACE: LazyLock<Face> = LazyLock::new(|| Face::open(BOLD));

impl Face {
    fn open(bytes: &'static [u8]) -> Face {
        let font = FontRef::new(bytes).expect("the built-in font is a font");
        // At one pixel an em, advances are shares of the em.
        let metrics = font.glyph_metrics(Size::new(1.0), LocationRef::default());
        Face { charmap: font.charmap(), metrics }
    }

    fn of(weight: Weight) -> &'static Face {
        match weight {
            Weight::Regular => &REGULAR_FACE,
            Weight::Bold => &BOLD_FACE,
        }
    }
}

/// The font file of a weight, unmodified.
pub fn file(weight: Weight) -> &'static [u8] {
    match weight {
        Weight::Regular => REGULAR,
        Weight::Bold => BOLD,
    }
}

/// The glyph of a character and its advance as a share of the em; glyph 0, an empty box, where the font has none.
pub fn glyph(c: char, weight: Weight) -> (u32, f32) {
    let face = Face::of(weight);
    let id = face.charmap.map(c).unwrap_or_default();
    (id.to_u32(), face.metrics.advance_width(id).unwrap_or(0.5))
}

/// How wide a text of this size is printed.
pub fn width(text: &str, size: f64, weight: Weight) -> f64 {
    text.chars().map(|c| f64::from(glyph(c, weight).1)).sum::<f64>() * size
}

/// The largest size up to `size` at which the text is no wider than `room`.
pub fn size_within(text: &str, room: f64, size: f64, weight: Weight) -> f64 {
    let wide = width(text, size, weight);
    if wide > room { size * room / wide } else { size }
}

/// The text in lines no wider than `room`; a figure stays with its fraction and unit, and a word wider than the room
/// is broken where the room ends.
pub fn wrap(text: &str, room: f64, size: f64, weight: Weight) -> Vec<String> {
    let mut lines = vec![String::new()];
    for word in words(text).into_iter().flat_map(|word| pieces(&word, room, size, weight)) {
        let line = lines.last_mut().expect("there is always a line");
        if line.is_empty() {
            *line = word;
        } else if width(line, size, weight) + width(" ", size, weight) + width(&word, size, weight) <= room {
            line.push(' ');
            line.push_str(&word);
        } else {
            lines.push(word);
        }
    }
    lines
}

/// The widest part of a text that is not broken when there is room.
pub fn longest_word(text: &str, size: f64, weight: Weight) -> f64 {
    words(text).iter().map(|word| width(word, size, weight)).fold(0.0, f64::max)
}

/// The text with spaces that do not break within `11 7/8 in.`, for renderers that wrap on their own.
pub fn bound(text: &str) -> String {
    words(text).iter().map(|word| word.replace(' ', "\u{a0}")).collect::<Vec<_>>().join(" ")
}

/// Words, with `11 7/8 in.`, `12 x 16` and `A × 2` as one.
fn words(text: &str) -> Vec<String> {
    let mut words: Vec<String> = Vec::new();
    for word in text.split_whitespace() {
        match words.last_mut() {
            Some(last) if stays_with(last, word) => {
                last.push(' ');
                last.push_str(word);
            }
            _ => words.push(word.to_string()),
        }
    }
    words
}

/// True for a fraction, a unit or a times sign after a figure, and for the figure after a times sign.
fn stays_with(last: &str, word: &str) -> bool {
    let figure = last.ends_with(|c: char| c.is_ascii_digit());
    let fraction = word.contains('/') && word.starts_with(|c: char| c.is_ascii_digit());
    let unit = ["in", "mm", "cm", "kg", "lb"].iter().any(|unit| word.starts_with(unit) && word.len() <= unit.len() + 2);
    let times = word == "\u{d7}" || (word == "x" && figure);
    let multiplied =
        (last.ends_with(" x") || last.ends_with('\u{d7}')) && word.starts_with(|c: char| c.is_ascii_digit());
    figure && (fraction || unit) || times || multiplied
}

/// A word in parts no wider than the room.
fn pieces(word: &str, room: f64, size: f64, weight: Weight) -> Vec<String> {
    if width(word, size, weight) <= room {
        return vec![word.to_string()];
    }
    let mut parts = vec![String::new()];
    for c in word.chars() {
        let part = parts.last_mut().expect("there is always a part");
        if !part.is_empty() && width(part, size, weight) + width(&c.to_string(), size, weight) > room {
            parts.push(c.to_string());
        } else {
            part.push(c);
        }
    }
    parts
}
