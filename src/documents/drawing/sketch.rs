//! A small sketch of a sheet for the yard: rips, letters, the part left over; no panels.

use super::place::{Place, extents, lying, strips_level};
use crate::documents::font::{self, Weight};
use crate::documents::frame::{Anchor, Field, Frame, Pen, Spot, Text};
use crate::length::Length;
use crate::plan::{Board, Plan, SheetGroup};

/// The sketch of a sheet, no larger than this; with its letters where they hold for all sheets that it stands for.
pub fn sketch(plan: &Plan, group: &SheetGroup, (width, height): (f64, f64), lettered: bool) -> Frame {
    let (wide, high) = lying(group);
    let scale = ((width - 1.0) / wide).min((height - 6.0) / high);
    let mut frame = Frame::new(wide * scale + 1.0, high * scale + 6.0);
    let place = Place { x: 0.5, y: 5.0, scale, level: strips_level(group) };
    let (along, across) = extents(group);
    for board in &group.boards {
        draw_board(&mut frame, lettered.then_some(plan), &place, board, across);
    }
    frame.outline(Pen::Thick, place.field((Length::ZERO, along), (Length::ZERO, across)));
    mark_reference(&mut frame, &place, wide * scale, high * scale);
    frame
}

fn draw_board(frame: &mut Frame, plan: Option<&Plan>, place: &Place, board: &Board, across: Length) {
    let along = (board.start, board.start + board.length);
    for rip in &board.rips {
        let field = place.field(along, (rip.across, rip.across + rip.width));
        frame.outline(Pen::Thin, field);
        if let Some(plan) = plan {
            letter(frame, field, &plan.strips[rip.strip].letter);
        }
    }
    let field = place.field(along, (across - board.fall_off, across));
    frame.hatch(field, 1.6);
    frame.outline(Pen::Thin, field);
}

fn letter(frame: &mut Frame, field: Field, letter: &str) {
    let size = font::size_within(letter, field.width - 0.6, 5.0_f64.min(field.height), Weight::Bold);
    let middle = field.middle();
    let at = Spot::new(middle.x, middle.y + 0.36 * size);
    frame.text(Text { at, text: letter.into(), size, weight: Weight::Bold, anchor: Anchor::Middle, upward: false });
}

/// A bold bar along the edge that is measured from, and its name.
fn mark_reference(frame: &mut Frame, place: &Place, width: f64, height: f64) {
    let (x, y) = (place.x, place.y);
    let words = if place.level { "reference edge" } else { "reference edge: left" };
    frame.write(Spot::new(x, y - 1.8), words, 3.0, Weight::Regular);
    if place.level {
        frame.blacken(Field::new(x, y - 1.0, width, 1.0));
    } else {
        frame.blacken(Field::new(x - 0.5, y, 1.2, height));
    }
}
