//! The sheet itself: boards, strips, panels, what the blade takes and what is left over.

use super::labels::label;
use super::page::key_letter;
use super::place::{Place, end_of, extents, on_sheet};
use crate::data::Job;
use crate::documents::frame::{Field, Frame, Pen};
use crate::documents::wording;
use crate::length::Length;
use crate::plan::{Board, Piece, Plan, Rip, SheetGroup, Strip};

/// Kerfs are drawn at least this wide.
const KERF: f64 = 0.3;

/// A sheet being drawn.
pub(super) struct Drawing<'a> {
    pub(super) job: &'a Job,
    pub(super) plan: &'a Plan,
    pub(super) group: &'a SheetGroup,
    pub(super) place: Place,
    /// Panels that were labelled with a key letter only.
    pub(super) keys: Vec<usize>,
    pub(super) frame: Frame,
}

impl Drawing<'_> {
    /// Draws the whole sheet with its measures.
    pub(super) fn sheet(&mut self) {
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
        // What falls off carries the bad factory edge of the far end with it.
        let used = strip.pieces.last().map_or(strip.squaring, |last| end_of(last) + self.job.saw.kerf);
        self.offcut(on_sheet(board, used.min(board.length), board.length), across);
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
}
