//! The slip on one page: orders as cards side by side, as large as the page allows.

use super::order::{Order, Step, sheets_wanted, terms};
use crate::data::Job;
use crate::documents::drawing;
use crate::documents::font::{self, Weight};
use crate::documents::frame::{Field, Frame, Pen, Spot};
use crate::documents::page_size::{PageSize, content};
use crate::plan::Plan;

/// Between cards.
const GAP: f64 = 5.0;
/// Size of a width on a card.
const FIGURE: f64 = 11.0;
const LETTERS: f64 = 7.0;
const NOTE: f64 = 4.6;

/// The page, without the lines at head and foot.
pub(super) fn page(job: &Job, plan: &Plan, orders: &[Order], size: PageSize) -> Frame {
    let mut page = size.upright();
    let field = content(&page);
    let mut y = field.y + 1.0;
    for line in sheets_wanted(job, plan) {
        let size = if font::width(&line, 6.5, Weight::Bold) <= field.width { 9.0 } else { 6.5 };
        let size = font::size_within(&line, field.width, size, Weight::Bold).max(6.5);
        for line in font::wrap(&line, field.width, size, Weight::Bold) {
            page.write(Spot::new(field.x, y + size), line, size, Weight::Bold);
            y += size * 1.25;
        }
    }
    y += 1.5;
    for line in font::wrap(&terms(job, plan), field.width, 4.4, Weight::Regular) {
        page.write(Spot::new(field.x, y + 4.4), line, 4.4, Weight::Regular);
        y += 5.6;
    }
    y += 2.0;
    let room = Field::new(field.x, y, field.width, field.bottom() - y);
    place_cards(&mut page, plan, orders, room);
    page
}

/// A card and the place of its upper left corner.
type Placed = (Frame, f64, f64);

/// Tries one to four columns and all scales, and takes the largest cards that fit.
fn place_cards(page: &mut Frame, plan: &Plan, orders: &[Order], room: Field) {
    let mut best: Option<(f64, Vec<Placed>)> = None;
    for columns in 1..=4 {
        let mut scale: f64 = 1.5;
        while scale > 0.05 && best.as_ref().is_none_or(|(found, _)| scale > *found) {
            if let Some(cards) = arranged(plan, orders, room, columns, scale) {
                best = Some((scale, cards));
                break;
            }
            scale *= 0.94;
        }
    }
    let (scale, cards) = best.unwrap_or_default();
    for (card, x, y) in cards {
        page.place(&card, x, y, scale);
        page.outline(Pen::Thin, Field::new(x, y, card.width * scale, card.height * scale));
    }
}

/// Cards with their places, filled row by row, or `None` where they don't fit.
fn arranged(plan: &Plan, orders: &[Order], room: Field, columns: usize, scale: f64) -> Option<Vec<Placed>> {
    let across = crate::documents::count(columns);
    let width = (room.width - GAP * (across - 1.0)) / across;
    let mut placed = Vec::new();
    let mut y = room.y;
    for row in orders.chunks(columns) {
        let cards: Option<Vec<Frame>> = row.iter().map(|order| card(plan, order, width / scale)).collect();
        let cards = cards?;
        let height = cards.iter().map(|card| card.height * scale).fold(0.0, f64::max);
        for (at, card) in cards.into_iter().enumerate() {
            placed.push((card, room.x + (width + GAP) * crate::documents::count(at), y));
        }
        y += height + GAP;
    }
    (y - GAP <= room.bottom() + 0.01).then_some(placed)
}

/// A card of this width: the title, what comes first, the steps, the sketch beside or under them.
fn card(plan: &Plan, order: &Order, width: f64) -> Option<Frame> {
    let edge = 3.0;
    let mut frame = Frame::new(width, edge);
    let room = width - 2.0 * edge;
    if font::longest_word(&order.title, 7.0, Weight::Bold) > room {
        return None;
    }
    for line in font::wrap(&order.title, room, 7.0, Weight::Bold) {
        add_line(&mut frame, edge, &line, 7.0, Weight::Bold);
    }
    for line in order.first.iter().flat_map(|line| font::wrap(line, room, 5.0, Weight::Bold)) {
        add_line(&mut frame, edge, &line, 5.0, Weight::Bold);
    }
    frame.height += 1.5;
    let steps = steps(&order.steps, room)?;
    let beside = room - steps.width - 5.0;
    if beside >= 45.0 {
        let sketch = drawing::sketch(plan, order.group, (beside.min(90.0), 70.0), order.lettered);
        frame.place(&sketch, width - edge - sketch.width, frame.height, 1.0);
        frame.place(&steps, edge, frame.height, 1.0);
        frame.height += steps.height.max(sketch.height) + edge;
    } else {
        frame.place(&steps, edge, frame.height, 1.0);
        frame.height += steps.height + 2.0;
        let sketch = drawing::sketch(plan, order.group, (room.min(90.0), 45.0), order.lettered);
        frame.place(&sketch, edge, frame.height, 1.0);
        frame.height += sketch.height + edge;
    }
    Some(frame)
}

fn add_line(frame: &mut Frame, x: f64, line: &str, size: f64, weight: Weight) {
    frame.write(Spot::new(x, frame.height + size * 0.9), line, size, weight);
    frame.height += size * 1.25;
}

/// The steps: a width with its letters behind it, what is refused under it; `None` where they are too wide.
fn steps(steps: &[Step], room: f64) -> Option<Frame> {
    let mut frame = Frame::new(0.0, 0.0);
    for step in steps {
        let wide = step_row(&mut frame, step);
        frame.width = frame.width.max(wide);
    }
    (frame.width <= room).then_some(frame)
}

fn step_row(frame: &mut Frame, step: &Step) -> f64 {
    let words = step.letters.is_empty();
    let size = if words { LETTERS } else { FIGURE };
    let base = frame.height + size * 0.85;
    frame.write(Spot::new(0.0, base), step.figure.clone(), size, Weight::Bold);
    let beside = if step.figure.is_empty() { 0.0 } else { font::width(&step.figure, size, Weight::Bold) + 3.0 };
    if words {
        let note = step.notes.concat();
        let wide = beside + font::width(&note, NOTE, Weight::Regular);
        frame.write(Spot::new(beside, base), note, NOTE, Weight::Regular);
        frame.height += size * 1.2;
        return wide;
    }
    frame.write(Spot::new(beside, base), step.letters.clone(), LETTERS, Weight::Bold);
    let mut wide = beside + font::width(&step.letters, LETTERS, Weight::Bold);
    frame.height = base + 1.5;
    for note in &step.notes {
        frame.write(Spot::new(0.0, frame.height + NOTE), note.clone(), NOTE, Weight::Regular);
        frame.height += NOTE * 1.25;
        wide = wide.max(font::width(note, NOTE, Weight::Regular));
    }
    frame.height += 2.5;
    wide
}
