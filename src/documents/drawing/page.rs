//! A sheet on a page of its own, to scale, with its dimensions along both edges.

use super::labels::label;
use super::place::{Place, end_of, extents, lying, on_sheet, scale_within, strips_level};
use crate::data::Job;
use crate::documents::font::{self, Weight};
use crate::documents::frame::{Anchor, Dimension, Field, Frame, Mark, Pen, Spot, Text};
use crate::documents::page_size::{PageSize, content};
use crate::documents::wording;
use crate::length::Length;
use crate::plan::{Board, Piece, Plan, Rip, SheetGroup, Strip};
use crate::solve::Direction;

/// Room at the left or above for letters and strip widths.
const EDGE: f64 = 9.9;
/// Room for the two lines of words at the head.
const WORDS: f64 = 13.0;
/// Room below for the overall length and the legend.
const BELOW: f64 = 22.0;
/// Kerfs are drawn at least this wide.
const KERF: f64 = 0.3;

/// The sheet's drawing on a lying page, without the lines at head and foot.
pub fn sheet_page(job: &Job, plan: &Plan, group: &SheetGroup, size: PageSize) -> Frame {
    let mut frame = size.lying();
    let field = content(&frame);
    let scale = scale_within(group, field.width - EDGE, field.height - WORDS - EDGE - BELOW);
    let place = Place {
        x: field.x + EDGE,
        y: field.y + WORDS + EDGE,
        scale: 1.0 / f64::from(scale),
        level: strips_level(group),
    };
    words(&mut frame, plan, group, field, scale);
    let mut drawing = Drawing { job, plan, group, place, keys: Vec::new(), frame };
    drawing.sheet();
    drawing.legend(field);
    drawing.frame
}

fn words(frame: &mut Frame, plan: &Plan, group: &SheetGroup, field: Field, scale: u32) {
    let total: u32 = plan.sheets.iter().map(|group| group.count).sum();
    let alike = if group.count > 1 { format!(", {} alike", group.count) } else { String::new() };
    let title = format!("{} of {total}{alike}: {}", wording::numbers(group.number, group.count), group.kind);
    let size = font::size_within(&title, field.width, 6.0, Weight::Bold);
    frame.write(Spot::new(field.x, field.y + 5.5), title, size, Weight::Bold);
    let units = plan.units.sign();
    let size = wording::size(plan, group.width.min(group.length), group.length.max(group.width));
    let mut line = format!("{size} {units}, face grain along the {}, drawn 1:{scale}.", group.length.show(plan.units));
    if group.measure_first {
        line = format!("{line} Measure first: needs {} {units} across the rips.", group.needs.show(plan.units));
    }
    frame.write(Spot::new(field.x, field.y + 10.5), line, 3.6, Weight::Regular);
}

/// A sheet being drawn.
struct Drawing<'a> {
    job: &'a Job,
    plan: &'a Plan,
    group: &'a SheetGroup,
    place: Place,
    /// Panels that were labelled with a key letter only.
    keys: Vec<usize>,
    frame: Frame,
}

