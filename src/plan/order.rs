//! The solved sheets and strips put in the order of the work: pieces as the stop block is set, rips widest first from
//! the reference edge, equal sheets together. The same answer comes out the same, however the solver listed it.

use super::sizes::Sizes;
use crate::data::Job;
use crate::length::Length;
use crate::solve::{BoardUse, Direction, PieceCut, SheetUse, Solved, StripCut, StripUse};
use std::cmp::Reverse;
use std::collections::BTreeMap;

/// How the yard sees a sheet: its kind, direction, and its boards' lengths with their rip widths.
pub(super) type YardKey = (usize, Direction, Vec<(Length, Vec<Length>)>);

/// How the yard sees this sheet.
pub(super) fn yard_key(used: &SheetUse) -> YardKey {
    let widths = |board: &BoardUse| board.strips.iter().map(|strip| strip.width).collect();
    (used.sheet, used.direction, used.boards.iter().map(|board| (board.length, widths(board))).collect())
}

/// The sheets at their grown sizes in the order of their numbers: kind by kind, what the yard cuts alike together,
/// most numerous first.
pub(super) fn sheets(job: &Job, solved: &Solved, sizes: &Sizes) -> Vec<SheetUse> {
    let mut alike: BTreeMap<SheetUse, u32> = BTreeMap::new();
    for used in &solved.sheets {
        *alike.entry(SheetUse { count: 0, ..sheet(job, used, sizes) }).or_default() += used.count;
    }
    let mut sheets: Vec<SheetUse> = alike.into_iter().map(|(used, count)| SheetUse { count, ..used }).collect();
    let mut at_the_yard: BTreeMap<YardKey, u32> = BTreeMap::new();
    for used in &sheets {
        *at_the_yard.entry(yard_key(used)).or_default() += used.count;
    }
    sheets.sort_by_cached_key(|used| {
        let key = yard_key(used);
        (used.sheet, Reverse(at_the_yard[&key]), Reverse(key), Reverse(used.count))
    });
    sheets
}

/// The strips on hand that are used, equal uses together.
pub(super) fn on_hand(job: &Job, solved: &Solved, sizes: &Sizes) -> Vec<StripUse> {
    let mut alike: BTreeMap<(usize, Vec<PieceCut>), u32> = BTreeMap::new();
    for used in &solved.on_hand {
        let pieces = pieces(job, &used.pieces, sizes, job.strips[used.strip].width);
        *alike.entry((used.strip, pieces)).or_default() += used.count;
    }
    alike.into_iter().map(|((strip, pieces), count)| StripUse { strip, count, pieces }).collect()
}

fn sheet(job: &Job, used: &SheetUse, sizes: &Sizes) -> SheetUse {
    let mut boards: Vec<BoardUse> = used.boards.iter().map(|board| self::board(job, board, sizes)).collect();
    boards.sort_by(|a, b| b.length.cmp(&a.length).then_with(|| a.strips.cmp(&b.strips)));
    SheetUse { boards, ..used.clone() }
}

fn board(job: &Job, board: &BoardUse, sizes: &Sizes) -> BoardUse {
    let mut strips: Vec<StripCut> = board.strips.iter().map(|strip| self::strip(job, strip, sizes)).collect();
    strips.sort_by(|a, b| b.width.cmp(&a.width).then_with(|| a.pieces.cmp(&b.pieces)));
    BoardUse { length: board.length, strips }
}

fn strip(job: &Job, strip: &StripCut, sizes: &Sizes) -> StripCut {
    let width = sizes.asked(&job.yard, strip);
    StripCut { width, pieces: pieces(job, &strip.pieces, sizes, width - job.yard.tolerance) }
}

/// Pieces in cutting order; one that has grown as wide as its strip surely is needs no trimming any more.
fn pieces(job: &Job, pieces: &[PieceCut], sizes: &Sizes, sure_width: Length) -> Vec<PieceCut> {
    let trimmed = |piece: &PieceCut| piece.trimmed && sizes.across(piece) < sure_width;
    let mut pieces: Vec<PieceCut> = pieces.iter().map(|piece| PieceCut { trimmed: trimmed(piece), ..*piece }).collect();
    pieces.sort_by_key(|piece| (Turn::of(job, sizes.along(piece)), *piece));
    pieces
}

/// When a stop-block setting has its turn: pieces too short to hold are cut while the strip is long, then longest
/// first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Turn {
    /// True where the hand can hold the piece itself.
    pub(super) held: bool,
    setting: Reverse<Length>,
}

impl Turn {
    /// The turn of a setting.
    pub(super) fn of(job: &Job, setting: Length) -> Self {
        Turn { held: setting >= job.saw.shortest, setting: Reverse(setting) }
    }
}
