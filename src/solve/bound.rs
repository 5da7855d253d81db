//! What prices prove. For *any* prices that are not below zero: value each strip at its best pattern and compare each
//! layout with its cost. If no layout is worth more than it costs, the panels wanted at their prices (less what stock,
//! strips on hand and free cuts are worth) are a lower bound on the cost of every plan. If some layout is worth more,
//! all prices are scaled down until it is not (Farley 1990), and the bound with them.
//!
//! All of it in whole numbers: prices are rounded once, values are exact maxima of the knapsack, and the scaled bound
//! is rounded down. So errors of the linear program can make the bound weak, never wrong.

use super::layout::{Boards, Layout, Strips};
use super::need::Need;
use super::pattern::{Blank, Pattern, Patterns, Worth};
use super::prices::Prices;
use crate::model::{Problem, Ripping};
use std::collections::BTreeMap;

/// Prices judged.
pub(super) struct Judged {
    /// No plan costs less, in units.
    pub bound: i64,
    /// What the needs are worth at these prices, in fixed point: the bound itself where the share is whole.
    pub total: i128,
    /// How far the prices must come down.
    pub share: Share,
    /// The best pattern of each strip that some board gives, and its value.
    pub strips: BTreeMap<Blank, (i64, Pattern)>,
    /// The best pattern of each strip on hand.
    pub on_hand: Vec<(i64, Pattern)>,
    /// The best layout of each way to rip, and by how much it is worth more than it costs.
    pub layouts: Vec<(Layout, i64)>,
}

/// How far prices must come down: `top / bottom`, at most 1.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Share {
    top: i64,
    bottom: i64,
}

/// Judges prices for what is needed.
pub(super) fn judge(problem: &Problem, need: &Need, prices: &Prices) -> Judged {
    let shelf = Shelf::new(problem, need, prices);
    let (strips, on_hand) = (BTreeMap::new(), shelf.on_hand(problem));
    let mut judged = Judged { bound: 0, total: 0, share: Share::WHOLE, strips, on_hand, layouts: Vec::new() };
    let mut share = Share::WHOLE;
    for (index, ripping) in problem.rippings.iter().enumerate() {
        if need.stock[ripping.sheet] == Some(0) {
            continue;
        }
        let strips = shelf.strips(problem, ripping, ripping.board.raw());
        best_layout(problem, index, prices, &strips, &mut share, &mut judged.layouts);
        judged.strips.extend(strips.into_iter().map(|(value, pattern)| (pattern.blank, (value, pattern))));
    }
    judged.total = total(need, prices, &judged.on_hand);
    judged.share = share;
    judged.bound = units_above(judged.total, share, prices.scale);
    judged
}

/// Prices at which no layout is worth more than it costs, from prices that come close.
pub(super) fn settle(problem: &Problem, need: &Need, mut prices: Prices) -> (Prices, Judged) {
    loop {
        let judged = judge(problem, need, &prices);
        if judged.share == Share::WHOLE {
            return (prices, judged);
        }
        prices.scale_down(|price| judged.share.of(price));
    }
}

/// The tables of patterns of all families at given prices.
pub(super) struct Shelf<'a> {
    patterns: Vec<Patterns<'a>>,
}

impl<'a> Shelf<'a> {
    /// Tables that serve every strip of the problem.
    pub(super) fn new(problem: &'a Problem, need: &Need, prices: &Prices) -> Shelf<'a> {
        let worth = Worth { price: &prices.size, most: &need.count, keeping: prices.keeping };
        let longest = |family: usize| {
            let boards = problem.rippings.iter().filter(|ripping| ripping.family == family);
            let boards = boards.map(|ripping| ripping.usable(ripping.board).max(ripping.board - ripping.first).raw());
            let on_hand = problem.on_hand.iter().filter(|strip| strip.family == family);
            boards.chain(on_hand.map(|strip| strip.usable.raw())).max().unwrap_or(0)
        };
        let families = 0..problem.families.len();
        Shelf { patterns: families.map(|family| Patterns::new(problem, family, worth, longest(family))).collect() }
    }

    /// The best pattern of each width from a board.
    pub(super) fn strips(&self, problem: &Problem, ripping: &Ripping, board: i64) -> Vec<(i64, Pattern)> {
        let widths = 0..problem.families[ripping.family].widths.len();
        let best = |width| self.patterns[ripping.family].best(super::layout::blank(ripping, board, width));
        widths.map(best).collect()
    }

    /// The best pattern of each strip on hand.
    pub(super) fn on_hand(&self, problem: &Problem) -> Vec<(i64, Pattern)> {
        let blanks = problem.on_hand.iter().map(on_hand_blank);
        blanks.map(|blank| self.patterns[blank.family].best(blank)).collect()
    }

    /// The patterns of a family.
    pub(super) fn family(&self, family: usize) -> &Patterns<'a> {
        &self.patterns[family]
    }
}

