//! The smallest permitted size of each panel, and the strip width that each of its sides asks of the yard.
//!
//! A strip may come out narrower than asked by the yard's tolerance, so it is asked that much wider than the side it
//! must give. Where the yard cuts only certain widths, a side that may lie across a strip takes the smallest permitted
//! width between its smallest and its nominal size, and that size holds wherever the panel is cut: panels stay alike.

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
    job.panels.iter().map(|panel| sides(job, panel)).collect()
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

fn sides(job: &Job, panel: &Panel) -> PanelSides {
    PanelSides { width: side(job, panel, panel.width, false), height: side(job, panel, panel.height, true) }
}

/// A side that lies across a strip when the panel is `turned` (its height) or not (its width).
fn side(job: &Job, panel: &Panel, most: Length, turned: bool) -> Side {
    let least = most - panel.scant;
    let across = [true, false]
        .into_iter()
        .any(|along| yard_rips(job.yard.rips, along) && grain_permits(panel.grain, along, turned));
    let tolerance = job.yard.tolerance;
    let asked = if across { permitted(&job.yard.rip_widths, least + tolerance, most + tolerance) } else { None };
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
