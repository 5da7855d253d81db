//! The later aims, once least money is known: worth of extra panels and offcuts, layouts at the yard, settings at home.
//! Each is improved while those before it are held; each claims a proof only where a bound of its own meets the count.

mod bounds;
mod branch;
mod count;
mod fill;
mod judge;
mod most;
mod prices;
mod program;
mod relax;
mod tidy;

use super::draft::Draft;
use super::solved::{Aim, Level};
use super::watch::{Progress, Watch};
use crate::model::Problem;

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

/// Part of the whole time that the later aims may take.
const SHARE: f64 = 0.3;

/// Improves a plan of least money, and says what is known about each of the later aims.
pub(super) fn improve(problem: &Problem, draft: &Draft, spent: Spent, watch: &dyn Watch) -> (Draft, Vec<Level>) {
    let watch = &Part { whole: watch, began: watch.seconds(), seconds: watch.allowed() * SHARE };
    let mut levels = Vec::new();
    let wished = problem.sizes.iter().any(|size| !size.wishes.is_empty());
    let mut draft = most::filled(problem, draft);
    if wished || !problem.keepers.is_empty() {
        let most = most::most(problem, &draft, (spent.cost, spent.complete), watch);
        let proved = most.bound == most.value;
        levels.push(Level { aim: Aim::Worth, value: most.value, bound: most.bound, proved });
        draft = most.draft;
    }
    levels.push(fewest(
        Aim::Layouts,
        count::layouts(problem, &draft),
        bounds::layouts(problem, spent.least && spent.cost > 0),
    ));
    let settings = count::number(count::lengths(problem, &draft).len());
    levels.push(fewest(Aim::Settings, settings, bounds::settings(problem)));
    (draft, levels)
}

fn fewest(aim: Aim, value: i64, bound: i64) -> Level {
    let bound = bound.min(value);
    Level { aim, value, bound, proved: bound == value }
}

/// A part of another watch's time.
struct Part<'a> {
    whole: &'a dyn Watch,
    began: f64,
    seconds: f64,
}

impl Watch for Part<'_> {
    fn stop(&self) -> bool {
        self.whole.stop() || self.seconds() > self.seconds
    }
    fn seconds(&self) -> f64 {
        self.whole.seconds() - self.began
    }
    fn allowed(&self) -> f64 {
        self.seconds
    }
    fn report(&self, progress: Progress) {
        self.whole.report(progress);
    }
}
