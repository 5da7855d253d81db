//! How panels may lie on strips, at their smallest sizes: which side across, which along, and which width of strip
//! gives the side across without trimming.

use super::shop::Shop;
use yardslip::data::{Grain, Job, Panel, RipWidths, Rips, Yard};
use yardslip::length::Length;

/// One side of a panel.
#[derive(Clone, Copy)]
pub(super) struct Side {
    /// The smallest it may come out.
    pub(super) least: Length,
    /// Nominal.
    pub(super) most: Length,
    /// The strip width to ask the yard for; `None` where no permitted width gives this side within its scant.
    pub(super) asked: Option<Length>,
}

/// One way for a panel to lie on a strip.
#[derive(Clone, Copy)]
pub(super) struct Lie {
    /// Its line in the job.
    pub(super) line: usize,
    /// The side across the strip.
    pub(super) across: Side,
    /// Its smallest extent along the strip.
    pub(super) along: Length,
}

/// All the ways to lie on strips of a sheet kind (`None`: unknown) whose face grain runs along them or not.
pub(super) fn lies(job: &Shop, kind: Option<usize>, grain_along: bool) -> Vec<Lie> {
    let mut lies = Vec::new();
    for (line, panel) in job.panels.iter().enumerate() {
        if !panel.sheets.is_empty() && kind.is_none_or(|kind| !panel.sheets.contains(&kind)) {
            continue;
        }
        let [width, height] = job.sides[line];
        if may_lie(panel.grain, grain_along, false) {
            lies.push(Lie { line, across: width, along: height.least });
        }
        if may_lie(panel.grain, grain_along, true) {
            lies.push(Lie { line, across: height, along: width.least });
        }
    }
    lies
}

/// Whether grain lets a panel lie so. Upright grain runs along the height, and a panel's height lies along the strip
/// unless it is turned.
fn may_lie(grain: Grain, grain_along: bool, turned: bool) -> bool {
    let along_height = grain_along ^ turned;
    match grain {
        Grain::Any => true,
        Grain::Upright => along_height,
        Grain::Level => !along_height,
    }
}

/// A side of a panel that may come out no smaller than `smallest`; its height lies across a strip where it is `turned`.
/// All panels of a size come out alike: a side that a strip width fixes somewhere is so everywhere.
pub(super) fn side(job: &Job, panel: &Panel, smallest: Length, turned: bool) -> Side {
    let most = if turned { panel.height } else { panel.width };
    let along = job.yard.rips != Rips::Across && may_lie(panel.grain, true, turned);
    let across = job.yard.rips != Rips::Along && may_lie(panel.grain, false, turned);
    let asked = if along || across { asked(job, smallest, most) } else { None };
    Side { least: asked.map_or(smallest, |width| width - job.yard.tolerance), most, asked }
}

/// The narrowest strip that the yard is willing to cut and that, as far off as the yard may be, gives the side.
fn asked(job: &Job, smallest: Length, most: Length) -> Option<Length> {
    let (from, to) = (smallest + job.yard.tolerance, most + job.yard.tolerance);
    narrowest_permitted(&job.yard, from.max(job.yard.narrowest)).filter(|width| *width <= to)
}

/// The narrowest strip, of this width or more, that the yard is willing to cut.
pub(super) fn narrowest_permitted(yard: &Yard, from: Length) -> Option<Length> {
    match &yard.rip_widths {
        RipWidths::Any => Some(from),
        RipWidths::Only(widths) => widths.iter().copied().filter(|width| *width >= from).min(),
        RipWidths::Step(step) => Some(*step * ((from.raw() + step.raw() - 1) / step.raw())),
    }
}
