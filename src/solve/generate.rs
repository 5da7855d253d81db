//! Column generation: the linear program over all layouts and all patterns, of which only those that pay are ever
//! listed (Gilmore and Gomory 1961, 1965). Its prices say what a panel is worth; a pattern that makes more of a strip,
//! or a layout that makes more of a sheet than it costs, is added, until there is none.

use super::bound::{Judged, judge};
use super::layout::Layout;
use super::master::{Made, Master};
use super::need::Need;
use super::prices::{Prices, dearest, scale};
use super::watch::Watch;
use crate::model::Problem;

/// Most rounds of pricing; far beyond what converging needs.
const ROUNDS: usize = 2_000;

/// The linear program at its optimum, or as far as it came.
pub(super) struct Relaxed {
    /// What it uses, and how much.
    pub used: Vec<(Made, f64)>,
    /// Everything found on the way.
    pub found: Vec<Made>,
    /// Prices of the best bound.
    pub prices: Prices,
}

/// The price of a missing panel: no plan can cost more.
pub(super) fn missing_price(problem: &Problem, need: &Need) -> i64 {
    let panels = need.count.iter().map(|count| i64::from(*count)).sum::<i64>();
    let cut = if problem.charges.cuts_matter() { problem.charges.cut.saturating_mul(64) } else { 0 };
    let each = dearest(problem) + cut + 1;
    if problem.stock.iter().any(Option::is_some) { each.saturating_mul(panels.clamp(1, 1 << 13)) } else { each * 2 }
}

/// Solves the linear program of what is needed, starting from what was `found` before.
pub(super) fn generate(problem: &Problem, need: &Need, found: &[Made], watch: &dyn Watch) -> Relaxed {
    let mut master = Master::new(problem, need, missing_price(problem, need));
    for made in found {
        master.add(made.clone());
    }
    let scale = scale(problem);
    let mut best: Option<(i64, Prices)> = None;
    for _ in 0..ROUNDS {
        if !master.solve() {
            break;
        }
        let prices = master.prices(scale);
        let judged = judge(problem, need, &prices);
        if best.as_ref().is_none_or(|(bound, _)| judged.bound >= *bound) {
            best = Some((judged.bound, prices.clone()));
        }
        if !improve(problem, &mut master, &judged, scale) {
            break;
        }
        if watch.stop() {
            break;
        }
    }
    let prices = best.map_or_else(|| master.prices(scale), |(_, prices)| prices);
    Relaxed { used: master.used(), found: master.found().cloned().collect(), prices }
}

/// Adds what pays at these prices; false where nothing does.
fn improve(problem: &Problem, master: &mut Master, judged: &Judged, scale: i64) -> bool {
    let worthwhile = (dearest(problem) * scale) >> 30;
    let mut grown = false;
    let strip_prices = master.strip_prices(scale);
    for (blank, (value, pattern)) in &judged.strips {
        if strip_prices.get(blank).is_some_and(|price| value - price > worthwhile) {
            grown |= master.add(Made::Pattern(pattern.clone()));
        }
    }
    let on_hand = master.on_hand_prices(scale);
    for (strip, (value, pattern)) in judged.on_hand.iter().enumerate() {
        if value - on_hand[strip] > worthwhile {
            grown |= master.add(Made::OnHand(strip, pattern.clone()));
        }
    }
    for (layout, excess) in &judged.layouts {
        if *excess > worthwhile {
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
