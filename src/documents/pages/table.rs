//! Tables as slabs, one a row: columns as wide as their widest cell, or, where that is too much, the wide ones
//! sharing the room and wrapping their text.

use super::blocks::BODY;
use super::slab::Slab;
use crate::documents::blocks::{Column, Row, Table};
use crate::documents::font::{self, Weight};
use crate::documents::frame::{Anchor, Field, Frame, Pen, Spot, Text};
use std::rc::Rc;

/// Size of column titles.
const HEAD: f64 = 3.2;
const BIG: f64 = 6.5;
/// Between a cell's text and the next column.
const BETWEEN: f64 = 4.0;
/// Room for the box that is ticked.
const TICK: f64 = 8.0;

/// A table as slabs: its head, then a row each.
pub(super) fn slabs(table: &Table, width: f64) -> Vec<Slab> {
    let boxes = if table.ticks { TICK } else { 0.0 };
    let widths = widths(table, width - boxes);
    let between = BETWEEN * crate::documents::count(widths.len().saturating_sub(1));
    let width = boxes + between + widths.iter().sum::<f64>();
    let head = Rc::new(head(table, &widths, width));
    let mut slabs = vec![Slab::keeping((*head).clone())];
    for row in &table.rows {
        slabs.push(Slab { head: Some(head.clone()), ..Slab::of(row_frame(table, row, &widths, width)) });
    }
    Slab::bind_rows(&mut slabs[1..]);
    if let Some(last) = slabs.last_mut() {
        last.frame.height += 3.0;
    }
    slabs
}

fn size(column: &Column) -> f64 {
    if column.big { BIG } else { BODY }
}

/// Widths of the columns' texts.
fn widths(table: &Table, room: f64) -> Vec<f64> {
    let cells = |at: usize| table.rows.iter().filter_map(move |row| row.cells.get(at));
    let measure = |of: fn(&str, f64, Weight) -> f64| -> Vec<f64> {
        let column = |(at, column): (usize, &Column)| {
            let title = of(&column.title, HEAD, Weight::Regular);
            cells(at).map(|cell| of(cell, size(column), Weight::Bold)).fold(title, f64::max)
        };
        table.columns.iter().enumerate().map(column).collect()
    };
    let room = room - BETWEEN * crate::documents::count(table.columns.len().saturating_sub(1));
    share(&measure(font::width), &measure(font::longest_word), room)
}

/// Each column gets what it wants where all fit; else the widest give way first, at most down to what they need, and
/// only where even that is too much their words are broken.
fn share(wanted: &[f64], needed: &[f64], room: f64) -> Vec<f64> {
    if wanted.iter().sum::<f64>() <= room {
        return wanted.to_vec();
    }
    let at_least = |level: f64| wanted.iter().zip(needed).map(|(want, need)| want.min(level.max(*need))).collect();
    let at_most = |level: f64| needed.iter().map(|need| need.min(level)).collect();
    if needed.iter().sum::<f64>() <= room { levelled(at_least, room) } else { levelled(at_most, room) }
}

/// The widths at the highest level at which they fit in the room.
fn levelled(widths: impl Fn(f64) -> Vec<f64>, room: f64) -> Vec<f64> {
    let (mut low, mut high) = (0.0, room);
    for _ in 0..40 {
        let middle = f64::midpoint(low, high);
        if widths(middle).iter().sum::<f64>() <= room { low = middle } else { high = middle }
    }
    widths(low)
}

fn head(table: &Table, widths: &[f64], width: f64) -> Frame {
    let titles: Vec<Cell> = table
        .columns
        .iter()
        .map(|column| Cell { text: &column.title, size: HEAD, weight: Weight::Regular, right: column.right })
        .collect();
    let mut frame = cells(&titles, widths, width, table.ticks);
    frame.height += 0.4;
    frame.line(Pen::Thick, Spot::new(0.0, frame.height), Spot::new(width, frame.height));
    frame
}

fn row_frame(table: &Table, row: &Row, widths: &[f64], width: f64) -> Frame {
    let cell = |(text, column): (&'_ String, &Column)| -> (String, f64, Weight, bool) {
        let weight = if row.total { Weight::Bold } else { column.weight };
        (text.clone(), size(column), weight, column.right)
    };
    let made: Vec<_> = row.cells.iter().zip(&table.columns).map(cell).collect();
    let made: Vec<Cell> = made
        .iter()
        .map(|(text, size, weight, right)| Cell { text, size: *size, weight: *weight, right: *right })
        .collect();
    let mut frame = cells(&made, widths, width, table.ticks);
    frame.height = frame.height.max(if table.ticks { 6.6 } else { 0.0 });
    if table.ticks && !row.total {
        let tallest = table.columns.iter().map(size).fold(0.0, f64::max);
        frame.outline(Pen::Thick, Field::new(0.5, (tallest - 3.6).max(0.9), 4.6, 4.6));
    }
    if row.total {
        frame.line(Pen::Thick, Spot::new(0.0, 0.0), Spot::new(width, 0.0));
    }
    frame.line(Pen::Thin, Spot::new(0.0, frame.height), Spot::new(width, frame.height));
    frame
}

/// The text of one cell and how it is set.
struct Cell<'a> {
    text: &'a str,
    size: f64,
    weight: Weight,
    right: bool,
}

/// Cells side by side on one base line, each wrapped into its width.
fn cells(cells: &[Cell], widths: &[f64], width: f64, ticks: bool) -> Frame {
    let tallest = cells.iter().map(|cell| cell.size).fold(0.0, f64::max);
    let mut frame = Frame::new(width, 0.0);
    let mut x = if ticks { TICK } else { 0.0 };
    for (cell, room) in cells.iter().zip(widths) {
        let mut base = tallest + 0.6;
        // A hair more room, so that a text exactly as wide as its column is not wrapped by rounding.
        for line in font::wrap(cell.text, room + 0.01, cell.size, cell.weight) {
            let anchor = if cell.right { Anchor::End } else { Anchor::Start };
            let at = Spot::new(if cell.right { x + room } else { x }, base);
            frame.text(Text { at, text: line, size: cell.size, weight: cell.weight, anchor, upward: false });
            base += cell.size * 1.25;
        }
        frame.height = frame.height.max(base - cell.size * 1.25 + cell.size * 0.45);
        x += room + BETWEEN;
    }
    frame
}
