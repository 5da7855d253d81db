//! What one sheet of a kind can give, ripped either way, and the fewest cuts of the yard that it takes.

use super::breakdown;
use super::made::{Made, fullest_at};
use super::shop::Shop;
use super::strips::{Extent, Width, widths};
use std::collections::{BTreeMap, BTreeSet};
use yardslip::data::Rips;
use yardslip::length::Length;

/// A sheet kind ripped one way.
#[derive(Clone, Copy)]
pub(super) struct Way {
    pub(super) kind: usize,
    /// Whether the strips run along the sheet's length, and so along its face grain.
    pub(super) along: bool,
    /// The sheet's extent along the strips.
    pub(super) board: Length,
    /// What can be ripped across them.
    pub(super) room: Length,
}

/// The fullest sets of panels that one sheet gives, with the cuts of the yard.
pub(super) fn makes(job: &Shop, kind: usize, want: Made) -> Vec<(Made, u32)> {
    let mut all = BTreeMap::new();
    for way in ways(job, kind) {
        if job.car.longest.is_none_or(|limit| way.board <= limit) {
            let trim = job.sheets[kind].edge_trim;
            let first = job.saw.squaring.max(trim);
            let extent = Extent { usable: way.board - first - trim, stub: trim };
            keep_fewest(&mut all, board(job, way, extent, want));
        }
        keep_fewest(&mut all, breakdown::makes(job, way, want));
    }
    all.retain(|_, cuts| job.yard.most_cuts.is_none_or(|most| *cuts <= most));
    fullest_at(&all)
}

fn ways(job: &Shop, kind: usize) -> Vec<Way> {
    let sheet = &job.sheets[kind];
    let lost = sheet.edge_trim * 2;
    let along = Way { kind, along: true, board: sheet.length, room: sheet.width - lost };
    let across = Way { kind, along: false, board: sheet.width, room: sheet.length - lost };
    match job.yard.rips {
        Rips::Along => vec![along],
        Rips::Across => vec![across],
        Rips::Either => vec![along, across],
    }
}

pub(super) fn keep_fewest(all: &mut BTreeMap<Made, u32>, more: BTreeMap<Made, u32>) {
    for (made, cuts) in more {
        all.entry(made).and_modify(|fewest| *fewest = cuts.min(*fewest)).or_insert(cuts);
    }
}

/// All that one board gives, with the fewest cuts for each: strips are added one after the other.
pub(super) fn board(job: &Shop, way: Way, extent: Extent, want: Made) -> BTreeMap<Made, u32> {
    let widths = widths(job, way.kind, way.along, extent, way.room, want);
    let mut all = BTreeMap::new();
    let mut ripped = BTreeSet::from([(Length::ZERO, Made::default())]);
    for strips in 1.. {
        ripped = one_more(job, way, &widths, want, &ripped, strips);
        if ripped.is_empty() {
            break;
        }
        let cut = ripped.iter().map(|(used, made)| (*made, cuts(job, way, strips, way.room - *used)));
        for (made, cuts) in cut {
            keep_fewest(&mut all, BTreeMap::from([(made, cuts)]));
        }
    }
    all
}

/// Every way to rip one more strip, as the width used up and what it all makes. A strip that makes nothing new is
/// left out.
fn one_more(
    job: &Shop,
    way: Way,
    widths: &[Width],
    want: Made,
    ripped: &BTreeSet<(Length, Made)>,
    strips: u32,
) -> BTreeSet<(Length, Made)> {
    let kerf = if strips == 1 { Length::ZERO } else { job.yard.kerf };
    let mut more = BTreeSet::new();
    for (used, made) in ripped {
        for width in widths.iter().filter(|width| *used + kerf + width.width <= way.room) {
            let with = width.makes.iter().map(|gives| made.plus(*gives, want)).filter(|with| with != made);
            more.extend(with.map(|with| (*used + kerf + width.width, with)));
        }
    }
    more
}

/// The yard's cuts on a board. With rough edges the reference edge is cut first and the last strip always needs its far
/// cut; else the last cut is saved where the strips use the board up.
fn cuts(job: &Shop, way: Way, strips: u32, left: Length) -> u32 {
    if job.sheets[way.kind].edge_trim.is_positive() {
        strips + 1
    } else if left.is_positive() {
        strips
    } else {
        strips - 1
    }
}
