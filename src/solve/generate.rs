//! Column generation: the linear program over all layouts and all patterns, of which only those that pay are ever
//! listed (Gilmore and Gomory 1961, 1965). Its prices say what a panel is worth; a pattern that makes more of a strip,
//! or a layout that makes more of a sheet than it costs, is added, until there is none.

use super::bound::{Breaks, Judged, judge};
use super::layout::Layout;
use super::master::{Made, Master};
use super::need::Need;
use super::outlay;
use super::prices::{Prices, dearest, scale};
use super::scope::Scope;
use super::watch::Watch;
use crate::model::Problem;

/// Most rounds of pricing; far beyond what converging needs.
const ROUNDS: usize = 2_000;

/// The best bound that was come by, and the prices that gave it.
#[derive(Clone, Debug)]
pub(super) struct Bounded {
    /// Prices of the best bound.
    pub prices: Prices,
    /// What they are worth.
    pub judged: Judged,
    /// No plan of the scope costs less, in units; none where the scope holds no plan.
    pub bound: Option<i64>,
}

/// The linear program at its optimum, or as far as it came.
#[derive(Clone, Debug)]
pub(super) struct Relaxed {
    /// What it costs, in units; what comes from nowhere at its price.
    pub cost: f64,
    /// No plan costs less, in units; none where there is no plan.
    pub bound: Option<i64>,
    /// What it uses, and how much.
    pub used: Vec<(Made, f64)>,
    /// Everything found on the way.
    pub found: Vec<Made>,
    /// Prices of the best bound.
    pub prices: Prices,
}

/// Solves the linear program of what is needed, starting from what was `found` before.
pub(super) fn generate(problem: &Problem, need: &Need, found: &[Made], watch: &dyn Watch) -> Relaxed {
    let scope = Scope::all(problem, need, None).with_spare();
    let mut master = Master::new(problem, need, &scope);
    for made in found {
        master.add(made.clone());
    }
    let bounded = relax(problem, need, &scope, &mut master, None, watch);
    let found = master.found().cloned().collect();
    Relaxed { cost: master.cost(), bound: bounded.bound, used: master.used(), found, prices: bounded.prices }
}

/// Solves the linear program of a scope; stops early where no plan of the scope costs less than `limit` units.
pub(super) fn relax(
    problem: &Problem,
    need: &Need,
    scope: &Scope,
    master: &mut Master,
    limit: Option<i64>,
    watch: &dyn Watch,
) -> Bounded {
    let scale = scale(problem);
    master.move_to(scope);
    let mut solved = master.solve();
    let mut best: Option<Bounded> = None;
    for _ in 0..ROUNDS {
        watch.worked(master.work());
        if problem.rippings.iter().any(|ripping| ripping.broken) && solved && !watch.stop() {
            let prices = master.prices();
            let judged = judge(problem, need, scope, &prices, Breaks::Known);
            if improve(problem, master, &prices, &judged, scale) {
                solved = master.solve_grown();
                continue;
            }
        }
        let now = bounded(problem, need, scope, master.prices());
        let past = now.bound.is_none_or(|bound| limit.is_some_and(|limit| bound >= limit));
        let grown = !past && improve(problem, master, &now.prices, &now.judged, scale);
        if best.as_ref().is_none_or(|best| now.is_as_good_as(best)) {
            best = Some(now);
        }
        if past || !solved || watch.stop() || !grown {
            break;
        }
        solved = master.solve_grown();
    }
    best.unwrap_or_else(|| bounded(problem, need, scope, master.prices()))
}

impl Bounded {
    pub(super) fn is_as_good_as(&self, other: &Bounded) -> bool {
        self.judged.total.is_none_or(|total| other.judged.total.is_some_and(|most| total >= most))
    }
}

/// Prices judged, and the bound that they give.
pub(super) fn bounded(problem: &Problem, need: &Need, scope: &Scope, mut prices: Prices) -> Bounded {
    // A strip whose number is free is worth its best pattern; the program may not know that pattern yet.
    prices.strip.retain(|blank, _| scope.strips.contains_key(blank));
    let judged = judge(problem, need, scope, &prices, Breaks::All);
    let units = |total: i128| i64::try_from(-(-total).div_euclid(i128::from(prices.scale))).unwrap_or(i64::MAX).max(0);
    let bound = judged.total.and_then(|total| outlay::least_from(problem, scope, units(total)));
    Bounded { prices, judged, bound }
}

/// Adds what pays at these prices; false where nothing does.
fn improve(problem: &Problem, master: &mut Master, prices: &Prices, judged: &Judged, scale: i64) -> bool {
    let worthwhile = (dearest(problem) * scale) >> 30;
    let mut grown = false;
    let strip_prices = master.strip_prices();
    let on_hand = master.on_hand_prices();
    let sheets = master.sheet_prices();
    for (blank, (value, pattern)) in &judged.strips {
        if strip_prices.get(blank).is_some_and(|price| value + prices.covering(*blank) - price > worthwhile) {
            grown |= master.add(Made::Pattern(pattern.clone()));
        }
    }
    for (strip, (value, pattern)) in judged.on_hand.iter().enumerate() {
        if value - on_hand[strip] > worthwhile {
            grown |= master.add(Made::OnHand(strip, pattern.clone()));
        }
    }
    for (layout, least) in judged.layouts.iter().flatten() {
        if least - sheets[layout.ripping] < -worthwhile {
            grown |= add_layout(problem, master, judged, layout);
        }
    }
    grown
}

/// Adds a layout and the best pattern of each of its strips.
fn add_layout(problem: &Problem, master: &mut Master, judged: &Judged, layout: &Layout) -> bool {
    let mut grown = false;
    for (blank, _) in layout.blanks(problem) {
        if let Some((_, pattern)) = judged.strips.get(&blank) {
            grown |= master.add(Made::Pattern(pattern.clone()));
        }
    }
    master.add(Made::Layout(layout.clone())) || grown
}
