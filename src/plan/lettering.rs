//! Strips that are alike get one letter; each with its pieces in place, what falls off and what it weighs.

use super::letters::Letters;
use super::measure::{Ends, extents, fall_off, slack};
use super::sizes::Sizes;
use super::weigh::weight;
use super::{Origin, Piece, Strip};
use crate::data::Job;
use crate::length::Length;
use crate::solve::{Direction, PieceCut, SheetUse, StripCut, StripUse};

/// All lettered strips, and for each sheet, board and rip the index of its strip.
pub(super) struct Lettered {
    /// By letter.
    pub(super) strips: Vec<Strip>,
    /// Sheet by sheet, board by board, rip by rip.
    pub(super) places: Vec<Vec<Vec<usize>>>,
}

/// Letters the strips of the sheets in the order of the sheets, then names those on hand.
pub(super) fn letter(job: &Job, sheets: &[SheetUse], on_hand: &[StripUse], sizes: &Sizes) -> Lettered {
    let mut strips: Vec<Strip> = Vec::new();
    let mut places = Vec::new();
    for used in sheets {
        let boards = used.boards.iter().map(|board| {
            let made = |strip: &StripCut| from_sheet(job, used, board.length, strip, sizes);
            board.strips.iter().map(|strip| enlist(&mut strips, made(strip))).collect()
        });
        places.push(boards.collect());
    }
    let mut letters = Letters::beside(job, on_hand);
    for strip in &mut strips {
        strip.letter = letters.next();
    }
    for used in on_hand {
        enlist(&mut strips, from_rack(job, used, sizes));
    }
    letters.name_on_hand(job, &mut strips);
    Lettered { strips, places }
}

/// Adds to the count of a strip like this one, or adds the strip; hands back its index.
fn enlist(strips: &mut Vec<Strip>, strip: Strip) -> usize {
    let like = |known: &Strip| {
        (known.origin, known.width, known.length) == (strip.origin, strip.width, strip.length)
            && known.pieces == strip.pieces
    };
    if let Some(at) = strips.iter().position(like) {
        strips[at].count += strip.count;
        return at;
    }
    strips.push(strip);
    strips.len() - 1
}

fn from_sheet(job: &Job, used: &SheetUse, length: Length, strip: &StripCut, sizes: &Sizes) -> Strip {
    let sheet = &job.sheets[used.sheet];
    let whole = used.boards.len() == 1;
    debug_assert!(!whole || length == extents(sheet, used.direction).0);
    let (narrowest, widest) = accepted(job, strip);
    let origin = Origin::Sheet { sheet: used.sheet, grain_along: used.direction == Direction::Along };
    let bare = Strip {
        count: used.count,
        narrowest,
        widest,
        weight: weight(sheet, strip.width, length),
        ..blank(origin, strip.width, length)
    };
    with_pieces(job, bare, &strip.pieces, Ends::of_sheet(job, sheet, whole), sizes)
}

fn from_rack(job: &Job, used: &StripUse, sizes: &Sizes) -> Strip {
    let strip = &job.strips[used.strip];
    let bare = Strip {
        count: used.count,
        weight: strip.sheet.and_then(|sheet| weight(&job.sheets[sheet], strip.width, strip.length)),
        ..blank(Origin::OnHand { strip: used.strip }, strip.width, strip.length)
    };
    with_pieces(job, bare, &used.pieces, Ends::on_hand(job), sizes)
}

fn blank(origin: Origin, width: Length, length: Length) -> Strip {
    Strip {
        letter: String::new(),
        origin,
        count: 0,
        width,
        narrowest: width,
        widest: width,
        length,
        squaring: Length::ZERO,
        pieces: Vec::new(),
        fall_off: Length::ZERO,
        weight: None,
    }
}

/// The widths that the strip may come out at: no panel under its smallest size, none over its nominal one, unless the
/// yard's tolerance is so wide that even the strip as asked for is over it.
fn accepted(job: &Job, strip: &StripCut) -> (Length, Length) {
    let nominal = |piece: &PieceCut| {
        let panel = &job.panels[piece.panel];
        if piece.turned { panel.height } else { panel.width }
    };
    let least = strip.pieces.iter().map(|piece| nominal(piece) - job.panels[piece.panel].scant).max();
    let most = strip.pieces.iter().filter(|piece| !piece.trimmed).map(nominal).min();
    let most = most.map_or(strip.width + job.yard.tolerance, |most| most.max(strip.width));
    (least.unwrap_or(strip.width), most)
}

/// Sets the pieces one after the other from the squared end.
fn with_pieces(job: &Job, strip: Strip, pieces: &[PieceCut], ends: Ends, sizes: &Sizes) -> Strip {
    let kerf = job.saw.kerf;
    let sure_width = match strip.origin {
        Origin::Sheet { .. } => strip.width - job.yard.tolerance,
        Origin::OnHand { .. } => strip.width,
    };
    let mut along = ends.first;
    let place = |piece: &PieceCut| {
        let width = if piece.trimmed { sizes.across(piece) } else { sure_width };
        let placed = Piece {
            panel: piece.panel,
            turned: piece.turned,
            extra: piece.extra,
            along,
            length: sizes.along(piece),
            width,
            trimmed: piece.trimmed,
        };
        along += placed.length + kerf;
        placed
    };
    let pieces: Vec<Piece> = pieces.iter().map(place).collect();
    let usable = strip.length - ends.first - ends.far;
    let left = slack(usable, pieces.iter().map(|piece| piece.length), kerf);
    Strip { squaring: ends.first, pieces, fall_off: fall_off(left, kerf), ..strip }
}
