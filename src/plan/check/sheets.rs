//! The yard's work on each sheet, one cut after the other on the piece as it then is: each cut goes edge to edge, the
//! blade takes its kerf, and what is left is measured and compared.

use super::Rule;
use super::findings::Findings;
use crate::data::{Job, Sheet};
use crate::length::Length;
use crate::plan::{Plan, SheetGroup, YardCut};
use crate::solve::Direction;

/// What the replay of all yard cuts came to.
pub(super) struct Yard {
    /// For each sheet group, cuts made on one of its sheets.
    pub(super) cuts: Vec<u64>,
    /// For each sheet group and board, what is left across it when all its strips are off.
    pub(super) left: Vec<Vec<Length>>,
    /// Strips that came off, in all, for each of the plan's strips.
    pub(super) strips: Vec<u64>,
}

/// A sheet seen along its strips.
#[derive(Clone, Copy)]
pub(super) struct Blank {
    /// Extent along the strips.
    pub(super) along: Length,
    /// Extent across them: the side that is ripped.
    pub(super) across: Length,
    /// Lost at every factory edge and end.
    pub(super) trim: Length,
}

/// The sheet of a group, from the job.
pub(super) fn blank(job: &Job, group: &SheetGroup) -> Blank {
    let Sheet { length, width, edge_trim, .. } = job.sheets[group.sheet];
    match group.direction {
        Direction::Along => Blank { along: length, across: width, trim: edge_trim },
        Direction::Across => Blank { along: width, across: length, trim: edge_trim },
    }
}

/// Makes every cut of every sheet group.
pub(super) fn replay(job: &Job, plan: &Plan, found: &mut Findings) -> Yard {
    let mut yard = Yard { cuts: Vec::new(), left: Vec::new(), strips: vec![0; plan.strips.len()] };
    for group in &plan.sheets {
        let place = format!("sheet {}", group.number);
        let mut bench = Bench::new(blank(job, group), group, job.yard.kerf, &place);
        for cut in &group.cuts {
            bench.cut(cut, found);
        }
        yard.left.push(bench.finish(found));
        yard.cuts.push(group.cuts.len() as u64);
        for rip in group.boards.iter().flat_map(|board| &board.rips) {
            yard.strips[rip.strip] += u64::from(group.count);
        }
    }
    yard
}

/// A board on the yard's saw.
struct OnSaw {
    /// Where its remaining part begins, from the sheet's reference edge.
    edge: Length,
    /// Where it ends; before the far edge once the last kerf has eaten the rest.
    far: Length,
    /// Strips that came off.
    off: usize,
    /// Whether its reference edge was trimmed.
    trimmed: bool,
}

/// One sheet under the yard's saw.
struct Bench<'a> {
    blank: Blank,
    group: &'a SheetGroup,
    kerf: Length,
    place: &'a str,
    boards: Vec<OnSaw>,
    broken_down: bool,
    ripped: bool,
}

impl<'a> Bench<'a> {
    fn new(blank: Blank, group: &'a SheetGroup, kerf: Length, place: &'a str) -> Self {
        let whole = || OnSaw { edge: Length::ZERO, far: blank.across, off: 0, trimmed: false };
        let boards = group.boards.iter().map(|_| whole()).collect();
        Bench { blank, group, kerf, place, boards, broken_down: false, ripped: false }
    }

    fn cut(&mut self, cut: &YardCut, found: &mut Findings) {
        match *cut {
            YardCut::Breakdown { at } => self.break_down(at, found),
            YardCut::EdgeTrim { board, off } => self.trim(board, off, found),
            YardCut::Rip { board, rip, width, left } => self.rip(board, rip, width, left, found),
        }
    }

    fn break_down(&mut self, at: Length, found: &mut Findings) {
        let first = !self.ripped && !self.broken_down && self.group.boards.len() == 2;
        found.hold(Rule::Breakdown, first, self.place, || {
            "the one crosscut comes before ripping and leaves two boards".into()
        });
        let first = self.group.boards.first().map_or(Length::ZERO, |board| board.length);
        found.same(Rule::Breakdown, self.place, "the first board", at, first);
        self.broken_down = true;
    }

    fn trim(&mut self, board: usize, off: Length, found: &mut Findings) {
        let place = format!("{}, board {}", self.place, board + 1);
        let board = &mut self.boards[board];
        let fresh = !board.trimmed && board.off == 0 && self.blank.trim.is_positive();
        found.hold(Rule::YardCut, fresh, &place, || "this reference edge needs no trimming now".into());
        found.same(Rule::YardCut, &place, "the trim of the reference edge", off, self.blank.trim);
        board.trimmed = true;
        board.edge += off;
        self.ripped = true;
    }

    fn rip(&mut self, at: usize, rip: usize, width: Length, left: Length, found: &mut Findings) {
        let place = format!("{}, board {}, rip {}", self.place, at + 1, rip + 1);
        let planned = self.group.boards[at].rips[rip];
        let board = &mut self.boards[at];
        found.hold(Rule::YardCut, rip == board.off, &place, || "this strip is not the next one on its board".into());
        found.same(Rule::YardCut, &place, "the width of the cut", width, planned.width);
        found.same(Rule::Position, &place, "its near edge", planned.across, board.edge);
        let stands = board.far - board.edge;
        found.hold(Rule::YardCut, width < stands, &place, || "there is nothing beyond this strip to cut off".into());
        board.edge = (board.edge + width + self.kerf).min(board.far.max(board.edge));
        found.same(Rule::YardLeft, &place, "what the cut leaves", left, board.far - board.edge);
        board.off += 1;
        self.ripped = true;
    }

    /// The last strip of a board may be what is left when the others are off; all must be accounted for.
    fn finish(mut self, found: &mut Findings) -> Vec<Length> {
        found.hold(Rule::Breakdown, self.broken_down || self.group.boards.len() == 1, self.place, || {
            "two boards need the crosscut between them, one board none".into()
        });
        (0..self.boards.len()).map(|at| self.finish_board(at, found)).collect()
    }

    fn finish_board(&mut self, at: usize, found: &mut Findings) -> Length {
        let place = format!("{}, board {}", self.place, at + 1);
        let (board, rips) = (&mut self.boards[at], &self.group.boards[at].rips);
        let must_trim = self.blank.trim.is_positive() && !rips.is_empty();
        found.hold(Rule::YardCut, board.trimmed == must_trim, &place, || {
            "the reference edge is trimmed first, where the sheet has an edge trim and the board has strips".into()
        });
        if board.off + 1 == rips.len() {
            let last = rips[board.off];
            found.same(Rule::Position, &place, "the near edge of the last strip", last.across, board.edge);
            found.same(
                Rule::YardCut,
                &place,
                "the last strip, which is not cut off,",
                last.width,
                board.far - board.edge,
            );
            board.edge = board.far;
            board.off += 1;
        }
        found.equal(Rule::YardCut, &place, "strips cut", board.off, rips.len());
        board.far - board.edge
    }
}
