//! Frames as SVG: one drawing to a file, or a drawing inside the HTML packet. Attributes come out sorted and numbers
//! with at most two decimals of a millimetre, so that the same frame gives the same bytes.

use super::font::{FAMILY, Weight};
use super::frame::{Anchor, Field, Frame, Mark, Pen, Spot, Text};
use svg::node::element::{Group, Path, Rectangle, Text as TextNode, Title};
use svg::{Document, Node};

/// A whole SVG file of a frame, in true size; `title` is what it is called.
pub fn file(frame: &Frame, title: &str) -> String {
    let size = |length: f64| format!("{}mm", number(length));
    let document = drawing(frame, title).set("width", size(frame.width)).set("height", size(frame.height));
    format!("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n{document}\n")
}

/// The same for use inside an HTML page, where the style sheet sizes it.
pub fn inline(frame: &Frame, title: &str) -> String {
    let mut document = drawing(frame, title).set("role", "img");
    // Within HTML the name space goes without saying, and a packet without addresses is plainly self-contained.
    if let Some(attributes) = document.get_attributes_mut() {
        attributes.remove("xmlns");
    }
    document.to_string()
}

fn drawing(frame: &Frame, title: &str) -> Document {
    let (width, height) = (number(frame.width), number(frame.height));
    let mut marks = Group::new();
    for mark in &frame.marks {
        marks = add(marks, mark);
    }
    Document::new()
        .set("viewBox", format!("0 0 {width} {height}"))
        .set("font-family", FAMILY)
        .add(Title::new(clean(title)))
        .add(Rectangle::new().set("width", width).set("height", height).set("fill", "white"))
        .add(marks)
}

fn add(marks: Group, mark: &Mark) -> Group {
    match mark {
        Mark::Lines(pen, lines) => marks.add(stroked(*pen, &lines_path(lines))),
        Mark::Outline(pen, field) => marks.add(stroked(*pen, &outline_path(*field))),
        Mark::Filled(field, black) => marks.add(filled(*field, *black)),
        Mark::Shape(corners) => marks.add(Path::new().set("d", shape_path(corners))),
        Mark::Text(text) => marks.add(words(text)),
    }
}

fn stroked(pen: Pen, path: &str) -> Path {
    let path = Path::new().set("d", path).set("fill", "none").set("stroke", "black").set("stroke-width", pen.width());
    if pen == Pen::Dashed { path.set("stroke-dasharray", "2 1") } else { path }
}

fn lines_path(lines: &[(Spot, Spot)]) -> String {
    let line = |(from, to): &(Spot, Spot)| format!("M{} {}L{} {}", num(from.x), num(from.y), num(to.x), num(to.y));
    lines.iter().map(line).collect::<Vec<_>>().concat()
}

fn outline_path(field: Field) -> String {
    let (x, y, width, height) = (num(field.x), num(field.y), num(field.width), num(field.height));
    format!("M{x} {y}h{width}v{height}h-{width}z")
}

fn shape_path(corners: &[Spot]) -> String {
    let corners: Vec<String> = corners.iter().map(|spot| format!("{} {}", num(spot.x), num(spot.y))).collect();
    format!("M{}z", corners.join("L"))
}

fn filled(field: Field, black: bool) -> Rectangle {
    let corner = Rectangle::new().set("x", number(field.x)).set("y", number(field.y));
    let size = corner.set("width", number(field.width)).set("height", number(field.height));
    size.set("fill", if black { "black" } else { "white" })
}

fn words(text: &Text) -> TextNode {
    let mut node = TextNode::new(clean(&text.text)).set("font-size", number(text.size));
    if text.upward {
        node = node.set("transform", format!("translate({} {}) rotate(-90)", num(text.at.x), num(text.at.y)));
    } else {
        node = node.set("x", number(text.at.x)).set("y", number(text.at.y));
    }
    if text.weight == Weight::Bold {
        node = node.set("font-weight", "bold");
    }
    match text.anchor {
        Anchor::Start => node,
        Anchor::Middle => node.set("text-anchor", "middle"),
        Anchor::End => node.set("text-anchor", "end"),
    }
}

/// XML holds no control characters.
fn clean(text: &str) -> String {
    text.replace(|c: char| c.is_control(), " ")
}

/// Rounded to a hundredth of a millimetre.
fn number(value: f64) -> f64 {
    let rounded = (value * 100.0).round() / 100.0;
    if rounded == 0.0 { 0.0 } else { rounded }
}

fn num(value: f64) -> String {
    number(value).to_string()
}
