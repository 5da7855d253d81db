//! The later aims, once least money is known: worth of extra panels and offcuts, layouts at the yard, settings at home.
//! Each is improved while those before it are held; each claims a proof only where a bound of its own meets the count.

mod ahead;
mod alike;
mod bounds;
mod branch;
mod count;
mod fill;
mod judge;
mod most;
mod narrow;
mod near;
mod prices;
mod program;
mod refuted;
mod regroup;
mod relax;
mod sets;
mod stops;
mod tidy;
mod trial;
mod yard;

use super::draft::Draft;
use super::share::Share;
use super::solved::{Aim, Level};
use super::watch::Watch;
use crate::model::Problem;
use ahead::{Both, both};
pub(super) use tidy::start;
use trial::Work;

/// What is known about the money.
#[derive(Clone, Copy, Debug)]
pub(super) struct Spent {
    /// What the plan costs, in units.
    pub cost: i64,
    /// Whether nothing can cost less.
    pub least: bool,
    /// Whether the problem holds every way to cut that the job permits.
    pub complete: bool,
}

/// What a later aim may not spoil.
#[derive(Clone, Copy, Debug)]
struct Held {
    /// The most that the plan may cost, in units.
    cost: i64,
    /// The least that its extras and offcuts must be worth, in cents.
    worth: i64,
    /// The most layouts and rip widths that it may have.
    layouts: i64,
}

impl Held {
    /// Whether a plan holds all of it.
    fn by(&self, problem: &Problem, draft: &Draft) -> bool {
        draft.cost(problem) <= self.cost
            && count::worth(problem, draft) >= self.worth
            && count::layouts(problem, draft) <= self.layouts
    }
}

/// Part of the whole time that the later aims may take.
const SHARE: f64 = 0.3;

/// Improves a plan of least money, and says what is known about each of the later aims.
pub(super) fn improve(problem: &Problem, draft: &Draft, spent: Spent, watch: &dyn Watch) -> (Draft, Vec<Level>) {
    // Prices here speak of whole sheets only.
    let complete = spent.complete && problem.rippings.iter().all(|ripping| !ripping.broken);
    let watch = &Share::of(watch.allowed() * SHARE, watch);
    let mut levels = Vec::new();
    let most = most::most(problem, draft, (spent.cost, complete), watch);
    if problem.sizes.iter().any(|size| !size.wishes.is_empty()) || !problem.keepers.is_empty() {
        let proved = most.bound == most.value;
        levels.push(Level { aim: Aim::Worth, value: most.value, bound: most.bound, proved });
    }
    let held = Held { cost: spent.cost, worth: most.value, layouts: i64::MAX };
    let asked = problem.sizes.iter().any(|size| size.count > 0);
    let must_buy = if problem.on_hand.is_empty() { asked } else { spent.least && spent.cost > 0 };
    let work = Work { problem, complete, found: &most.found, watch };
    let Both { draft, held, yard, home } = both(work, &most.draft, held, must_buy);
    levels.push(fewest(Aim::Layouts, held.layouts, yard.max(bounds::layouts(problem, must_buy))));
    let settings = count::number(count::lengths(problem, &draft).len());
    levels.push(fewest(Aim::Settings, settings, home.max(bounds::settings(problem))));
    (draft, levels)
}

fn fewest(aim: Aim, value: i64, bound: i64) -> Level {
    let bound = bound.min(value);
    Level { aim, value, bound, proved: bound == value }
}