impl Drawing<'_> {
    fn sheet(&mut self) {
        let (along, across) = extents(self.group);
        let group = self.group;
        for (at, board) in group.boards.iter().enumerate() {
            self.board(board, across, at > 0);
        }
        self.frame.outline(Pen::Thick, self.place.field((Length::ZERO, along), (Length::ZERO, across)));
        self.reference();
        self.overall(along, across);
    }

    /// A board: what is trimmed, its strips with the kerf after each, what is left over.
    fn board(&mut self, board: &Board, across: Length, second: bool) {
        let along = (board.start, board.start + board.length);
        if second {
            self.sawdust((board.start - self.job.yard.kerf, board.start), (Length::ZERO, across));
        }
        if let Some(first) = board.rips.first() {
            self.lost(along, (Length::ZERO, first.across), self.job.yard.kerf);
        }
        for rip in &board.rips {
            self.strip(board, rip);
            let end = rip.across + rip.width;
            self.sawdust(along, (end, (end + self.job.yard.kerf).min(across)));
        }
        self.offcut(along, (across - board.fall_off, across));
        self.widths(board, across, second);
    }

    fn strip(&mut self, board: &Board, rip: &Rip) {
        let strip = &self.plan.strips[rip.strip];
        let across = (rip.across, rip.across + rip.width);
        self.lost(on_sheet(board, Length::ZERO, strip.squaring), across, self.job.saw.kerf);
        for piece in &strip.pieces {
            self.piece(board, rip, strip, piece);
        }
        let left = on_sheet(board, board.length - strip.fall_off, board.length);
        self.offcut(left, across);
    }

    fn piece(&mut self, board: &Board, rip: &Rip, strip: &Strip, piece: &Piece) {
        let across = (rip.across, rip.across + rip.width);
        let end = end_of(piece);
        let kerf = self.job.saw.kerf.min(strip.length - end);
        self.sawdust(on_sheet(board, end, end + kerf), across);
        let along = on_sheet(board, piece.along, end);
        let mut panel = across;
        if piece.trimmed {
            panel.1 = rip.across + piece.width;
            let blade = (panel.1 + self.job.saw.kerf).min(across.1);
            self.sawdust(along, (panel.1, blade));
            self.offcut(along, (blade, across.1));
        }
        let field = self.place.field(along, panel);
        self.name(field, piece);
    }

    fn name(&mut self, field: Field, piece: &Piece) {
        let line = &self.plan.panels[piece.panel];
        let more = if piece.extra { " (extra)" } else { "" };
        let (name, size) = (format!("{}{more}", line.name), wording::cut_size(self.plan, line));
        let key = key_letter(piece.panel);
        let choices = if line.name == size && !piece.extra {
            vec![vec![size], vec![key]]
        } else {
            vec![vec![name, size.clone()], vec![size], vec![key]]
        };
        if label(&mut self.frame, field, &choices) == Some(choices.len() - 1) && !self.keys.contains(&piece.panel) {
            self.keys.push(piece.panel);
        }
    }

    /// What the blade takes: black, and never too thin to be seen.
    fn sawdust(&mut self, along: (Length, Length), across: (Length, Length)) {
        let mut field = self.place.field(along, across);
        if field.width <= 0.0 || field.height <= 0.0 {
            return;
        }
        let thin = field.width.min(field.height);
        if thin < KERF && field.width < field.height {
            (field.x, field.width) = (field.x - (KERF - thin) / 2.0, KERF);
        } else if thin < KERF {
            (field.y, field.height) = (field.y - (KERF - thin) / 2.0, KERF);
        }
        self.frame.blacken(field);
    }

    /// What a trimming or squaring cut takes: all black where the blade takes about all of it, else hatched.
    fn lost(&mut self, along: (Length, Length), across: (Length, Length), kerf: Length) {
        if (along.1 - along.0).min(across.1 - across.0) <= kerf * 2 {
            return self.sawdust(along, across);
        }
        let field = self.place.field(along, across);
        self.frame.hatch(field, 1.2);
        self.frame.outline(Pen::Thin, field);
    }

    fn offcut(&mut self, along: (Length, Length), across: (Length, Length)) {
        let field = self.place.field(along, across);
        if field.width > 0.0 && field.height > 0.0 {
            self.frame.hatch(field, 2.2);
        }
    }

    /// Letters and widths of a board's strips, and the width left over, beside the first board or past the second.
    fn widths(&mut self, board: &Board, across: Length, second: bool) {
        let mut stretches: Vec<(Length, Length, &str)> = Vec::new();
        for rip in &board.rips {
            stretches.push((rip.across, rip.across + rip.width, &self.plan.strips[rip.strip].letter));
        }
        if board.fall_off.is_positive() {
            stretches.push((across - board.fall_off, across, ""));
        }
        for (from, to, letter) in stretches {
            let field = self.place.field((board.start, board.start + board.length), (from, to));
            self.letter(field, letter, second);
            if !second {
                self.width(field, (to - from).show(self.plan.units));
            }
        }
    }

    /// A strip's letter: before its first end, or, on the second board, past the sheet's far end.
    fn letter(&mut self, field: Field, letter: &str, far: bool) {
        if letter.is_empty() {
            return;
        }
        let room = if self.place.level { field.height } else { field.width };
        let size = 5.0_f64.min(room);
        let base = 0.36 * size;
        let at = match (self.place.level, far) {
            (true, false) => Spot::new(field.x - 2.7, field.middle().y + base),
            (true, true) => Spot::new(field.right() + 3.0, field.middle().y + base),
            (false, false) => Spot::new(field.middle().x, field.y - 2.7 + base),
            (false, true) => Spot::new(field.middle().x, field.bottom() + 3.0 + base),
        };
        let text = Text { at, text: letter.into(), size, weight: Weight::Bold, anchor: Anchor::Middle, upward: false };
        self.frame.text(text);
    }

    fn width(&mut self, field: Field, text: String) {
        let level = self.place.level;
        let (from, to) = if level { (field.y, field.bottom()) } else { (field.x, field.right()) };
        let outline = if level { self.place.x } else { self.place.y };
        let line = outline - 7.6;
        self.frame.dimension(&Dimension { from, to, outline, line, vertical: level, text, size: 3.2 });
    }

    /// The name of the edge the rips are measured from.
    fn reference(&mut self) {
        let (x, y, level) = (self.place.x, self.place.y, self.place.level);
        let (at, upward) = if level {
            (Spot::new(x, y - 2.2), false)
        } else {
            (Spot::new(x - 2.2, y + lying(self.group).1 * self.place.scale), true)
        };
        let words = "reference edge: rips are measured from here".to_string();
        self.frame.text(Text { at, text: words, size: 3.2, weight: Weight::Bold, upward, ..Text::default() });
        let (along, across) = extents(self.group);
        let edge = self.place.field((Length::ZERO, along), (Length::ZERO, across));
        let bar = if level {
            Field::new(edge.x, edge.y - 1.2, edge.width, 1.2)
        } else {
            Field::new(edge.x - 1.2, edge.y, 1.2, edge.height)
        };
        self.frame.blacken(bar);
    }

    /// The whole extent along the lower edge; the pieces of a breakdown crosscut nearer to it.
    fn overall(&mut self, along: Length, across: Length) {
        let (wide, high) = if self.place.level { (along, across) } else { (across, along) };
        let outline = self.place.y + high.to_mm() * self.place.scale;
        let (x, scale, units) = (self.place.x, self.place.scale, self.plan.units);
        let two = self.group.boards.len() > 1;
        let mut line = outline + if two && !self.place.level { 9.0 } else { 5.0 };
        let measure = |frame: &mut Frame, from: Length, to: Length, line: f64| {
            let (left, right) = (x + from.to_mm() * scale, x + to.to_mm() * scale);
            let text = (to - from).show(units);
            frame.dimension(&Dimension { from: left, to: right, outline, line, vertical: false, text, size: 3.2 });
        };
        if two && self.place.level {
            for board in &self.group.boards {
                measure(&mut self.frame, board.start, board.start + board.length, line);
            }
            line += 5.0;
        }
        measure(&mut self.frame, Length::ZERO, wide, line);
    }

    /// What black and hatching mean, which way the face grain runs, and what the key letters stand for.
    fn legend(&mut self, field: Field) {
        let y = field.bottom() - 1.0;
        let level = (self.group.direction == Direction::Along) == self.place.level;
        self.grain(Spot::new(field.x, y), level);
        let mut line = "Black: what the blade takes. Hatched: offcuts.".to_string();
        for panel in &self.keys {
            let panel_line = &self.plan.panels[*panel];
            let size = wording::cut_size(self.plan, panel_line);
            let name = if panel_line.name == size { String::new() } else { format!("{}, ", panel_line.name) };
            line = format!("{line} {} = {name}{size}.", key_letter(*panel));
        }
        let room = field.width - 40.0;
        for (at, text) in font::wrap(&line, room, 3.2, Weight::Regular).into_iter().rev().enumerate() {
            let base = y - 4.0 * crate::documents::count(at);
            self.frame.write(Spot::new(field.x + 40.0, base), text, 3.2, Weight::Regular);
        }
    }

    /// An arrow with two heads along the face grain.
    fn grain(&mut self, at: Spot, level: bool) {
        let (length, half) = (12.0, 0.8);
        let spot = |along: f64, off: f64| {
            if level { Spot::new(at.x + along, at.y - 1.2 + off) } else { Spot::new(at.x + 4.0 + off, at.y - along) }
        };
        self.frame.line(Pen::Thick, spot(0.0, 0.0), spot(length, 0.0));
        for (tip, back) in [(0.0, 4.8), (length, length - 4.8)] {
            self.frame.marks.push(Mark::Shape(vec![spot(tip, 0.0), spot(back, -half), spot(back, half)]));
        }
        self.frame.write(Spot::new(at.x + 14.0, at.y), "face grain", 3.6, Weight::Bold);
    }
}

/// `a`, `b`, ... `z`, `aa`, ... for the panel lines of the job.
fn key_letter(panel: usize) -> String {
    let letter = char::from(b'a' + u8::try_from(panel % 26).expect("under 26"));
    if panel < 26 { letter.to_string() } else { format!("{}{letter}", key_letter(panel / 26 - 1)) }
}
