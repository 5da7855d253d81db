//! What an answer has of each later aim, counted on its sheets and strips.

use super::super::solved::{Direction, PieceCut, SheetUse, StripUse};
use super::super::tail::Tail;
use crate::length::Length;
use crate::model::{Problem, Ripping, Size};
use std::collections::BTreeSet;

/// The size that a line of the job belongs to.
pub(super) fn size_of(problem: &Problem, line: usize) -> &Size {
    problem.sizes.iter().find(|size| size.lines.contains(&line)).expect("every line belongs to a size")
}

/// A piece's extent along its strip.
pub(super) fn along(problem: &Problem, piece: PieceCut) -> Length {
    let sides = size_of(problem, piece.panel).sides;
    if piece.turned { sides.width.least } else { sides.height.least }
}

/// The way in which a sheet is ripped.
pub(super) fn ripping<'a>(problem: &'a Problem, sheet: &SheetUse) -> &'a Ripping {
    let along = sheet.direction == Direction::Along;
    let same = |ripping: &&Ripping| ripping.sheet == sheet.sheet && ripping.along == along;
    problem.rippings.iter().find(same).expect("a sheet of the answer is ripped in a permitted way")
}

/// What pieces leave of so much usable length and one kerf more, each piece taking a kerf with it.
pub(super) fn room(problem: &Problem, usable: Length, pieces: &[PieceCut]) -> i64 {
    let used: i64 = pieces.iter().map(|piece| (along(problem, *piece) + problem.kerf).raw()).sum();
    (usable + problem.kerf).raw() - used
}

/// Extra panels and fall-offs worth keeping, in cents.
pub(super) fn worth(problem: &Problem, sheets: &[SheetUse], on_hand: &[StripUse]) -> i64 {
    let sheets: i64 = sheets.iter().map(|sheet| i64::from(sheet.count) * sheet_worth(problem, sheet)).sum();
    let strips = on_hand.iter().map(|used| {
        let strip = problem.on_hand.iter().find(|strip| strip.strip == used.strip).expect("a strip on hand");
        let width = problem.families[strip.family].widths[0].width;
        i64::from(used.count) * strip_worth(problem, width, strip.usable, &used.pieces)
    });
    sheets + strips.sum::<i64>()
}

fn sheet_worth(problem: &Problem, sheet: &SheetUse) -> i64 {
    let ripping = ripping(problem, sheet);
    let boards = sheet.boards.iter().filter(|board| !board.strips.is_empty()).map(|board| {
        let used: i64 = board.strips.iter().map(|strip| (strip.width + ripping.kerf).raw()).sum();
        let spare = (ripping.room + ripping.kerf).raw() - used;
        let usable = ripping.usable(board.length);
        let strips = board.strips.iter().map(|strip| strip_worth(problem, strip.width, usable, &strip.pieces));
        Tail::of_board(problem, ripping, board.length, 1).worth(spare) + strips.sum::<i64>()
    });
    boards.sum()
}

fn strip_worth(problem: &Problem, width: Length, usable: Length, pieces: &[PieceCut]) -> i64 {
    let extra = |piece: &PieceCut| {
        let wishes = &size_of(problem, piece.panel).wishes;
        wishes.iter().find(|wish| piece.extra && wish.line == piece.panel).map_or(0, |wish| wish.worth)
    };
    let extras: i64 = pieces.iter().map(extra).sum();
    extras + Tail::of_strip(problem, width, 1).worth(room(problem, usable, pieces))
}

/// Different layouts and different rip widths, together.
pub(super) fn layouts(sheets: &[SheetUse]) -> i64 {
    let face = |sheet: &SheetUse| {
        let boards = sheet.boards.iter().map(|board| {
            let mut widths: Vec<Length> = board.strips.iter().map(|strip| strip.width).collect();
            widths.sort_unstable();
            (board.length, widths)
        });
        (sheet.sheet, sheet.direction, boards.collect::<Vec<_>>())
    };
    let faces: BTreeSet<_> = sheets.iter().map(face).collect();
    let strips = sheets.iter().flat_map(|sheet| &sheet.boards).flat_map(|board| &board.strips);
    let widths: BTreeSet<Length> = strips.map(|strip| strip.width).collect();
    number(faces.len() + widths.len())
}

/// Different lengths crosscut at home.
pub(super) fn settings(problem: &Problem, sheets: &[SheetUse], on_hand: &[StripUse]) -> i64 {
    let strips = sheets.iter().flat_map(|sheet| &sheet.boards).flat_map(|board| &board.strips);
    let pieces = strips.flat_map(|strip| &strip.pieces).chain(on_hand.iter().flat_map(|used| &used.pieces));
    number(pieces.map(|piece| along(problem, *piece)).collect::<BTreeSet<_>>().len())
}

/// A count as a level holds it.
pub(super) fn number(count: usize) -> i64 {
    i64::try_from(count).expect("counts are small")
}
