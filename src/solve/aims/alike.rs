//! Whether all sheets could be ripped alike. One layout, as often as the money allows, must hold the panels asked for
//! at any prices; at prices by area few layouts do, and each of those is refuted, or not, at prices of its own.

use super::super::boards::{Boards, Strips};
use super::super::layout::Layout;
use super::Held;
use super::judge::{asked, hand, keeping, shelf, wishes};
use super::prices::{Prices, scale};
use super::program::Means;
use super::relax::{Until, relax};
use super::trial::Work;
use crate::model::{Problem, Ripping, Size};
use std::collections::BTreeMap;

/// Most layouts that are looked at more closely.
const MOST: usize = 48;
/// Bits that the price of the largest panel fills.
const BITS: u32 = 44;

/// False only where no plan that holds what must be held rips all its sheets alike.
pub(super) fn may_be(work: Work, held: Held) -> bool {
    let Work { problem, complete, found, watch } = work;
    if !complete {
        return true;
    }
    let Some(layouts) = large_enough(problem, held.cost, held.worth) else { return true };
    layouts.into_iter().any(|(layout, copies)| {
        let ripped = BTreeMap::from([(layout, copies)]);
        let means = Means { cost: held.cost, sheets: 0, ripped: Some(&ripped) };
        let goal = (held.worth, Until::Known);
        watch.stop() || relax(problem, means, found, goal, watch).most >= held.worth
    })
}

/// The layouts whose copies, as many as the cost allows, have area enough; none where they are too many.
fn large_enough(problem: &Problem, cost: i64, worth: i64) -> Option<Vec<(Layout, u32)>> {
    let prices = by_area(problem);
    let shelf = shelf(problem, &prices);
    let need = i128::from(worth) * i128::from(scale(problem)) + asked(problem, &prices)
        - hand(problem, &shelf.on_hand(problem))
        - wishes(problem, &prices);
    let mut layouts = Vec::new();
    for (index, ripping) in problem.rippings.iter().enumerate() {
        let strips = shelf.strips(problem, ripping, ripping.board.raw());
        let value: Vec<i64> = strips.iter().map(|(value, _)| *value).collect();
        let strips = Strips { value: &value, most: None, least: 0, keeping: keeping(problem), toll: None };
        let boards = Boards::new(problem, ripping, ripping.board.raw(), strips);
        for (way, cuts) in boards.ways() {
            let copies = copies(problem, ripping, cost, cuts);
            if copies == 0 {
                continue;
            }
            let floor = i64::try_from(-(-need).div_euclid(i128::from(copies))).ok().filter(|floor| *floor > 0)?;
            let few = boards.walk(way, floor, &[], &mut |board, _| {
                layouts.push((Layout { ripping: index, boards: vec![board] }, copies));
                layouts.len() <= MOST
            });
            if !few {
                return None;
            }
        }
    }
    Some(layouts)
}

/// As many sheets with so many cuts as the cost and the stock allow.
fn copies(problem: &Problem, ripping: &Ripping, cost: i64, cuts: u32) -> u32 {
    let each = problem.charges.sheets[ripping.sheet] + problem.charges.of_cuts(cuts);
    let copies = u32::try_from(cost / each.max(1)).unwrap_or(u32::MAX);
    problem.stock[ripping.sheet].map_or(copies, |stock| copies.min(stock))
}

/// Each size priced by its area.
fn by_area(problem: &Problem) -> Prices {
    let area = |size: &Size| i128::from(size.sides.width.least.raw()) * i128::from(size.sides.height.least.raw());
    let largest = problem.sizes.iter().map(area).max().unwrap_or(1).max(1);
    let price = |size: &Size| i64::try_from((area(size) << BITS) / largest).unwrap_or(0);
    Prices {
        size: problem.sizes.iter().map(price).collect(),
        stock: vec![0; problem.stock.len()],
        cut: 0,
        money: 0.0,
        strips: BTreeMap::new(),
        on_hand: Vec::new(),
    }
}
