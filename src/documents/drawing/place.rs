//! Where a stretch of a sheet lies on the drawing.

use crate::documents::frame::Field;
use crate::length::Length;
use crate::plan::{Board, Piece, SheetGroup};
use crate::solve::Direction;

/// Scales, largest first: those of ISO 5455 (1:2, 1:5, 1:10, 1:20, 1:50, 1:100; from memory), and steps between them.
const SCALES: [u32; 15] = [2, 4, 5, 8, 10, 12, 15, 20, 25, 30, 40, 50, 60, 80, 100];

/// A sheet placed on a drawing.
#[derive(Clone, Copy, Debug)]
pub(super) struct Place {
    /// Left edge of the sheet's outline.
    pub(super) x: f64,
    /// Its upper edge.
    pub(super) y: f64,
    /// Drawn millimetres to one of the sheet.
    pub(super) scale: f64,
    /// True where the strips lie level.
    pub(super) level: bool,
}

/// Extent along the strips and across them.
pub(super) fn extents(group: &SheetGroup) -> (Length, Length) {
    match group.direction {
        Direction::Along => (group.length, group.width),
        Direction::Across => (group.width, group.length),
    }
}

/// Whether the strips lie level when the longer side does.
pub(super) fn strips_level(group: &SheetGroup) -> bool {
    (group.direction == Direction::Along) == (group.length >= group.width)
}

/// Width and height of the sheet as it lies.
pub(super) fn lying(group: &SheetGroup) -> (f64, f64) {
    let (long, short) = (group.length.max(group.width), group.length.min(group.width));
    (long.to_mm(), short.to_mm())
}

/// The largest scale, as the number after `1:`, at which the sheet fits.
pub(super) fn scale_within(group: &SheetGroup, width: f64, height: f64) -> u32 {
    let (wide, high) = lying(group);
    let fits = |scale: &&u32| wide <= width * f64::from(**scale) && high <= height * f64::from(**scale);
    // A sheet of 30 metres, the longest that is read, still has room at this one.
    SCALES.iter().find(fits).copied().unwrap_or(500)
}

impl Place {
    /// A stretch of the sheet, from its ends along and across the strips.
    pub(super) fn field(&self, along: (Length, Length), across: (Length, Length)) -> Field {
        let start = (along.0.to_mm() * self.scale, across.0.to_mm() * self.scale);
        let extent = ((along.1 - along.0).to_mm() * self.scale, (across.1 - across.0).to_mm() * self.scale);
        if self.level {
            Field::new(self.x + start.0, self.y + start.1, extent.0, extent.1)
        } else {
            Field::new(self.x + start.1, self.y + start.0, extent.1, extent.0)
        }
    }
}

/// Where a stretch of a strip, measured from the end that is squared, lies along the sheet.
pub(super) fn on_sheet(board: &Board, from: Length, to: Length) -> (Length, Length) {
    if board.from_far_end {
        let end = board.start + board.length;
        (end - to, end - from)
    } else {
        (board.start + from, board.start + to)
    }
}

/// Where a piece ends along its strip.
pub(super) fn end_of(piece: &Piece) -> Length {
    piece.along + piece.length
}
