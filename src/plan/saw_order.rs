//! The saw order: each stop-block setting once. Pieces too short to hold come first, while the strip is long and the
//! hand has the long end; then longest first. Every strip's pieces stand in the same order, so that it can be followed.

use super::order::Turn;
use super::{Piece, StopCut, StopSetting, Strip, Trim};
use crate::data::Job;
use crate::length::Length;
use std::collections::BTreeMap;

/// The settings in the order they are set.
pub(super) fn stops(job: &Job, strips: &[Strip]) -> Vec<StopSetting> {
    let mut settings: BTreeMap<(Turn, Length), Vec<StopCut>> = BTreeMap::new();
    for (index, strip) in strips.iter().enumerate() {
        for pieces in strip.pieces.chunk_by(|a, b| a.length == b.length) {
            let turn = Turn::of(job, pieces[0].length);
            settings.entry((turn, pieces[0].length)).or_default().push(cut(job, index, strip, pieces));
        }
    }
    settings.into_iter().map(|((_, setting), cuts)| StopSetting { setting, cuts }).collect()
}

/// What is cut from one strip at one setting.
fn cut(job: &Job, index: usize, strip: &Strip, pieces: &[Piece]) -> StopCut {
    let last = pieces.last().expect("a setting has pieces");
    let left = strip.length - last.along - last.length - job.saw.kerf;
    StopCut {
        strip: index,
        strips: strip.count,
        square_first: strip.squaring.is_positive() && pieces[0].along == strip.squaring,
        pieces: pieces.iter().map(|piece| piece.panel).collect(),
        left: left.max(Length::ZERO),
        hold_long_end: !Turn::of(job, last.length).held,
    }
}

/// Panels to trim to width once all is crosscut, line by line.
pub(super) fn trims(strips: &[Strip]) -> Vec<Trim> {
    let mut trims: BTreeMap<(usize, usize, Length), Trim> = BTreeMap::new();
    for (index, strip) in strips.iter().enumerate() {
        for piece in strip.pieces.iter().filter(|piece| piece.trimmed) {
            let trim = Trim { panel: piece.panel, strip: index, count: 0, from: strip.width, to: piece.width };
            trims.entry((piece.panel, index, piece.width)).or_insert(trim).count += strip.count;
        }
    }
    trims.into_values().collect()
}
