//! What prices prove about worth. For *any* prices that are not below zero: value each strip at its best pattern, what
//! is kept of it included, and each layout at its strips. Let money have the least price at which no layout is worth
//! more than it costs. Then no plan within the cost is worth more than
//!
//! price of money x cost + stock, strips on hand and free cuts at their prices - panels asked for at theirs
//! + for each extra panel that is welcome what it is worth above its price
//!
//! (Lagrangian relaxation of all rows but those that tie a strip to its patterns). All of it in whole numbers: errors
//! of the linear program can make it weak, never wrong. It speaks of whole sheets only, not of breakdown crosscuts.

use super::super::boards::{Boards, Strips, Toll};
use super::super::bound::Shelf;
use super::super::layout::Layout;
use super::super::need::Need;
use super::super::pattern::{Blank, Pattern};
use super::super::prices as money;
use super::prices::{Prices, scale, step};
use super::program::Means;
use super::tidy::wanted;
use crate::model::{OnHand, Problem, Ripping};
use std::collections::BTreeMap;

/// Prices judged.
pub(super) struct Judged {
    /// The same in fixed point.
    total: i128,
    /// The least price of money at which no layout is worth more than it costs.
    pub rate: Rate,
    /// No plan within the means is worth more, in cents; below zero where there is no such plan.
    pub most: i64,
    /// The best pattern of each strip that some board gives, and its value.
    pub strips: BTreeMap<Blank, (i64, Pattern)>,
    /// The best pattern of each strip on hand.
    pub on_hand: Vec<(i64, Pattern)>,
    /// The best layout of each way to rip, and by how much it is worth more than it costs at the price of money that
    /// the linear program proposes.
    pub layouts: Vec<(Layout, i64)>,
}

/// A price of money: `top / bottom`.
#[derive(Clone, Copy)]
pub(super) struct Rate {
    top: i64,
    bottom: i64,
}

impl Judged {
    /// How far the bound is above a goal, in fixed point.
    pub(super) fn above(&self, problem: &Problem, goal: i64) -> i64 {
        i64::try_from(self.total - wide(goal) * wide(scale(problem))).unwrap_or(i64::MAX / 8).max(0)
    }
}

/// Judges prices.
pub(super) fn judge(problem: &Problem, means: Means, prices: &Prices) -> Judged {
    let shelf = shelf(problem, prices);
    let (mut strips, mut layouts) = (BTreeMap::new(), Vec::new());
    let mut rate = Rate::default();
    for (index, ripping) in problem.rippings.iter().enumerate().filter(|(_, ripping)| ripping.whole) {
        let best = shelf.strips(problem, ripping, ripping.board.raw());
        if means.ripped.is_none() {
            layouts.extend(best_layout(problem, index, (means, prices), &best, &mut rate));
        }
        strips.extend(best.into_iter().map(|(value, pattern)| (pattern.blank, (value, pattern))));
    }
    let on_hand: Vec<(i64, Pattern)> = shelf.on_hand(problem);
    let given = means.ripped.map_or_else(
        || at_rate(problem, means, prices, rate),
        |ripped| {
            let worth = |layout: &Layout| {
                let kept = i128::from(super::count::kept_beside(problem, layout)) * wide(scale(problem));
                let value = |blank: &Blank| strips.get(blank).map_or(0, |(value, _)| *value);
                kept + layout.blanks(problem).map(|(blank, each)| wide(value(&blank)) * i128::from(each)).sum::<i128>()
            };
            ripped.iter().map(|(layout, copies)| worth(layout) * i128::from(*copies)).sum()
        },
    );
    let total = given + hand(problem, &on_hand) + wishes(problem, prices) - asked(problem, prices);
    Judged { total, rate, most: cents(problem, total), strips, on_hand, layouts }
}

/// A bound in cents that worths can really be, from one in fixed point.
pub(super) fn cents(problem: &Problem, total: i128) -> i64 {
    let step = step(problem);
    i64::try_from(total.div_euclid(wide(scale(problem)))).unwrap_or(i64::MAX).div_euclid(step) * step
}

/// Tables of the patterns at these prices, offcuts at their worth.
pub(super) fn shelf<'a>(problem: &'a Problem, prices: &Prices) -> Shelf<'a> {
    let need = Need { count: problem.sizes.iter().map(wanted).collect(), ..Need::of(problem) };
    let prices = money::Prices {
        scale: 1,
        size: prices.size.clone(),
        strip: BTreeMap::new(),
        known: Vec::new(),
        covering: BTreeMap::new(),
        covered: 0,
        cut: prices.cut,
        keeping: keeping(problem),
    };
    Shelf::new(problem, &need, &prices)
}

/// What a cent of an offcut worth keeping is worth in fixed point; nothing where none is kept, which is faster.
pub(super) fn keeping(problem: &Problem) -> i64 {
    if problem.keepers.is_empty() { 0 } else { scale(problem) }
}

