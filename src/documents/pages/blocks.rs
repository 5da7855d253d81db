//! Each kind of block as slabs.

use super::slab::Slab;
use super::table;
use crate::documents::blocks::{Block, Caution, DEFERS, Warning};
use crate::documents::font::{self, Weight};
use crate::documents::frame::{Field, Frame, Pen, Spot};

/// Size of running text.
pub(super) const BODY: f64 = 4.0;
/// Size of sources and captions.
pub(super) const SMALL: f64 = 3.2;
const HEADING: f64 = 5.2;
const TITLE: f64 = 8.0;
const FIGURE: f64 = 13.0;
/// From one base line to the next, in sizes.
const LEADING: f64 = 1.3;

/// The head of a paper.
pub(super) fn title(text: &str, width: f64) -> Slab {
    Slab::keeping(lines(text, width, TITLE, Weight::Bold, 3.0))
}

/// A block as slabs for a column of this width and pages of this height.
pub(super) fn slabs(block: &Block, width: f64, height: f64) -> Vec<Slab> {
    match block {
        Block::Heading(text) => vec![Slab::keeping(below(2.5, &lines(text, width, HEADING, Weight::Bold, 1.5)))],
        Block::Text(text) => vec![Slab::of(lines(text, width, BODY, Weight::Regular, 2.0))],
        Block::Figure { figure, text } => vec![Slab::keeping(big(figure, text, width))],
        Block::List { steps, lines } => list(*steps, lines, width),
        Block::Table(content) => table::slabs(content, width),
        Block::Drawing(frame, caption) => vec![Slab::of(drawing(frame, caption, width, height))],
        Block::Caution(content) => vec![Slab::of(caution(content, width))],
    }
}

/// Wrapped text, with a gap below.
pub(super) fn lines(text: &str, width: f64, size: f64, weight: Weight, gap: f64) -> Frame {
    let mut frame = Frame::new(width, gap);
    for line in font::wrap(text, width, size, weight) {
        let base = frame.height - gap + size;
        frame.write(Spot::new(0.0, base), line, size, weight);
        frame.height += size * LEADING;
    }
    frame
}

/// The frame with a gap above it.
fn below(gap: f64, frame: &Frame) -> Frame {
    let mut moved = Frame::new(frame.width, frame.height + gap);
    moved.place(frame, 0.0, gap, 1.0);
    moved
}

fn big(figure: &str, text: &str, width: f64) -> Frame {
    let size = font::size_within(figure, width, FIGURE, Weight::Bold);
    let mut frame = Frame::new(width, FIGURE + 4.0);
    frame.line(Pen::Thick, Spot::new(0.0, 1.5), Spot::new(width, 1.5));
    frame.write(Spot::new(0.0, FIGURE + 1.0), figure, size, Weight::Bold);
    let used = font::width(figure, size, Weight::Bold) + 5.0;
    let beside = lines(text, (width - used).max(30.0), BODY, Weight::Regular, 0.0);
    if used + 30.0 < width {
        frame.place(&beside, used, (FIGURE + 2.0 - beside.height).max(2.5), 1.0);
    } else {
        frame.place(&lines(text, width, BODY, Weight::Regular, 2.0), 0.0, FIGURE + 4.0, 1.0);
        frame.height += beside.height + 2.0;
    }
    frame
}

fn list(steps: bool, points: &[String], width: f64) -> Vec<Slab> {
    let slab = |(at, point): (usize, &String)| {
        let mark = if steps { format!("{}.", at + 1) } else { "\u{2022}".to_string() };
        let body = lines(point, width - 8.0, BODY, Weight::Regular, if at + 1 == points.len() { 2.5 } else { 1.0 });
        let mut frame = Frame::new(width, body.height);
        frame.write(Spot::new(1.0, BODY), mark, BODY, Weight::Bold);
        frame.place(&body, 8.0, 0.0, 1.0);
        Slab::of(frame)
    };
    let mut slabs: Vec<Slab> = points.iter().enumerate().map(slab).collect();
    Slab::bind_rows(&mut slabs);
    slabs
}

/// A drawing in its true size, or smaller where the page is.
fn drawing(frame: &Frame, caption: &str, width: f64, height: f64) -> Frame {
    let under =
        if caption.is_empty() { Frame::new(width, 2.0) } else { lines(caption, width, SMALL, Weight::Regular, 2.0) };
    let scale = (width / frame.width).min((height - under.height) / frame.height).min(1.0);
    let mut placed = Frame::new(width, frame.height * scale + under.height);
    placed.place(frame, 0.0, 0.0, scale);
    placed.place(&under, 0.0, frame.height * scale, 1.0);
    placed
}

fn caution(content: &Caution, width: f64) -> Frame {
    let edge = 3.0;
    let room = width - 2.0 * edge;
    let mut frame = Frame::new(width, edge);
    let mut add = |part: &Frame| {
        let y = frame.height;
        frame.place(part, edge, y, 1.0);
        frame.height += part.height;
    };
    add(&lines(&format!("CAUTION: {}", content.title), room, BODY, Weight::Bold, 1.0));
    for Warning { text, source } in &content.warnings {
        add(&lines(text, room, BODY, Weight::Regular, 0.0));
        add(&lines(&format!("Source: {source}"), room, SMALL, Weight::Regular, 1.0));
    }
    add(&lines(DEFERS, room, SMALL, Weight::Bold, 0.0));
    frame.outline(Pen::Thick, Field::new(0.3, 0.3, width - 0.6, frame.height + edge - 1.3));
    frame.height += edge + 2.0;
    frame
}
