//! What no plan of the same cost can pass: worth by area, layouts and settings by panels that can share
//! neither a rip width nor a length. Weak at times, never wrong.

use super::count::number;
use crate::length::Length;
use crate::model::{Laid, Problem, Size};
use std::collections::BTreeSet;

/// The most worth of extra panels and offcuts at this cost in units: all wishes, or what the area left over could hold,
/// cut to any shape, the most worth for its area first.
pub(super) fn worth(problem: &Problem, cost: i64) -> i64 {
    let mut free = stock_area(problem, cost) - asked_area(problem);
    let mut goods: Vec<(i128, i128, i128)> = Vec::new();
    for size in &problem.sizes {
        let wishes = size.wishes.iter().filter(|wish| wish.worth > 0);
        goods.extend(wishes.map(|wish| (i128::from(wish.worth), area(size), i128::from(wish.most))));
    }
    for keeper in problem.keepers.iter().filter(|keeper| keeper.worth.0 > 0) {
        let area = wide(keeper.width) * wide(keeper.length);
        goods.push((i128::from(keeper.worth.0), area, i128::MAX));
    }
    goods.sort_by(|a, b| (b.0 * a.1).cmp(&(a.0 * b.1)));
    let mut worth = 0;
    for (value, area, most) in goods {
        if free <= 0 {
            break;
        }
        if most < i128::MAX && most * area <= free {
            worth += most * value;
            free -= most * area;
        } else {
            worth += value * free / area.max(1);
            free = 0;
        }
    }
    i64::try_from(worth).unwrap_or(i64::MAX)
}

/// The area of all strips on hand and of the most sheets that this money buys.
fn stock_area(problem: &Problem, cost: i64) -> i128 {
    let sheets = problem.charges.sheets.iter().zip(&problem.stock).enumerate().map(|(sheet, (price, stock))| {
        let most = stock.map_or(cost / price, |stock| i64::from(stock).min(cost / price));
        let faces = problem.rippings.iter().filter(|ripping| ripping.sheet == sheet).map(face);
        faces.max().unwrap_or(0) * i128::from(most)
    });
    sheets.sum::<i128>() + hand_area(problem)
}

/// Sheets that must be bought for the area of the panels alone.
pub(super) fn sheets(problem: &Problem) -> i64 {
    let largest = problem.rippings.iter().map(face).max().unwrap_or(0).max(1);
    let sheets = (asked_area(problem) - hand_area(problem)).max(0);
    i64::try_from((sheets + largest - 1) / largest).unwrap_or(i64::MAX)
}

fn face(ripping: &crate::model::Ripping) -> i128 {
    wide(ripping.board) * wide(ripping.room + ripping.edge_trim * 2)
}

fn hand_area(problem: &Problem) -> i128 {
    let strips = problem.on_hand.iter().map(|strip| {
        let width = problem.families[strip.family].widths[0].width;
        i128::from(strip.count) * wide(strip.usable) * wide(width)
    });
    strips.sum()
}

fn asked_area(problem: &Problem) -> i128 {
    problem.sizes.iter().map(|size| i128::from(size.count) * area(size)).sum()
}

fn area(size: &Size) -> i128 {
    wide(size.sides.width.least) * wide(size.sides.height.least)
}

fn wide(length: Length) -> i128 {
    i128::from(length.raw())
}

/// Fewest layouts and rip widths together: one layout where something must be bought, and a width for each of the
/// panels that can share none, save those that strips on hand may give.
pub(super) fn layouts(problem: &Problem, must_buy: bool) -> i64 {
    if problem.on_hand.is_empty() {
        let widths = apart(problem, |_, width| width);
        widths + widths.min(1)
    } else if must_buy {
        2
    } else {
        0
    }
}

/// Fewest lengths: one for each of the panels that can share none.
pub(super) fn settings(problem: &Problem) -> i64 {
    apart(problem, |laid, _| laid.along)
}

/// How many of the sizes asked for, taken as they come with fewest choices first, have no length in common.
fn apart(problem: &Problem, of: impl Fn(&Laid, Length) -> Length) -> i64 {
    let mut sets: Vec<BTreeSet<Length>> = vec![BTreeSet::new(); problem.sizes.len()];
    for width in problem.families.iter().flat_map(|family| &family.widths) {
        width.laid.iter().for_each(|laid| {
            sets[laid.size].insert(of(laid, width.width));
        });
    }
    let asked = sets.into_iter().zip(&problem.sizes).filter(|(_, size)| size.count > 0);
    let mut sets: Vec<BTreeSet<Length>> = asked.map(|(set, _)| set).collect();
    sets.sort_by_key(BTreeSet::len);
    let mut taken: Vec<BTreeSet<Length>> = Vec::new();
    for set in sets {
        if taken.iter().all(|other| other.is_disjoint(&set)) {
            taken.push(set);
        }
    }
    number(taken.len())
}