/// The blank of a strip on hand.
pub(super) fn on_hand_blank(strip: &crate::model::OnHand) -> Blank {
    Blank { family: strip.family, width: 0, usable: strip.usable.raw(), stub: 0 }
}

/// What a layout with so many cuts costs at these prices, in fixed point.
pub(super) fn charge(problem: &Problem, prices: &Prices, sheet: usize, cuts: u32) -> i64 {
    let charges = &problem.charges;
    let money = prices.scale * (charges.sheets[sheet] + charges.of_cuts(cuts));
    money + prices.stock[sheet] + prices.cut * i64::from(if charges.per_order { cuts } else { 0 })
}

/// Finds the layout of this way to rip that is worth most above its cost, and lowers the share for every number of
/// cuts whose best layout is worth more than it costs.
fn best_layout(
    problem: &Problem,
    index: usize,
    prices: &Prices,
    strips: &[(i64, Pattern)],
    share: &mut Share,
    layouts: &mut Vec<(Layout, i64)>,
) {
    let ripping = &problem.rippings[index];
    let value: Vec<i64> = strips.iter().map(|(value, _)| *value).collect();
    let strips = Strips { value: &value, least: 1, keeping: prices.keeping };
    let boards = Boards::new(problem, ripping, ripping.board.raw(), strips);
    let mut best: Option<(Layout, i64)> = None;
    for (way, cuts) in boards.ways() {
        let cost = charge(problem, prices, ripping.sheet, cuts);
        let least = best.as_ref().map_or(i64::MIN / 8, |(_, excess)| *excess);
        share.lower(boards.most(way), cost, prices.scale * problem.charges.sheets[ripping.sheet]);
        if boards.most(way) - cost > least
            && let Some((board, value)) = boards.best(way, least.max(-cost) + cost)
        {
            best = Some((Layout { ripping: index, boards: vec![board] }, value - cost));
        }
    }
    layouts.extend(best);
}

impl Share {
    /// Prices stand as they are.
    const WHOLE: Share = Share { top: 1, bottom: 1 };

    /// This share of a price, rounded down.
    fn of(self, price: i64) -> i64 {
        let share = (i128::from(price) * i128::from(self.top)).div_euclid(i128::from(self.bottom));
        i64::try_from(share).expect("a share of a price is no larger")
    }

    /// Keeps the smaller of this share and the one at which a layout of this value is worth its cost. What stock and
    /// cuts are priced at comes down with the share; `money` alone stays.
    fn lower(&mut self, value: i64, cost: i64, money: i64) {
        let excess = value - cost;
        if excess <= 0 {
            return;
        }
        let lower = Share { top: money, bottom: money + excess };
        let smaller = i128::from(lower.top) * i128::from(self.bottom) < i128::from(self.top) * i128::from(lower.bottom);
        if smaller {
            *self = lower;
        }
    }
}

/// What the needs are worth at these prices, in fixed point, less what the means are.
fn total(need: &Need, prices: &Prices, on_hand: &[(i64, Pattern)]) -> i128 {
    let times = |count: u32, price: i64| i128::from(count) * i128::from(price);
    let panels: i128 = need.count.iter().zip(&prices.size).map(|(count, price)| times(*count, *price)).sum();
    let sheets: i128 =
        need.stock.iter().zip(&prices.stock).map(|(stock, price)| times(stock.unwrap_or(0), *price)).sum();
    let strips: i128 = need.on_hand.iter().zip(on_hand).map(|(count, best)| times(*count, best.0)).sum();
    panels - sheets - strips - times(need.free, prices.cut)
}

/// The share of a total in units, rounded up to a whole unit as every cost is one.
fn units_above(total: i128, share: Share, scale: i64) -> i64 {
    let shared = (total * i128::from(share.top)).div_euclid(i128::from(share.bottom));
    let units = -(-shared).div_euclid(i128::from(scale));
    i64::try_from(units.max(0)).unwrap_or(i64::MAX)
}
