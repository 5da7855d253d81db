//! What strips can give: every set of panels that one strip takes, for each width that can be asked of the yard and for
//! the strips on hand.

use super::made::{Made, fullest};
use super::shop::Shop;
use super::sides::{Lie, lies, narrowest_permitted};
use std::collections::BTreeSet;
use yardslip::length::Length;

/// A strip's length as the saw at home sees it.
#[derive(Clone, Copy)]
pub(super) struct Extent {
    /// Between the ends that are lost.
    pub(super) usable: Length,
    /// Lost at the far end, which the hand may hold.
    pub(super) stub: Length,
}

/// A strip width and the fullest sets of panels that one such strip gives.
pub(super) struct Width {
    pub(super) width: Length,
    pub(super) makes: BTreeSet<Made>,
}

/// All the widths to ask of the yard for strips of so much length and no wider than `room`.
pub(super) fn widths(
    job: &Shop,
    kind: usize,
    grain_along: bool,
    extent: Extent,
    room: Length,
    want: Made,
) -> Vec<Width> {
    let lies = lies(job, Some(kind), grain_along);
    let widths = candidates(job, &lies, room).into_iter().map(|width| {
        let fit: Vec<Lie> = lies.iter().copied().filter(|lie| gives(job, width, lie)).collect();
        Width { width, makes: fullest(&crosscut(job, &fit, extent, want)) }
    });
    widths.filter(|width| !width.makes.is_empty()).collect()
}

fn gives(job: &Shop, width: Length, lie: &Lie) -> bool {
    let trimmed = job.saw.trims && width - job.yard.tolerance >= lie.across.least;
    lie.across.asked == Some(width) || trimmed
}

/// What the sides that may lie across these strips ask for and, where panels are trimmed at home, the narrowest strip
/// that holds each. No strip is ripped wider than that only to save the last cut.
fn candidates(job: &Shop, lies: &[Lie], room: Length) -> BTreeSet<Length> {
    let yard = &job.yard;
    let mut widths: BTreeSet<Length> = lies.iter().filter_map(|lie| lie.across.asked).collect();
    if job.saw.trims {
        let holds = |lie: &Lie| narrowest_permitted(yard, (lie.across.least + yard.tolerance).max(yard.narrowest));
        widths.extend(lies.iter().filter_map(holds));
    }
    let limits = [yard.widest, job.saw.crosses, job.car.widest, Some(room)];
    widths.retain(|width| *width >= yard.narrowest && limits.iter().flatten().all(|limit| width <= limit));
    widths
}

/// Every set of panels that can be crosscut from one strip.
fn crosscut(job: &Shop, fit: &[Lie], extent: Extent, want: Made) -> BTreeSet<Made> {
    let mut found = BTreeSet::new();
    try_more(job, fit, extent, want, &mut Vec::new(), Made::default(), &mut found);
    found
}

fn try_more(
    job: &Shop,
    fit: &[Lie],
    extent: Extent,
    want: Made,
    pieces: &mut Vec<Length>,
    made: Made,
    found: &mut BTreeSet<Made>,
) {
    for (at, lie) in fit.iter().enumerate() {
        let more = made.and_one(lie.line);
        pieces.push(lie.along);
        if more.within(want) && needs(job, pieces) <= extent.usable {
            if held(job, pieces, extent) {
                found.insert(more);
            }
            try_more(job, &fit[at..], extent, want, pieces, more, found);
        }
        pieces.pop();
    }
}

/// The length that pieces take with the cuts between them.
pub(super) fn needs(job: &Shop, pieces: &[Length]) -> Length {
    pieces.iter().copied().sum::<Length>() + job.saw.kerf * (count(pieces) - 1).max(0)
}

fn count(pieces: &[Length]) -> i64 {
    i64::try_from(pieces.len()).expect("few pieces")
}

/// Whether the hand always has enough to hold. Short pieces are cut first, so that what stays is a longer piece or what
/// falls off after the last cut.
fn held(job: &Shop, pieces: &[Length], extent: Extent) -> bool {
    let short = |piece: &Length| *piece < job.saw.shortest;
    let rest = extent.usable - pieces.iter().copied().sum() - job.saw.kerf * count(pieces);
    !pieces.iter().all(short) || rest.max(Length::ZERO) + extent.stub >= job.saw.shortest
}

/// Everything that the strips on hand can give together, nothing included.
pub(super) fn from_the_rack(job: &Shop, want: Made) -> BTreeSet<Made> {
    let mut all = BTreeSet::from([Made::default()]);
    for (index, strip) in job.strips.iter().enumerate() {
        let gives = on_hand(job, index, want);
        for _ in 0..strip.count {
            let with: Vec<Made> = all.iter().flat_map(|made| gives.iter().map(|more| made.plus(*more, want))).collect();
            all.extend(with);
        }
    }
    fullest(&all)
}

/// The fullest sets of panels that one such strip gives. It is cut already, so that only its true width counts.
fn on_hand(job: &Shop, index: usize, want: Made) -> BTreeSet<Made> {
    let strip = &job.strips[index];
    let crossed = job.saw.crosses.is_none_or(|limit| strip.width <= limit);
    if !crossed || strip.length < job.saw.shortest {
        return BTreeSet::new();
    }
    let gives = |lie: &Lie| {
        let exact = (lie.across.least..=lie.across.most).contains(&strip.width);
        exact || (job.saw.trims && strip.width > lie.across.least)
    };
    let fit: Vec<Lie> = lies(job, strip.sheet, strip.grain_along).into_iter().filter(gives).collect();
    let extent = Extent { usable: strip.length - job.saw.squaring, stub: Length::ZERO };
    fullest(&crosscut(job, &fit, extent, want))
}
