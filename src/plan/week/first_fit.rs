//! Strips across the roll without a search: the deepest pieces first, each on the first strip with room for it. For
//! when no time is left to look for better ones; what their area alone takes is the least that is then known.

use super::canvas::{RollPiece, RollStrip};
use super::lots::Lot;
use super::roll_job::{Pieces, step, usable, ways};
use crate::data::week::Canvas;
use crate::length::{Area, Length};

/// Strips that hold every piece, deepest first, not yet placed on any length.
pub(super) fn strips(pieces: &[Pieces], lots: &[Lot], canvas: &Canvas) -> Vec<RollStrip> {
    let mut waiting: Vec<RollPiece> = pieces.iter().flat_map(|pieces| shallow(pieces, lots, canvas)).collect();
    waiting.sort_by_key(|piece| (std::cmp::Reverse(piece.along), std::cmp::Reverse(piece.across), piece.panel));
    let mut strips: Vec<RollStrip> = Vec::new();
    for piece in waiting {
        let end = |strip: &RollStrip| strip.pieces.last().map_or(canvas.selvedge, |last| last.left + last.across);
        let room = |strip: &&mut RollStrip| end(strip) + piece.across <= canvas.roll - canvas.selvedge;
        match strips.iter_mut().find(room) {
            Some(strip) => strip.pieces.push(RollPiece { left: end(strip), ..piece }),
            None => strips.push(RollStrip {
                from: 0,
                at: Length::ZERO,
                depth: piece.along,
                pieces: vec![RollPiece { left: canvas.selvedge, ..piece }],
            }),
        }
    }
    strips
}

/// The pieces of one size, each the way that takes least of the roll's length.
fn shallow(pieces: &Pieces, lots: &[Lot], canvas: &Canvas) -> Vec<RollPiece> {
    let ways = ways((pieces.width, pieces.height), canvas);
    let Some((across, along)) = ways.into_iter().min_by_key(|way| way.1) else { return Vec::new() };
    let turned = across != pieces.width;
    let piece = |lot: usize| RollPiece { panel: lots[lot].panel, left: Length::ZERO, across, along, turned };
    pieces.lots.iter().flat_map(|(lot, count)| std::iter::repeat_n(piece(*lot), *count as usize)).collect()
}

/// No cut plan takes less of the roll than the area of its pieces, in steps of what all depths are multiples of.
pub(super) fn bound(pieces: &[Pieces], canvas: &Canvas) -> Length {
    let count = |pieces: &Pieces| pieces.lots.iter().map(|lot| i64::from(lot.1)).sum::<i64>();
    let area: Area = pieces.iter().map(|pieces| pieces.width * pieces.height * count(pieces)).sum();
    let step = step(pieces, canvas);
    let steps = area.share_of(usable(canvas) * step);
    #[allow(clippy::cast_possible_truncation)] // far fewer steps than raw units on a roll
    let steps = (steps * (1.0 - 1e-9)).ceil() as i64;
    step * steps
}
