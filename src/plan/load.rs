//! What goes into the car: extents, weight, and in how many trips.

use super::weigh::weight;
use super::{Load, Offcut, Origin, SheetGroup, Strip};
use crate::data::{Car, Job};
use crate::length::Length;

/// Weights are summed in floating point: a load this much over the limit is on it.
const ROUNDING: f64 = 1e-9;
/// No one drives more often; a limit that small is a slip of the pen.
const MOST_TRIPS: u32 = 1_000_000;

/// One kind of piece that the yard hands over.
#[derive(Clone, Copy, Debug)]
pub(super) struct Cargo {
    width: Length,
    length: Length,
    weight: Option<f64>,
    count: u32,
}

impl Cargo {
    /// True where the piece goes into the car, either way round.
    pub(super) fn fits(&self, car: &Car) -> bool {
        let under = |side: Length, limit: Option<Length>| limit.is_none_or(|limit| side <= limit);
        let goes = |length, width| under(length, car.longest) && under(width, car.widest);
        goes(self.length, self.width) || goes(self.width, self.length)
    }

    /// An offcut as cargo.
    pub(super) fn offcut(job: &Job, left: &Offcut) -> Self {
        let weight = left.sheet.and_then(|sheet| weight(&job.sheets[sheet], left.width, left.length));
        Cargo { width: left.width, length: left.length, weight, count: left.count }
    }
}

/// The yard's strips and fall-offs.
pub(super) fn load(job: &Job, sheets: &[SheetGroup], strips: &[Strip]) -> Load {
    let cargo = cargo(job, sheets, strips);
    let weights = cargo.iter().map(|cargo| cargo.weight.map(|weight| weight * f64::from(cargo.count)));
    let weight: Option<f64> = weights.sum();
    Load {
        longest: cargo.iter().map(|cargo| cargo.length).max().unwrap_or_default(),
        widest: cargo.iter().map(|cargo| cargo.width).max().unwrap_or_default(),
        weight,
        trips: weight.zip(job.car.heaviest).map_or(1, |(weight, limit)| trips(weight, limit)),
    }
}

/// Trips by weight, one at least; a load that is just the limit goes in one.
fn trips(weight: f64, limit: f64) -> u32 {
    let mut trips = 1;
    while weight > limit * f64::from(trips) * (1.0 + ROUNDING) && trips < MOST_TRIPS {
        trips += 1;
    }
    trips
}

fn cargo(job: &Job, sheets: &[SheetGroup], strips: &[Strip]) -> Vec<Cargo> {
    let ripped = strips.iter().filter(|strip| matches!(strip.origin, Origin::Sheet { .. })).map(|strip| Cargo {
        width: strip.width,
        length: strip.length,
        weight: strip.weight,
        count: strip.count,
    });
    let boards = sheets.iter().flat_map(|group| group.boards.iter().map(move |board| (group, board)));
    let left = boards.filter(|(_, board)| board.fall_off.is_positive()).map(|(group, board)| Cargo {
        width: board.fall_off,
        length: board.length,
        weight: weight(&job.sheets[group.sheet], board.fall_off, board.length),
        count: group.count,
    });
    ripped.chain(left).collect()
}
