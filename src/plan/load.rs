//! What goes into the car: extents, weight, and in how many trips. What does not fit the car stays at the yard.

use super::weigh::weight;
use super::{Load, Offcut, Origin, SheetGroup, Strip};
use crate::data::{Car, Job};
use crate::length::Length;

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

/// The yard's strips, and its fall-offs that fit the car.
pub(super) fn load(job: &Job, sheets: &[SheetGroup], strips: &[Strip]) -> Load {
    let cargo: Vec<Cargo> = cargo(job, sheets, strips).into_iter().filter(|cargo| cargo.fits(&job.car)).collect();
    let weights = cargo.iter().map(|cargo| cargo.weight.map(|weight| weight * f64::from(cargo.count)));
    let weight: Option<f64> = weights.sum();
    Load {
        longest: cargo.iter().map(|cargo| cargo.length.max(cargo.width)).max().unwrap_or_default(),
        widest: cargo.iter().map(|cargo| cargo.length.min(cargo.width)).max().unwrap_or_default(),
        weight,
        trips: job.car.heaviest.filter(|_| weight.is_some()).map_or(1, |limit| trips(&cargo, limit)),
    }
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

/// Trips under a weight limit, heaviest pieces first, each into the first trip that still carries it; a piece above the
/// limit rides alone.
fn trips(cargo: &[Cargo], limit: f64) -> u32 {
    let each = |cargo: &Cargo| std::iter::repeat_n(cargo.weight.unwrap_or(0.0), cargo.count as usize);
    let mut weights: Vec<f64> = cargo.iter().flat_map(each).collect();
    weights.sort_by(|a, b| b.total_cmp(a));
    let mut carried: Vec<f64> = Vec::new();
    for weight in weights {
        match carried.iter_mut().find(|carried| **carried + weight <= limit) {
            Some(trip) => *trip += weight,
            None => carried.push(weight),
        }
    }
    u32::try_from(carried.len()).expect("trips are few").max(1)
}