/// The layout of this way to rip that is worth most above its cost; raises the rate for every number of cuts whose
/// best layout is worth more than it costs.
fn best_layout(
    problem: &Problem,
    index: usize,
    (means, prices): (Means, &Prices),
    strips: &[(i64, Pattern)],
    rate: &mut Rate,
) -> Option<(Layout, i64)> {
    let ripping = &problem.rippings[index];
    let value: Vec<i64> = strips.iter().map(|(value, _)| *value).collect();
    let charges = &problem.charges;
    let toll = (charges.per_order && charges.most_cuts.is_none()).then_some(Toll { each: prices.cut, free: 0 });
    let strips = Strips { value: &value, most: None, least: 1, keeping: keeping(problem), toll };
    let boards = Boards::new(problem, ripping, ripping.board.raw(), strips);
    rate.raise_to(problem, (means, prices), ripping, &boards);
    let mut best: Option<(Layout, i64)> = None;
    for (way, cuts) in boards.ways() {
        let beyond = beyond_money(problem, prices, ripping, cuts);
        let cost = problem.charges.sheets[ripping.sheet] + problem.charges.of_cuts(cuts);
        if cost > means.left(problem).0 {
            continue;
        }
        let charge = beyond + proposed(prices.money, cost);
        let least = best.as_ref().map_or(0, |(_, excess)| *excess);
        if boards.most(way) - charge > least
            && let Some((board, value)) = boards.best(way, least + charge).filter(|(board, _)| !board.strips.is_empty())
        {
            best = Some((Layout { ripping: index, boards: vec![board] }, value - charge));
        }
    }
    best
}

/// What a sheet with so many cuts is charged at these prices, rounded down; none where it costs too much.
pub(super) fn charge(
    problem: &Problem,
    means: Means,
    (prices, rate): (&Prices, Rate),
    ripping: &Ripping,
    cuts: u32,
) -> Option<i64> {
    let cost = problem.charges.sheets[ripping.sheet] + problem.charges.of_cuts(cuts);
    let money = (wide(rate.top) * wide(cost)).div_euclid(wide(rate.bottom));
    let charge = i64::try_from(money).ok()? + beyond_money(problem, prices, ripping, cuts);
    (cost <= means.left(problem).0).then_some(charge)
}

/// What a sheet with so many cuts costs beside money.
fn beyond_money(problem: &Problem, prices: &Prices, ripping: &Ripping, cuts: u32) -> i64 {
    prices.stock[ripping.sheet] + if problem.charges.per_order { prices.cut * i64::from(cuts) } else { 0 }
}

/// So much money at the price that the linear program proposes.
#[allow(clippy::cast_possible_truncation, clippy::cast_precision_loss)] // proposes a layout, proves nothing
fn proposed(price: f64, cost: i64) -> i64 {
    (price * cost as f64).round().clamp(0.0, 1e17) as i64
}

impl Default for Rate {
    fn default() -> Rate {
        Rate { top: 0, bottom: 1 }
    }
}

impl Rate {
    /// Raises it so far that no layout from these boards is worth more than it costs.
    pub(super) fn raise_to(
        &mut self,
        problem: &Problem,
        (means, prices): (Means, &Prices),
        ripping: &Ripping,
        boards: &Boards,
    ) {
        for (way, cuts) in boards.ways() {
            let cost = problem.charges.sheets[ripping.sheet] + problem.charges.of_cuts(cuts);
            if cost <= means.left(problem).0 {
                self.raise(boards.most(way) - beyond_money(problem, prices, ripping, cuts), cost);
            }
        }
    }

    /// Keeps the larger of this rate and the one at which a layout of this value is worth its cost.
    fn raise(&mut self, value: i64, cost: i64) {
        if value > 0 && wide(value) * wide(self.bottom) > wide(self.top) * wide(cost) {
            *self = Rate { top: value, bottom: cost };
        }
    }
}

/// The money at its rate, rounded up, what stock and free cuts are worth, and what paid cuts are worth above the money.
pub(super) fn at_rate(problem: &Problem, means: Means, prices: &Prices, rate: Rate) -> i128 {
    let charges = &problem.charges;
    let stock = problem.stock.iter().zip(&prices.stock);
    let stock: i128 = stock.map(|(most, price)| i128::from(most.unwrap_or(0)) * wide(*price)).sum();
    let (mut free, mut paid) = (0, 0);
    if charges.per_order {
        let above = (wide(prices.cut) * wide(rate.bottom) - wide(charges.cut) * wide(rate.top)).max(0);
        free = i128::from(charges.free) * wide(prices.cut);
        paid = above * wide(means.left(problem).1 / charges.cut);
    }
    -(-(wide(rate.top) * wide(means.cost) + paid)).div_euclid(wide(rate.bottom)) + stock + free
}

/// What the strips on hand are worth at their best patterns, if a panel asked for can be cut from them at all.
pub(super) fn hand(problem: &Problem, best: &[(i64, Pattern)]) -> i128 {
    let asked = |strip: &OnHand| {
        let laid = problem.families[strip.family].widths.iter().flat_map(|width| &width.laid);
        laid.into_iter().any(|laid| problem.sizes[laid.size].count > 0)
    };
    let strips = problem.on_hand.iter().zip(best).filter(|(strip, _)| asked(strip));
    strips.map(|(strip, (value, _))| i128::from(strip.count) * wide(*value)).sum()
}

/// What the welcome panels are worth above their prices.
pub(super) fn wishes(problem: &Problem, prices: &Prices) -> i128 {
    let scale = wide(scale(problem));
    let sizes = problem.sizes.iter().zip(&prices.size);
    let above = sizes.flat_map(|(size, price)| {
        size.wishes.iter().map(move |wish| i128::from(wish.most) * (wide(wish.worth) * scale - wide(*price)).max(0))
    });
    above.sum()
}

/// What the panels asked for come to at their prices.
pub(super) fn asked(problem: &Problem, prices: &Prices) -> i128 {
    problem.sizes.iter().zip(&prices.size).map(|(size, price)| i128::from(size.count) * wide(*price)).sum()
}

fn wide(number: i64) -> i128 {
    i128::from(number)
}
