//! The later aims, once least money is known: worth of extra panels and offcuts, layouts at the yard, settings at home.
//! Extra panels are cut from fall-offs and strips on hand only, so the money stays what it is. Each aim is counted on
//! the answer itself and claims a proof only where a bound of its own meets the count.

mod bounds;
mod count;
mod fill;

use super::solved::{Aim, Level, SheetUse, StripUse};
use crate::model::Problem;

/// Improves the answer by extra panels and says what is known about each aim; the cost in units, and whether it is
/// proved to be the least.
pub(super) fn reach(
    problem: &Problem,
    (cost, least): (i64, bool),
    sheets: Vec<SheetUse>,
    on_hand: Vec<StripUse>,
) -> (Vec<SheetUse>, Vec<StripUse>, Vec<Level>) {
    let mut levels = Vec::new();
    let wished = problem.sizes.iter().any(|size| !size.wishes.is_empty());
    let (sheets, on_hand) = if wished { fill::fill(problem, sheets, &on_hand) } else { (sheets, on_hand) };
    if wished || !problem.keepers.is_empty() {
        let value = count::worth(problem, &sheets, &on_hand);
        let bound = bounds::worth(problem, cost).max(value);
        levels.push(Level { aim: Aim::Worth, value, bound, proved: bound == value });
    }
    let value = count::layouts(&sheets);
    levels.push(fewest(Aim::Layouts, value, bounds::layouts(problem, least && cost > 0)));
    let value = count::settings(problem, &sheets, &on_hand);
    levels.push(fewest(Aim::Settings, value, bounds::settings(problem)));
    (sheets, on_hand, levels)
}

fn fewest(aim: Aim, value: i64, bound: i64) -> Level {
    let bound = bound.min(value);
    Level { aim, value, bound, proved: bound == value }
}
