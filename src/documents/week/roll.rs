//! The drawing of the roll: strips across it one below the other, pieces in them, selvedges and what is left hatched.

use super::names::Names;
use crate::data::week::Canvas;
use crate::documents::frame::{Dimension, Field, Frame, Pen, Spot};
use crate::length::Length;
use crate::plan::Plan;
use crate::plan::week::{CanvasPlan, RollStrip};

/// Width of the drawn roll in millimetres.
const WIDE: f64 = 150.0;
/// Room on the left for depths, above for the width.
const LEFT: f64 = 22.0;
const ABOVE: f64 = 12.0;
/// Most that one drawing shows of a roll, in widths of it.
const TALL: f64 = 1.0;
/// Most that is drawn of what is left below the last strip, in widths of the roll: with the strips above, a page takes
/// it.
const REST: f64 = 0.18;

/// Drawings with their captions: each length bought, long ones in parts.
pub(super) fn drawings(plan: &Plan, canvas: &Canvas, cut: &CanvasPlan) -> Vec<(Frame, String)> {
    let mut drawings = Vec::new();
    for (from, length) in cut.lengths.iter().enumerate() {
        let strips: Vec<&RollStrip> = cut.strips.iter().filter(|strip| strip.from == from).collect();
        for part in parts(&strips, canvas.roll.to_mm() * TALL) {
            let last = part.last().is_some_and(|strip| strips.last().is_some_and(|end| end.at == strip.at));
            let end = part.last().map_or(Length::ZERO, |strip| strip.at + strip.depth);
            let end = if last { *length } else { end };
            let mut names = Names::new(plan);
            let frame = draw(&mut names, plan, canvas, part, end);
            let short = if beyond(part, end) > canvas.roll.to_mm() * REST { " The rest is drawn short." } else { "" };
            drawings.push((frame, caption(plan, cut, from, part, end) + short + &names.legend()));
        }
    }
    drawings
}

fn caption(plan: &Plan, cut: &CanvasPlan, from: usize, part: &[&RollStrip], end: Length) -> String {
    let which = if cut.lengths.len() > 1 { format!("Length {}", from + 1) } else { "The roll".into() };
    let start = part.first().map_or(Length::ZERO, |strip| strip.at);
    format!("{which} from {} to {}; hatched: not used.", start.show(plan.units), end.say(plan.units))
}

/// What lies beyond the last of these strips, in millimetres.
fn beyond(strips: &[&RollStrip], end: Length) -> f64 {
    let used = strips.last().map_or(Length::ZERO, |strip| strip.at + strip.depth);
    (end - used).to_mm()
}

/// Strips in groups no taller together than so many millimetres, at least one each.
fn parts<'a, 'b>(strips: &'a [&'b RollStrip], tallest: f64) -> Vec<&'a [&'b RollStrip]> {
    let mut parts = Vec::new();
    let mut start = 0;
    for at in 1..=strips.len() {
        let full = |last: &RollStrip| (last.at + last.depth - strips[start].at).to_mm() > tallest;
        if at == strips.len() || full(strips[at]) {
            parts.push(&strips[start..at]);
            start = at;
        }
    }
    parts
}

fn draw(names: &mut Names, plan: &Plan, canvas: &Canvas, strips: &[&RollStrip], end: Length) -> Frame {
    let start = strips.first().map_or(Length::ZERO, |strip| strip.at);
    let scale = WIDE / canvas.roll.to_mm();
    let rest = beyond(strips, end);
    let tall = ((end - start).to_mm() - rest) * scale + (rest * scale).min(WIDE * REST);
    let mut frame = Frame::new(LEFT + WIDE + 2.0, ABOVE + tall + 2.0);
    let whole = Field::new(LEFT, ABOVE, WIDE, tall);
    frame.hatch(whole, 2.4);
    for strip in strips {
        let y = ABOVE + (strip.at - start).to_mm() * scale;
        draw_strip(&mut frame, names, plan, strip, y, scale);
    }
    frame.outline(Pen::Thick, whole);
    frame.dimension(&Dimension {
        from: LEFT,
        to: LEFT + WIDE,
        outline: ABOVE,
        line: ABOVE - 5.0,
        vertical: false,
        text: canvas.roll.say(plan.units),
        size: 3.2,
    });
    frame
}

fn draw_strip(frame: &mut Frame, names: &mut Names, plan: &Plan, strip: &RollStrip, y: f64, scale: f64) {
    let deep = strip.depth.to_mm() * scale;
    for piece in &strip.pieces {
        let field =
            Field::new(LEFT + piece.left.to_mm() * scale, y, piece.across.to_mm() * scale, piece.along.to_mm() * scale);
        frame.clear(field);
        frame.outline(Pen::Thin, field);
        let size = format!("{} x {}", piece.across.show(plan.units), piece.along.show(plan.units));
        names.write(frame, field, &[piece.panel], &|called| vec![called(piece.panel), size.clone()]);
    }
    frame.line(Pen::Thick, Spot::new(LEFT, y + deep), Spot::new(LEFT + WIDE, y + deep));
    frame.dimension(&Dimension {
        from: y,
        to: y + deep,
        outline: LEFT,
        line: LEFT - 8.0,
        vertical: true,
        text: strip.depth.show(plan.units),
        size: 3.2,
    });
}
