//! What is left over: fall-offs of strips and boards, boards that are not ripped at all; and which are worth keeping.

use super::{Board, Offcut, Origin, SheetGroup, Strip};
use crate::data::{Cents, Job, Keeper};
use crate::length::Length;
use crate::solve::Direction;
use std::cmp::Reverse;

/// All that is left over, largest first.
pub(super) fn offcuts(job: &Job, sheets: &[SheetGroup], strips: &[Strip]) -> Vec<Offcut> {
    let from_boards = sheets.iter().flat_map(|group| group.boards.iter().map(move |board| of_board(job, group, board)));
    let from_strips = strips.iter().map(|strip| of_strip(job, strip));
    let mut offcuts: Vec<Offcut> = from_boards.chain(from_strips).filter(|left| left.width.is_positive()).collect();
    offcuts.retain(|left| left.length.is_positive());
    offcuts.sort_by_key(|left| Reverse(left.width * left.length));
    offcuts
}

/// What the best keeper that fits in a rectangle, either way round, is worth.
pub(super) fn worth(keepers: &[Keeper], width: Length, length: Length) -> Cents {
    let (short, long) = (width.min(length), width.max(length));
    let fits = |keeper: &&Keeper| keeper.width.min(keeper.length) <= short && keeper.width.max(keeper.length) <= long;
    keepers.iter().filter(fits).map(|keeper| keeper.worth).max().unwrap_or_default()
}

/// The yard's fall-off, or a whole board that is not ripped at all.
fn of_board(job: &Job, group: &SheetGroup, board: &Board) -> Offcut {
    Offcut {
        width: board.fall_off,
        length: board.length,
        count: group.count,
        from: sheet_words(group),
        sheet: Some(group.sheet),
        grain_along: group.direction == Direction::Along,
        worth: worth(&job.keepers, board.fall_off, board.length),
    }
}

fn of_strip(job: &Job, strip: &Strip) -> Offcut {
    let (sheet, grain_along) = grain(job, strip);
    Offcut {
        width: strip.width,
        length: strip.fall_off,
        count: strip.count,
        from: format!("strip {}", strip.letter),
        sheet,
        grain_along,
        worth: worth(&job.keepers, strip.width, strip.fall_off),
    }
}

/// A strip's sheet kind, where known, and whether its face grain runs along it.
pub(super) fn grain(job: &Job, strip: &Strip) -> (Option<usize>, bool) {
    match strip.origin {
        Origin::Sheet { sheet, grain_along } => (Some(sheet), grain_along),
        Origin::OnHand { strip } => (job.strips[strip].sheet, job.strips[strip].grain_along),
    }
}

/// `sheet 1`, or `sheets 1 to 3`.
fn sheet_words(group: &SheetGroup) -> String {
    match group.count {
        1 => format!("sheet {}", group.number),
        count => format!("sheets {} to {}", group.number, group.number + count - 1),
    }
}
