//! Prices that refuted some ways to cut, kept for others: where they refute those too, no linear program is needed.
//! Any prices prove what they prove (see [`super::judge`]); those that helped last are asked first.

use super::super::boards::{Boards, Strips};
use super::judge::{Rate, asked, at_rate, hand, judge, keeping, shelf, wishes};
use super::prices::Prices;
use super::program::Means;
use crate::length::Length;
use crate::model::{Problem, Ripping};
use std::cell::{OnceCell, RefCell};
use std::collections::BTreeSet;

/// Most prices that are kept.
const KEPT: usize = 6;

/// Prices that refuted something, the last that helped first.
#[derive(Default)]
pub(super) struct Refuted(RefCell<Vec<Known>>);

struct Known {
    prices: Prices,
    /// What strips are worth when all ways to cut are free; worked out when first asked for.
    whole: OnceCell<Whole>,
}

/// What all ways to cut are worth at prices.
struct Whole {
    /// For each way to rip, the value of a strip of each width.
    strips: Vec<Vec<i64>>,
    /// The bound but for what is bought.
    beside: i128,
}

impl Refuted {
    /// Keeps prices that refuted something.
    pub(super) fn keep(&self, prices: Prices) {
        let mut kept = self.0.borrow_mut();
        kept.insert(0, Known { prices, whole: OnceCell::new() });
        kept.truncate(KEPT);
    }

    /// Whether some of the prices show that the problem holds no plan within the means that is worth so much.
    pub(super) fn never(&self, problem: &Problem, means: Means, worth: i64) -> bool {
        self.any(|known| judge(problem, means, &known.prices).most < worth)
    }

    /// Whether some of the prices show that with these rip widths alone there is no plan worth so much.
    pub(super) fn never_with(&self, problem: &Problem, widths: &BTreeSet<Length>, means: Means, worth: i64) -> bool {
        self.any(|known| known.most(problem, widths, means) < worth)
    }

    fn any(&self, refutes: impl Fn(&Known) -> bool) -> bool {
        let mut kept = self.0.borrow_mut();
        let found = kept.iter().position(refutes);
        if let Some(at) = found {
            kept[..=at].rotate_right(1);
        }
        found.is_some()
    }
}

impl Known {
    /// The most that a plan with these rip widths alone can be worth, in cents.
    fn most(&self, problem: &Problem, widths: &BTreeSet<Length>, means: Means) -> i64 {
        let whole = self.whole.get_or_init(|| Whole::at(problem, &self.prices));
        let mut rate = Rate::default();
        for (ripping, strips) in problem.rippings.iter().zip(&whole.strips).filter(|(ripping, _)| ripping.whole) {
            let of_family = problem.families[ripping.family].widths.iter();
            let narrowed =
                of_family.zip(strips).map(|(width, value)| if widths.contains(&width.width) { *value } else { 0 });
            let value: Vec<i64> = narrowed.collect();
            rate.raise_to(problem, (means, &self.prices), ripping, &boards(problem, ripping, &value));
        }
        super::judge::cents(problem, at_rate(problem, means, &self.prices, rate) + whole.beside)
    }
}

impl Whole {
    fn at(problem: &Problem, prices: &Prices) -> Whole {
        let shelf = shelf(problem, prices);
        let strips = problem.rippings.iter().map(|ripping| {
            let best = shelf.strips(problem, ripping, ripping.board.raw());
            best.into_iter().map(|(value, _)| value).collect()
        });
        let beside = hand(problem, &shelf.on_hand(problem)) + wishes(problem, prices) - asked(problem, prices);
        Whole { strips: strips.collect(), beside }
    }
}

fn boards(problem: &Problem, ripping: &Ripping, value: &[i64]) -> Boards {
    let strips = Strips { value, most: None, least: 1, keeping: keeping(problem), toll: None };
    Boards::new(problem, ripping, ripping.board.raw(), strips)
}
