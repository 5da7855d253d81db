//! Looks for the cover of a group that so many strips miss most: a linear program over plans of the group's panels, of
//! which only those are listed that weigh less than what is known (columns as in Gilmore and Gomory 1961). It is kept
//! from one time to the next, when only the strips are others.

use super::super::pattern::Blank;
use super::super::simplex::{Column, Outcome, Simplex};
use super::Cover;
use super::group::{Group, Least};
use std::collections::BTreeMap;

/// What weights are rounded to.
const FINE: f64 = 4_096.0;
/// What a cover must miss by, beside its least weight.
const MISSED: f64 = 1e-4;
/// Most plans that are added.
const ROUNDS: usize = 60;
/// About what a search for the least weight takes a look, in nanoseconds.
const LOOK: u64 = 400;
/// It takes long to look for a cover, in nanoseconds.
const LONG: u64 = 1_000_000;
/// How often it is not looked for one at most after that came to nothing.
const PASSED: usize = 64;
/// What it costs to have no plan at all.
const DEAR: f64 = 1e3;

/// A group and the linear program over its plans: a row for each blank, whose slack may fall short of what a plan takes
/// by the strips there are, and one that asks for a plan.
#[derive(Clone)]
pub(super) struct Separation {
    group: Group,
    lp: Simplex,
    /// Row of each blank, and its slack.
    rows: Vec<(usize, usize)>,
    /// The row that asks for a plan, and the column that stands for none.
    one: (usize, usize),
    /// What its searches have taken since that was last asked, in nanoseconds.
    work: u64,
    pause: Pause,
}

/// How often nothing is looked for until it is again: twice as often each time that it took long for nothing.
#[derive(Clone, Default)]
struct Pause {
    left: usize,
    passed: usize,
}

impl Pause {
    fn is_over(&mut self) -> bool {
        let over = self.left == 0;
        self.left -= usize::from(!over);
        over
    }

    fn tried(&mut self, well: bool) {
        self.passed = if well { self.passed / 2 } else { (2 * self.passed).clamp(1, PASSED) };
        self.left = if well { 0 } else { self.passed };
    }
}

impl Separation {
    pub(super) fn new(group: Group) -> Separation {
        let mut lp = Simplex::default();
        let rows: Vec<(usize, usize)> =
            group.blanks.iter().map(|_| lp.add_row(&[], 0.0, (0.0, f64::INFINITY))).collect();
        let (one, _) = lp.add_row(&[], 1.0, (0.0, f64::INFINITY));
        lp.add_column(&more(rows.iter().map(|(row, _)| (*row, 1.0)).collect(), 1.0));
        let none = lp.add_column(&more(vec![(one, 1.0)], DEAR));
        lp.begin_with(&[(one, none)]);
        Separation { group, lp, rows, one: (one, none), work: 0, pause: Pause::default() }
    }

    /// The work done since this was last asked, in nanoseconds as for the linear program.
    pub(super) fn work(&mut self) -> u64 {
        self.lp.work() + std::mem::take(&mut self.work)
    }

    /// The cover that these strips miss most; none where they meet all, or where it is not looked for since that took long
    /// before and came to nothing.
    pub(super) fn unmet(&mut self, strips: &BTreeMap<Blank, f64>) -> Option<Cover> {
        if !self.pause.is_over() {
            return None;
        }
        let before = self.work();
        let found = self.look(strips);
        let took = self.work();
        self.work = before + took;
        self.pause.tried(found.is_some() || took < LONG);
        found
    }

    fn look(&mut self, strips: &BTreeMap<Blank, f64>) -> Option<Cover> {
        let of = |blank| strips.get(blank).map_or(0.0, |strips: &f64| strips.max(0.0));
        let there: Vec<f64> = self.group.blanks.iter().map(of).collect();
        for ((_, slack), there) in self.rows.iter().zip(&there) {
            self.lp.set_bounds(*slack, -there, f64::INFINITY);
        }
        if self.lp.dual(f64::INFINITY) != Outcome::Optimal {
            self.lp.begin_with(&[self.one]);
        }
        for _ in 0..ROUNDS {
            if self.lp.primal() != Outcome::Optimal {
                return None;
            }
            let prices = self.lp.prices();
            let weights: Vec<f64> = self.rows.iter().map(|(row, _)| prices[*row]).collect();
            let short = prices[self.one.0];
            let used: f64 = weights.iter().zip(&there).map(|(weight, there)| weight * there).sum();
            if short - used < MISSED * short.abs().max(1e-3) {
                return None;
            }
            let rounded: Vec<i64> = weights.iter().map(|weight| whole(weight * FINE)).collect();
            let Least { weight, plan, looks } = self.group.least(&rounded)?;
            self.work += LOOK * looks as u64;
            let new = real(weight) <= short * FINE * (1.0 - 1e-3);
            let Some(plan) = plan.filter(|plan| new && !self.group.plans.contains(plan)) else {
                return self.cover(&weights, &there);
            };
            let takes = plan.iter().zip(&self.rows).filter(|(strips, _)| **strips > 0);
            let takes = takes.map(|(strips, (row, _))| (*row, -f64::from(*strips))).chain([(self.one.0, 1.0)]);
            self.lp.add_column(&more(takes.collect(), 0.0));
            self.group.plans.push(plan);
        }
        None
    }

