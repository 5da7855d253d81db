//! Numbered sheets with their boards, rips and the yard's cuts in order, each with what it leaves.

use super::measure::{board_cuts, extents};
use super::order::yard_key;
use super::{Board, Rip, SheetGroup, YardCut, YardGroup};
use crate::data::{Job, Sheet};
use crate::length::Length;
use crate::solve::{BoardUse, SheetUse, StripCut};

/// The groups of sheets, numbered from 1; `places` names each rip's strip.
pub(super) fn groups(job: &Job, sheets: &[SheetUse], places: &[Vec<Vec<usize>>]) -> Vec<SheetGroup> {
    let mut number = 1;
    let mut groups = Vec::new();
    for (used, places) in sheets.iter().zip(places) {
        groups.push(group(job, used, places, number));
        number += used.count;
    }
    groups
}

/// The same sheets as the yard sees them; `sheets` are those the groups were made from.
pub(super) fn yard(sheets: &[SheetUse]) -> Vec<YardGroup> {
    let mut seen = Vec::new();
    let mut groups: Vec<YardGroup> = Vec::new();
    for (index, used) in sheets.iter().enumerate() {
        let key = yard_key(used);
        if let Some(at) = seen.iter().position(|known| *known == key) {
            groups[at].sheets.push(index);
            groups[at].count += used.count;
        } else {
            seen.push(key);
            groups.push(YardGroup { sheets: vec![index], count: used.count });
        }
    }
    groups
}

fn group(job: &Job, used: &SheetUse, places: &[Vec<usize>], number: u32) -> SheetGroup {
    let sheet = &job.sheets[used.sheet];
    let ripped_side = extents(sheet, used.direction).1;
    let needs = used.boards.iter().map(|board| needs(job, sheet, board)).max().unwrap_or_default();
    SheetGroup {
        number,
        count: used.count,
        sheet: used.sheet,
        kind: sheet.name.clone(),
        length: sheet.length,
        width: sheet.width,
        edge_trim: sheet.edge_trim,
        direction: used.direction,
        boards: boards(job, used, places),
        cuts: cuts(job, used),
        needs,
        leaves: ripped_side - needs,
        measure_first: ripped_side - needs < sheet.tolerance,
    }
}

/// How much of the ripped side a board's strips need, kerfs and both edge trims included.
fn needs(job: &Job, sheet: &Sheet, board: &BoardUse) -> Length {
    let strips: Length = board.strips.iter().map(|strip| strip.width + job.yard.kerf).sum();
    if board.strips.is_empty() { Length::ZERO } else { sheet.edge_trim * 2 + strips - job.yard.kerf }
}

fn boards(job: &Job, used: &SheetUse, places: &[Vec<usize>]) -> Vec<Board> {
    let mut start = Length::ZERO;
    let mut boards = Vec::new();
    for (index, (board, places)) in used.boards.iter().zip(places).enumerate() {
        let left = left_after(job, used, board);
        boards.push(Board {
            start,
            length: board.length,
            from_far_end: index > 0,
            rips: rips(job, used, board, places),
            fall_off: left.last().copied().unwrap_or(extents(&job.sheets[used.sheet], used.direction).1),
        });
        start += board.length + job.yard.kerf;
    }
    boards
}

fn rips(job: &Job, used: &SheetUse, board: &BoardUse, places: &[usize]) -> Vec<Rip> {
    let mut across = job.sheets[used.sheet].edge_trim;
    let mut rips = Vec::new();
    for (strip, place) in board.strips.iter().zip(places) {
        rips.push(Rip { across, width: strip.width, strip: *place });
        across += strip.width + job.yard.kerf;
    }
    rips
}

/// The width left beyond each strip and its kerf, far edge trim included.
fn left_after(job: &Job, used: &SheetUse, board: &BoardUse) -> Vec<Length> {
    let sheet = &job.sheets[used.sheet];
    let whole = extents(sheet, used.direction).1 - sheet.edge_trim;
    let after = |left: &mut Length, width: Length| {
        *left = *left - width - job.yard.kerf;
        Some((*left).max(Length::ZERO))
    };
    board.strips.iter().map(|strip| strip.width).scan(whole, after).collect()
}

fn cuts(job: &Job, used: &SheetUse) -> Vec<YardCut> {
    let breakdown = (used.boards.len() > 1).then(|| YardCut::Breakdown { at: used.boards[0].length });
    let boards = used.boards.iter().enumerate().flat_map(|(index, board)| cuts_of_board(job, used, index, board));
    breakdown.into_iter().chain(boards).collect()
}

/// The reference edge first where it is trimmed, then strip by strip; a last strip that uses the board up needs no cut.
fn cuts_of_board(job: &Job, used: &SheetUse, index: usize, board: &BoardUse) -> Vec<YardCut> {
    let sheet = &job.sheets[used.sheet];
    let slack = extents(sheet, used.direction).1 - needs(job, sheet, board);
    let in_all = board_cuts(board.strips.len(), slack, sheet.edge_trim) as usize;
    let trimmed = sheet.edge_trim.is_positive() && in_all > 0;
    let edge = trimmed.then_some(YardCut::EdgeTrim { board: index, off: sheet.edge_trim });
    let left = left_after(job, used, board);
    let cut =
        |(rip, strip): (usize, &StripCut)| YardCut::Rip { board: index, rip, width: strip.width, left: left[rip] };
    edge.into_iter().chain(board.strips.iter().enumerate().map(cut)).take(in_all).collect()
}
