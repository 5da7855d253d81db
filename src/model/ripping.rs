//! One way to rip a sheet kind: the direction of its strips, the room across them, and how many cuts and how much
//! fall-off a set of strips comes to.

use crate::data::{Breakdown, Job};
use crate::length::Length;

/// Whether some sheet of the job might be broken down before ripping.
pub fn may_break_down(job: &Job) -> bool {
    let too_long = |board: Length| job.car.longest.is_some_and(|longest| board > longest);
    let ways = [true, false].into_iter().filter(|along| super::sizes::yard_rips(job.yard.rips, *along));
    let mut boards =
        ways.flat_map(|along| job.sheets.iter().map(move |sheet| if along { sheet.length } else { sheet.width }));
    match job.yard.breakdown {
        Breakdown::Never => false,
        Breakdown::IfNeeded => boards.any(too_long),
        Breakdown::Allowed => true,
    }
}

/// A sheet kind ripped in one direction.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Ripping {
    /// Index into `Job::sheets`.
    pub sheet: usize,
    /// Whether the strips run along the sheet's length, and so along its face grain.
    pub along: bool,
    /// Index into [`super::Problem::families`].
    pub family: usize,
    /// The sheet's extent along its strips.
    pub board: Length,
    /// What there is to rip across the strips, edge trims taken off.
    pub room: Length,
    /// Lost at the first end of each strip.
    pub first: Length,
    /// Lost at the far end of a strip that runs the whole sheet.
    pub far: Length,
    /// Lost at each factory edge.
    pub edge_trim: Length,
    /// Width of the yard's cut.
    pub kerf: Length,
    /// The longest strip the car takes.
    pub longest: Length,
    /// Whether the sheet may be ripped in one piece.
    pub whole: bool,
    /// Whether a breakdown crosscut may be made first.
    pub broken: bool,
    /// Lengths of the shorter board of a breakdown that can matter, ascending.
    pub breaks: Vec<Length>,
}

impl Ripping {
    /// The way to rip `sheet` along its length or across it; `None` where no strip of it could leave the yard.
    pub(super) fn of(job: &Job, sheet: usize, along: bool, family: usize) -> Option<Ripping> {
        let kind = &job.sheets[sheet];
        let trims = kind.edge_trim * 2;
        let (board, room) = if along { (kind.length, kind.width - trims) } else { (kind.width, kind.length - trims) };
        let longest = job.car.longest.unwrap_or(Length::MAX);
        let whole = board <= longest;
        let broken = match job.yard.breakdown {
            Breakdown::Never => false,
            Breakdown::IfNeeded => !whole,
            Breakdown::Allowed => true,
        };
        let ripping = Ripping {
            sheet,
            along,
            family,
            board,
            room,
            first: job.saw.squaring.max(kind.edge_trim),
            far: kind.edge_trim,
            edge_trim: kind.edge_trim,
            kerf: job.yard.kerf,
            longest,
            whole,
            broken,
            breaks: Vec::new(),
        };
        // A board that the car does not take is no board.
        (room.is_positive() && (whole || ripping.broken)).then_some(ripping)
    }

    /// What a strip of a board so long gives to panels, its ends squared; may be negative.
    pub fn usable(&self, board: Length) -> Length {
        board - self.first - self.stub(board)
    }

    /// What is lost at the far end of a strip of a board so long.
    pub fn stub(&self, board: Length) -> Length {
        if board == self.board { self.far } else { Length::ZERO }
    }

    /// The yard's cuts on a board of `strips` strips that leave `spare` of the room.
    pub fn cuts(&self, strips: u32, spare: Length) -> u32 {
        match (strips, self.edge_trim.is_zero()) {
            (0, _) => 0,
            (strips, false) => strips + 1,
            (strips, true) => {
                if spare.is_positive() {
                    strips
                } else {
                    strips - 1
                }
            }
        }
    }

    /// The width of the fall-off of a board whose strips leave `spare` of the room.
    pub fn fall_off(&self, spare: Length) -> Length {
        (spare - self.kerf + self.edge_trim).max(Length::ZERO)
    }
}
