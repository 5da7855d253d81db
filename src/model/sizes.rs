//! The smallest permitted size of each panel, and the strip width that each of its sides asks of the yard.
//!
//! A strip may come out narrower than asked by the yard's tolerance, so it is asked that much wider than the side it
//! must give. Where the yard cuts only certain widths, or nothing so narrow, a side that may lie across a strip takes
//! the smallest permitted width between its smallest and its nominal size, and that size holds wherever the panel is
//! cut: panels stay alike. A side that only scant makes too short for the hand is cut as long as the hand needs, where
//! the panel cannot be made otherwise.

use super::problem;
use crate::data::{Grain, Job, Panel, RipWidths, Rips};
use crate::length::Length;

/// One side of a panel at its smallest permitted size.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Side {
    /// The smallest it may come out.
    pub least: Length,
    /// Its nominal size, the largest it may come out.
    pub most: Length,
    /// The strip width to ask for where this side lies across a strip without trimming; `None` where the yard cuts no
    /// such width or grain never lets this side lie across.
    pub asked: Option<Length>,
}

/// Both sides of a panel.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct PanelSides {
    /// The level side.
    pub width: Side,
    /// The upright side.
    pub height: Side,
}

/// The sides of each panel line of a job, in their order.
pub fn of(job: &Job) -> Vec<PanelSides> {
    job.panels.iter().map(|panel| held(job, panel)).collect()
}

/// True where a piece may come out too short for the hand, or long enough.
pub fn may_be_held(job: &Job) -> bool {
    let held = |side: Side| too_short_by_scant(side.least, side.most, job.saw.shortest);
    of(job).iter().any(|sides| held(sides.width) || held(sides.height))
}

/// True where a side is kept from its smallest size because of how it may lie across a strip, and may lie along one
/// too.
pub fn may_lie_smaller(job: &Job) -> bool {
    let smaller = |panel: &Panel, side: Side, turned: bool| {
        side.least > side.most - panel.scant && may_lie(job, panel, !turned) && side.asked.is_some()
    };
    let panels = job.panels.iter().zip(of(job));
    panels.into_iter().any(|(panel, sides)| smaller(panel, sides.width, false) || smaller(panel, sides.height, true))
}

/// True where a panel of this grain may lie on a strip whose face grain runs along it or not, turned or not.
pub const fn grain_permits(grain: Grain, grain_along: bool, turned: bool) -> bool {
    match grain {
        Grain::Any => true,
        Grain::Upright => grain_along != turned,
        Grain::Level => grain_along == turned,
    }
}

/// True where the yard may rip strips whose grain runs along them (or across them).
pub const fn yard_rips(rips: Rips, grain_along: bool) -> bool {
    match rips {
        Rips::Either => true,
        Rips::Along => grain_along,
        Rips::Across => !grain_along,
    }
}

/// The sides as small as the panel can be made with.
fn held(job: &Job, panel: &Panel) -> PanelSides {
    let smallest = [panel.width, panel.height].map(|side| side - panel.scant);
    let shortest = job.saw.shortest;
    let raised = |side: usize| {
        let short = too_short_by_scant(smallest[side], [panel.width, panel.height][side], shortest);
        if short { shortest } else { smallest[side] }
    };
    let (width, height) = (raised(0), raised(1));
    let sides = |[width, height]: [Length; 2]| PanelSides {
        width: side(job, panel, (width, panel.width), false),
        height: side(job, panel, (height, panel.height), true),
    };
    if [width, height] == smallest {
        return sides(smallest);
    }
    let alone = Job { panels: vec![Panel { count: 1, ..panel.clone() }], ..job.clone() };
    let ways = [smallest, [width, smallest[1]], [smallest[0], height], [width, height]];
    let made = ways.into_iter().map(sides).find(|sides| problem::assemble_at(&alone, &[*sides]).makes(0));
    made.unwrap_or_else(|| sides(smallest))
}

fn too_short_by_scant(least: Length, most: Length, shortest: Length) -> bool {
    least < shortest && shortest <= most
}

/// Whether a panel may lie so on some strip from the yard.
fn may_lie(job: &Job, panel: &Panel, turned: bool) -> bool {
    let grains = [true, false].into_iter();
    grains.filter(|along| yard_rips(job.yard.rips, *along)).any(|along| grain_permits(panel.grain, along, turned))
}

/// A side from its `least` size, one that lies across a strip when the panel is `turned` (its height) or not (its
/// width).
fn side(job: &Job, panel: &Panel, (least, most): (Length, Length), turned: bool) -> Side {
    let (yard, tolerance) = (&job.yard, job.yard.tolerance);
    let strip = (least + tolerance).max(yard.narrowest);
    let asked = if may_lie(job, panel, turned) { permitted(&yard.rip_widths, strip, most + tolerance) } else { None };
    Side { least: asked.map_or(least, |width| width - tolerance), most, asked }
}

/// The smallest strip width the yard is willing to cut from `least` to `most`.
pub fn permitted(widths: &RipWidths, least: Length, most: Length) -> Option<Length> {
    let width = match widths {
        RipWidths::Any => Some(least),
        RipWidths::Only(list) => list.iter().copied().filter(|width| *width >= least).min(),
        RipWidths::Step(step) => {
            let below = least.round_down(*step);
            Some(if below < least { below + *step } else { below })
        }
    };
    width.filter(|width| *width <= most)
}
