//! From the solver's answer to strips on a roll: pieces handed back to their lots, strips in cutting order, and the
//! lengths that are bought for them.

use super::canvas::{RollPiece, RollStrip};
use super::lots::Lot;
use super::roll_job::Pieces;
use crate::data::week::Canvas;
use crate::length::Length;
use crate::solve::{Solved, StripCut};

/// The strips of an answer, deepest first and alike ones together, not yet placed on any length.
pub(super) fn strips(solved: &Solved, pieces: &[Pieces], lots: &[Lot], canvas: &Canvas) -> Vec<RollStrip> {
    let cuts = solved.sheets.iter().flat_map(|sheet| {
        let strips = sheet.boards.iter().flat_map(|board| &board.strips);
        std::iter::repeat_n(strips, sheet.count as usize).flatten()
    });
    let mut waiting: Vec<Vec<usize>> = pieces.iter().map(queue).collect();
    let mut strips: Vec<RollStrip> = cuts
        .map(|cut| strip(cut, pieces, &mut waiting, lots, canvas))
        .filter(|strip| !strip.pieces.is_empty())
        .collect();
    strips.sort_by(|a, b| b.depth.cmp(&a.depth).then_with(|| a.pieces.cmp(&b.pieces)));
    strips
}

/// Lots of some pieces, one entry a piece, the last to be handed out first.
fn queue(pieces: &Pieces) -> Vec<usize> {
    let each = pieces.lots.iter().flat_map(|(lot, count)| std::iter::repeat_n(*lot, *count as usize));
    let mut queue: Vec<usize> = each.collect();
    queue.reverse();
    queue
}

fn strip(cut: &StripCut, pieces: &[Pieces], waiting: &mut [Vec<usize>], lots: &[Lot], canvas: &Canvas) -> RollStrip {
    let mut placed: Vec<RollPiece> = Vec::new();
    for piece in &cut.pieces {
        let Some(lot) = waiting[piece.panel].pop() else { continue };
        let Pieces { width, height, .. } = pieces[piece.panel];
        let (across, along) = if piece.turned { (width, height) } else { (height, width) };
        placed.push(RollPiece { panel: lots[lot].panel, left: Length::ZERO, across, along, turned: !piece.turned });
    }
    placed.sort_by_key(|piece| (std::cmp::Reverse(piece.along), std::cmp::Reverse(piece.across), piece.panel));
    let mut left = canvas.selvedge;
    for piece in &mut placed {
        piece.left = left;
        left += piece.across;
    }
    let depth = placed.iter().map(|piece| piece.along).max().unwrap_or(Length::ZERO);
    RollStrip { from: 0, at: Length::ZERO, depth, pieces: placed }
}

/// Places strips on lengths of roll, the first that has room; returns how much of each length they take.
pub(super) fn onto_lengths(strips: &mut [RollStrip], canvas: &Canvas) -> Vec<Length> {
    let longest = canvas.sold.longest.unwrap_or(Length::MAX);
    let mut taken: Vec<Length> = Vec::new();
    for strip in strips.iter_mut() {
        let from = taken.iter().position(|length| *length + strip.depth <= longest).unwrap_or(taken.len());
        if from == taken.len() {
            taken.push(Length::ZERO);
        }
        (strip.from, strip.at) = (from, taken[from]);
        taken[from] += strip.depth;
    }
    strips.sort_by_key(|strip| (strip.from, strip.at));
    taken
}
