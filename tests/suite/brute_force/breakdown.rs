//! A sheet that is crosscut once before it is ripped: both boards are ripped the same way, each into strips of its own.
//! Every place of that cut that could matter is tried: those that leave the first board just long enough for something,
//! and the one that makes the second board just short enough for the car.

use super::made::Made;
use super::sheets::{Way, board, keep_fewest};
use super::shop::Shop;
use super::sides::lies;
use super::strips::{Extent, needs};
use std::collections::{BTreeMap, BTreeSet};
use yardslip::data::Breakdown;
use yardslip::length::Length;

/// All that a broken-down sheet gives, with the fewest cuts for each.
pub(super) fn makes(job: &Shop, way: Way, want: Made) -> BTreeMap<Made, u32> {
    let mut all = BTreeMap::new();
    if !allowed(job, way) {
        return all;
    }
    for first in first_boards(job, way, want) {
        let second = way.board - job.yard.kerf - first;
        // The far end's rough wood stays with the board that ends there.
        let rough = job.sheets[way.kind].edge_trim - job.yard.kerf;
        if !first.is_positive() || !second.is_positive() || first < rough || second < rough {
            continue;
        }
        let (left, right) = (ripped(job, way, first, want), ripped(job, way, second, want));
        for (one, cuts) in &left {
            let both = right.iter().map(|(other, more)| (one.plus(*other, want), cuts + more + 1));
            both.for_each(|(made, cuts)| keep_fewest(&mut all, BTreeMap::from([(made, cuts)])));
        }
    }
    all
}

fn allowed(job: &Shop, way: Way) -> bool {
    match job.yard.breakdown {
        Breakdown::Never => false,
        Breakdown::IfNeeded => job.car.longest.is_some_and(|limit| way.board > limit),
        Breakdown::Allowed => true,
    }
}

/// What one board gives; also nothing at all, with no cuts. A board too long for the car stays whole.
fn ripped(job: &Shop, way: Way, length: Length, want: Made) -> BTreeMap<Made, u32> {
    let mut all = BTreeMap::from([(Made::default(), 0)]);
    if job.car.longest.is_none_or(|limit| length <= limit) {
        let extent = Extent { usable: length - lost(job, way), stub: Length::ZERO };
        keep_fewest(&mut all, board(job, way, extent, want));
    }
    all
}

/// Each board has one factory end, which is squared; the other is a fresh cut.
fn lost(job: &Shop, way: Way) -> Length {
    job.saw.squaring.max(job.sheets[way.kind].edge_trim)
}

fn first_boards(job: &Shop, way: Way, want: Made) -> BTreeSet<Length> {
    let mut lengths = BTreeSet::new();
    let along: Vec<(usize, Length)> =
        lies(job, Some(way.kind), way.along).iter().map(|lie| (lie.line, lie.along)).collect();
    pieces(job, &along, way.board, want, (&mut Vec::new(), Made::default()), &mut lengths);
    let mut boards: BTreeSet<Length> = lengths.iter().map(|length| *length + lost(job, way)).collect();
    boards.extend(job.car.longest.map(|longest| way.board - job.yard.kerf - longest));
    boards
}

/// The lengths that pieces one after the other need, with and without something for the hand to hold.
fn pieces(
    job: &Shop,
    along: &[(usize, Length)],
    most: Length,
    want: Made,
    (row, made): (&mut Vec<Length>, Made),
    lengths: &mut BTreeSet<Length>,
) {
    for (at, (line, length)) in along.iter().enumerate() {
        row.push(*length);
        let (need, more) = (needs(job, row), made.and_one(*line));
        if need <= most && more.within(want) {
            lengths.extend([need, need + job.saw.kerf + job.saw.shortest]);
            pieces(job, &along[at..], most, want, (row, more), lengths);
        }
        row.pop();
    }
}