    /// The cover with these weights, in small whole numbers where there are such.
    fn cover(&mut self, weights: &[f64], there: &[f64]) -> Option<Cover> {
        let most = weights.iter().copied().fold(0.0, f64::max);
        if most <= 0.0 {
            return None;
        }
        let small = (1..=24).map(f64::from).find(|times| {
            weights.iter().all(|weight| {
                let times = weight / most * times;
                (times - times.round()).abs() < 1e-6
            })
        });
        let fine = small.unwrap_or(FINE);
        let rounded: Vec<i64> = weights.iter().map(|weight| whole(weight / most * fine)).collect();
        let Least { weight: least, looks, .. } = self.group.least(&rounded)?;
        self.work += LOOK * looks as u64;
        let used: f64 = rounded.iter().zip(there).map(|(weight, there)| real(*weight) * there).sum();
        (least > 0 && real(least) - used > MISSED * real(least)).then(|| Cover {
            weights: self.group.blanks.iter().copied().zip(rounded).filter(|(_, weight)| *weight > 0).collect(),
            least,
        })
    }
}

/// A column of any number from none on.
fn more(entries: Vec<(usize, f64)>, cost: f64) -> Column {
    Column { entries, cost, least: 0.0, most: f64::INFINITY }
}

#[allow(clippy::cast_possible_truncation)] // small weights
fn whole(weight: f64) -> i64 {
    weight.round().max(0.0) as i64
}

#[allow(clippy::cast_precision_loss)] // small weights
fn real(weight: i64) -> f64 {
    weight as f64
}

#[cfg(test)]
mod tests {
    use super::super::super::need::Need;
    use super::super::group::groups;
    use super::*;
    use crate::data::{File, Source, read};
    use proptest::prelude::*;

    fn twelve_by_sixteens(count: u32) -> Separation {
        only_group(&format!(
            "[[panel]]\nsize = \"12 x 16\"\ncount = {count}\ngrain = \"upright\"\n[yard]\nrips = \"along\"\n"
        ))
    }

    fn only_group(text: &str) -> Separation {
        let text = format!("[[sheet]]\nlength = 96\nwidth = 48\nprice = 38.50\n{text}");
        let job = read(&Source { job: File::of("batch", text), list: None, rack: None }).expect("it is sound");
        let problem = crate::model::build(&job).expect("they can be made");
        Separation::new(groups(&problem, &Need::of(&problem)).pop().expect("they are a group"))
    }

    /// Upright along the sheet they lie on strips 12 in. wide, five on each (5 x 16 + 4/8 = 80 1/2 of 95 3/4 in.; six
    /// would take 96 5/8), by hand.
    #[test]
    fn a_part_of_a_strip_does_not_do() {
        let mut group = twelve_by_sixteens(17);
        let blank = group.group.blanks[0];
        let cover = group.unmet(&BTreeMap::from([(blank, 3.4)])).expect("3.4 strips are no four");
        assert_eq!(cover, Cover { weights: BTreeMap::from([(blank, 1)]), least: 4 });
        assert_eq!(group.unmet(&BTreeMap::from([(blank, 4.0)])), None);
        assert_eq!(group.unmet(&BTreeMap::from([(blank, 3.9)])), Some(cover), "it is as short as before");
    }

    #[test]
    fn what_took_long_for_nothing_is_tried_less_and_less() {
        let mut pause = Pause::default();
        let mut passes = |well| {
            let passes = (0..2 * PASSED).take_while(|_| !pause.is_over()).count();
            pause.tried(well);
            passes
        };
        assert_eq!([false, false, false, true, false, true].map(&mut passes), [0, 1, 2, 4, 0, 4]);
        assert_eq!([false; 9].map(passes).last(), Some(&PASSED));
    }

    proptest! {
        #![proptest_config(ProptestConfig { cases: 32, failure_persistence: None, ..ProptestConfig::default() })]

        /// Three sizes on strips of three widths; so many quarters of strips each time.
        #[test]
        fn what_was_asked_before_does_not_matter(
            counts in prop::collection::vec(1..9_u32, 3),
            quarters in prop::collection::vec(prop::collection::vec(0..24_u8, 3), 1..5),
        ) {
            let panel = |(size, count): (&str, &u32)| format!("[[panel]]\nsize = \"{size}\"\ncount = {count}\n");
            let panels: String = ["16 x 20", "16 x 24", "20 x 24"].into_iter().zip(&counts).map(panel).collect();
            let mut kept = only_group(&format!("[yard]\nrips = \"along\"\n{panels}"));
            let blanks = kept.group.blanks.clone();
            for quarters in quarters {
                let strips = blanks.iter().copied().zip(quarters.into_iter().cycle().map(|four| f64::from(four) / 4.0)).collect();
                let fresh = only_group(&format!("[yard]\nrips = \"along\"\n{panels}")).unmet(&strips);
                prop_assert_eq!(kept.unmet(&strips).is_some(), fresh.is_some());
            }
        }
    }

    #[test]
    fn no_strips_at_all_miss_a_cover_that_asks_for_some() {
        let mut group = twelve_by_sixteens(1);
        let blank = group.group.blanks[0];
        for none in [BTreeMap::new(), BTreeMap::from([(blank, -1e-12)])] {
            let cover = group.unmet(&none).expect("one strip is needed");
            assert_eq!(cover.least, 1);
        }
    }
}
