//! Frames as pages of a PDF, the fonts embedded and cut down to the characters used; text can be searched and copied.

use super::font::{self, Weight};
use super::frame::{Anchor, Field, Frame, Mark, Pen, Spot, Text};
use jiff::civil::Date;
use krilla::Document;
use krilla::color::rgb;
use krilla::geom::{Path, PathBuilder, Point, Rect, Transform};
use krilla::metadata::{DateTime, Metadata};
use krilla::num::NormalizedF32;
use krilla::page::PageSettings;
use krilla::paint::{Fill, FillRule, Stroke, StrokeDash};
use krilla::surface::Surface;
use krilla::text::{Font, GlyphId, KrillaGlyph};

const POINTS_PER_MM: f32 = 72.0 / 25.4;

/// The two fonts, opened for one document.
struct Fonts {
    regular: Font,
    bold: Font,
}

/// A PDF of these pages; the date is written into it where one is given.
pub fn file(title: &str, pages: &[Frame], date: Option<Date>) -> Vec<u8> {
    let open = |weight| Font::new(font::file(weight).to_vec().into(), 0).expect("the built-in font is a font");
    let fonts = Fonts { regular: open(Weight::Regular), bold: open(Weight::Bold) };
    let mut document = Document::new();
    document.set_metadata(metadata(title, date));
    for frame in pages {
        add_page(&mut document, frame, &fonts);
    }
    document.finish().expect("a page of lines and text is always a valid PDF")
}

fn metadata(title: &str, date: Option<Date>) -> Metadata {
    let metadata = Metadata::new().title(title.to_string()).creator("yardslip".to_string()).language("en".to_string());
    let Some(date) = date else { return metadata };
    let year = u16::try_from(date.year()).unwrap_or_default();
    let (month, day) = (date.month().unsigned_abs(), date.day().unsigned_abs());
    metadata.creation_date(DateTime::new(year).month(month).day(day))
}

fn add_page(document: &mut Document, frame: &Frame, fonts: &Fonts) {
    let (width, height) = (single(frame.width) * POINTS_PER_MM, single(frame.height) * POINTS_PER_MM);
    let settings = PageSettings::from_wh(width, height).expect("a page has a size");
    let mut page = document.start_page_with(settings);
    let mut surface = page.surface();
    surface.push_transform(&Transform::from_scale(POINTS_PER_MM, POINTS_PER_MM));
    for mark in &frame.marks {
        draw(&mut surface, mark, fonts);
    }
    surface.pop();
    surface.finish();
    page.finish();
}

fn draw(surface: &mut Surface, mark: &Mark, fonts: &Fonts) {
    match mark {
        Mark::Lines(pen, lines) => stroke(surface, *pen, lines_path(lines)),
        Mark::Outline(pen, field) => stroke(surface, *pen, rectangle(*field)),
        Mark::Filled(field, black) => fill(surface, *black, rectangle(*field)),
        Mark::Shape(corners) => fill(surface, true, shape(corners)),
        Mark::Text(text) => write(surface, text, fonts),
    }
}

fn stroke(surface: &mut Surface, pen: Pen, path: Option<Path>) {
    let Some(path) = path else { return };
    let dash = (pen == Pen::Dashed).then(|| StrokeDash { array: vec![2.0, 1.0], offset: 0.0 });
    surface.set_fill(None);
    surface.set_stroke(Some(Stroke { width: single(pen.width()), dash, ..Stroke::default() }));
    surface.draw_path(&path);
}

fn fill(surface: &mut Surface, black: bool, path: Option<Path>) {
    let Some(path) = path else { return };
    surface.set_stroke(None);
    surface.set_fill(Some(paint(black)));
    surface.draw_path(&path);
}

fn paint(black: bool) -> Fill {
    let colour = if black { rgb::Color::black() } else { rgb::Color::white() };
    Fill { paint: colour.into(), opacity: NormalizedF32::ONE, rule: FillRule::default() }
}

fn lines_path(lines: &[(Spot, Spot)]) -> Option<Path> {
    let mut path = PathBuilder::new();
    for (from, to) in lines {
        path.move_to(single(from.x), single(from.y));
        path.line_to(single(to.x), single(to.y));
    }
    path.finish()
}

fn rectangle(field: Field) -> Option<Path> {
    let mut path = PathBuilder::new();
    let (width, height) = (single(field.width), single(field.height));
    path.push_rect(Rect::from_xywh(single(field.x), single(field.y), width, height)?);
    path.finish()
}

fn shape(corners: &[Spot]) -> Option<Path> {
    let mut path = PathBuilder::new();
    let (first, rest) = corners.split_first()?;
    path.move_to(single(first.x), single(first.y));
    for spot in rest {
        path.line_to(single(spot.x), single(spot.y));
    }
    path.close();
    path.finish()
}

fn write(surface: &mut Surface, text: &Text, fonts: &Fonts) {
    let glyphs = glyphs(text);
    let wide = font::width(&text.text, text.size, text.weight);
    let back = match text.anchor {
        Anchor::Start => 0.0,
        Anchor::Middle => wide / 2.0,
        Anchor::End => wide,
    };
    let turn = if text.upward { -90.0 } else { 0.0 };
    let (x, y) = (single(text.at.x), single(text.at.y));
    surface.push_transform(&Transform::from_rotate_at(turn, x, y));
    surface.set_stroke(None);
    surface.set_fill(Some(paint(true)));
    let face = if text.weight == Weight::Bold { &fonts.bold } else { &fonts.regular };
    let start = Point::from_xy(single(text.at.x - back), y);
    surface.draw_glyphs(start, &glyphs, face.clone(), &text.text, single(text.size), false);
    surface.pop();
}

/// A glyph for each character, side by side.
fn glyphs(text: &Text) -> Vec<KrillaGlyph> {
    let glyph = |(start, c): (usize, char)| {
        let (id, advance) = font::glyph(c, text.weight);
        KrillaGlyph::new(GlyphId::new(id), advance, 0.0, 0.0, 0.0, start..start + c.len_utf8(), None)
    };
    text.text.char_indices().map(glyph).collect()
}

/// A length for the PDF, which holds single precision.
#[allow(clippy::cast_possible_truncation)] // a page is a few hundred millimetres
fn single(length: f64) -> f32 {
    length as f32
}
