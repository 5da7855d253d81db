//! The first of the later aims: most worth of extra panels and offcuts kept, at no more than the cost.

use super::super::draft::Draft;
use super::super::master::Made;
use super::super::need::Need;
use super::super::watch::Watch;
use super::branch::search;
use super::fill::fill;
use super::near::near;
use super::prices::step;
use super::program::Means;
use super::relax::{Until, relax};
use super::tidy::{clip, tidy, without_fresh};
use super::{bounds, count};
use crate::model::Problem;
use std::collections::BTreeSet;

/// Most nodes of a search among what column generation found.
const GLANCE: usize = 200;
/// Most panels for which the search is worth its time.
const PANELS: u32 = 4_000;

/// A plan of most worth, as far as it was found.
pub(super) struct Most {
    /// The plan.
    pub draft: Draft,
    /// What it is worth, in cents.
    pub value: i64,
    /// No plan of this cost is worth more.
    pub bound: i64,
    /// What column generation found.
    pub found: Vec<Made>,
}

/// Improves a plan's worth at no more than this cost. `complete` says that the problem holds every way to cut.
pub(super) fn most(problem: &Problem, draft: &Draft, (cost, complete): (i64, bool), watch: &dyn Watch) -> Most {
    let draft = filled(problem, draft);
    let value = count::worth(problem, &draft);
    let mut most = Most { value, bound: bounds::worth(problem, cost).max(value), found: made(&draft), draft };
    if problem.sizes.iter().map(|size| size.count).sum::<u32>() > PANELS {
        return most;
    }
    let means = Means { cost, sheets: bounds::sheets(problem), ripped: None };
    while most.value < most.bound && !watch.stop() {
        let goal = most.value + step(problem);
        let relaxed = relax(problem, means, &most.found, (goal, Until::Rest), watch);
        if complete {
            most.bound = most.bound.min(relaxed.most).max(most.value);
        }
        most.found = relaxed.found;
        if relaxed.most < goal {
            break;
        }
        let near = relaxed.prices.map_or_else(BTreeSet::new, |prices| near(problem, means, &prices, goal));
        let pool: Vec<Made> = most.found.iter().cloned().chain(near).collect();
        let accept = |draft: &Draft| better(problem, draft, cost).filter(|draft| count::worth(problem, draft) >= goal);
        let Some(draft) = search(problem, means, &pool, (goal, GLANCE), watch, &accept) else { break };
        most.value = count::worth(problem, &draft);
        most.draft = draft;
    }
    most
}

/// A draft as it will be cut, its fall-offs filled; none where it does not do the job at this cost.
pub(super) fn better(problem: &Problem, draft: &Draft, cost: i64) -> Option<Draft> {
    let draft = filled(problem, draft);
    (draft.serves(problem, &Need::of(problem)) && draft.cost(problem) <= cost).then_some(draft)
}

/// A draft as it will be cut, welcome panels in its fall-offs and spare strips.
pub(super) fn filled(problem: &Problem, draft: &Draft) -> Draft {
    let lean = |draft: &Draft| without_fresh(problem, &clip(problem, draft));
    lean(&tidy(problem, &fill(problem, &lean(draft))))
}

/// The layouts and patterns of a draft.
pub(super) fn made(draft: &Draft) -> Vec<Made> {
    let layouts = draft.layouts.keys().cloned().map(Made::Layout);
    let patterns = draft.patterns.keys().cloned().map(Made::Pattern);
    let on_hand = draft.on_hand.keys().cloned().map(|(strip, pattern)| Made::OnHand(strip, pattern));
    layouts.chain(patterns).chain(on_hand).collect()
}
