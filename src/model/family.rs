//! Strips that take the same panels: one way of the face grain, one set of sheet kinds. A family lists the strip
//! widths worth asking for and, for each, the ways in which panels can lie on it.

use super::problem::Size;
use super::sizes::{self, Side, grain_permits};
use crate::data::{Grain, Job};
use crate::length::Length;
use std::collections::BTreeSet;

/// One way for a panel size to lie on a strip.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Laid {
    /// Index into [`super::Problem::sizes`].
    pub size: usize,
    /// Its smallest extent along the strip.
    pub along: Length,
    /// True where the panel's height lies across the strip.
    pub turned: bool,
    /// True where it is narrower than the strip and trimmed at home.
    pub trimmed: bool,
}

/// A strip width and what can be cut from it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct StripWidth {
    /// As asked of the yard; for a strip on hand its width as measured.
    pub width: Length,
    /// The ways in which panels can lie on it; never empty.
    pub laid: Vec<Laid>,
}

/// Strips that take the same panels.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Family {
    /// Whether the face grain runs along the strips.
    pub grain_along: bool,
    /// Which sizes the sheet kind lets be cut from it.
    pub takes: Vec<bool>,
    /// Widths, ascending.
    pub widths: Vec<StripWidth>,
}

/// A way to lie before a strip width is chosen: the sides across and along.
struct Lie {
    size: usize,
    turned: bool,
    across: Side,
    along: Length,
}

impl Family {
    /// The family of strips that the yard rips from one of the sheet kinds that these sizes can be cut from.
    pub(super) fn of_yard(job: &Job, sizes: &[Size], takes: Vec<bool>, grain_along: bool) -> Family {
        let lies = lies(sizes, &takes, grain_along);
        let widths = asked_widths(job, &lies).into_iter().map(|width| StripWidth {
            width,
            laid: lies.iter().filter_map(|lie| on_yard_strip(job, lie, width)).collect(),
        });
        let widths = widths.filter(|width| !width.laid.is_empty()).collect();
        Family { grain_along, takes, widths }
    }

    /// The family of one strip on hand; no widths where nothing can be cut from it.
    pub(super) fn of_strip(job: &Job, sizes: &[Size], takes: Vec<bool>, grain_along: bool, width: Length) -> Family {
        let crossed = job.saw.crosses.is_none_or(|limit| width <= limit);
        let lies = if crossed { lies(sizes, &takes, grain_along) } else { Vec::new() };
        let laid: Vec<Laid> = lies.iter().filter_map(|lie| on_hand(job, lie, width)).collect();
        let widths = if laid.is_empty() { Vec::new() } else { vec![StripWidth { width, laid }] };
        Family { grain_along, takes, widths }
    }
}

fn lies(sizes: &[Size], takes: &[bool], grain_along: bool) -> Vec<Lie> {
    let mut lies = Vec::new();
    for (index, size) in sizes.iter().enumerate().filter(|(index, _)| takes[*index]) {
        for turned in [false, true] {
            // Turning a square makes no difference but to its grain.
            let same = turned && size.sides.width == size.sides.height && size.grain == Grain::Any;
            if same || !grain_permits(size.grain, grain_along, turned) {
                continue;
            }
            let (across, along) =
                if turned { (size.sides.height, size.sides.width) } else { (size.sides.width, size.sides.height) };
            lies.push(Lie { size: index, turned, across, along: along.least });
        }
    }
    lies
}

/// The strip widths worth asking for: what the sides ask, and where the saw trims, the narrowest permitted width that
/// holds a side. Wider permitted widths matter only to those who keep offcuts.
fn asked_widths(job: &Job, lies: &[Lie]) -> BTreeSet<Length> {
    let mut widths: BTreeSet<Length> = lies.iter().filter_map(|lie| lie.across.asked).collect();
    if job.saw.trims {
        for lie in lies {
            let least = (lie.across.least + job.yard.tolerance).max(job.yard.narrowest);
            widths.extend(sizes::permitted(&job.yard.rip_widths, least, Length::MAX));
        }
    }
    widths.retain(|width| width_fits(job, *width));
    widths
}

/// Whether yard, saw and car let a strip be so wide.
pub(super) fn width_fits(job: &Job, width: Length) -> bool {
    let limits = [job.yard.widest, job.saw.crosses, job.car.widest];
    width >= job.yard.narrowest && limits.iter().flatten().all(|limit| width <= *limit)
}

fn on_yard_strip(job: &Job, lie: &Lie, width: Length) -> Option<Laid> {
    let exact = lie.across.asked == Some(width);
    let trimmed = !exact && job.saw.trims && width - job.yard.tolerance >= lie.across.least;
    (exact || trimmed).then_some(Laid { size: lie.size, along: lie.along, turned: lie.turned, trimmed })
}

fn on_hand(job: &Job, lie: &Lie, width: Length) -> Option<Laid> {
    let exact = lie.across.least <= width && width <= lie.across.most;
    let trimmed = !exact && job.saw.trims && width > lie.across.most;
    (exact || trimmed).then_some(Laid { size: lie.size, along: lie.along, turned: lie.turned, trimmed })
}
