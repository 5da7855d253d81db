//! Strip covers: however panels are crosscut, some of them take so many strips. A cover weighs the strips of each blank
//! that its panels may be cut from; no plan's strips weigh less than `least`. The linear program, which may crosscut a
//! part of a strip, often stays below; then the cover is a cut in the counts of strips (a Fenchel cut, Boyd 1994; over
//! all groups together they come to the bound of the decomposition by groups of panels, Dantzig and Wolfe 1960).
//!
//! What the strips must weigh is found in whole numbers, for any weights, by [`corner`] or [`ways`]; so errors of the
//! linear program that proposes the weights ([`separate`]) can make a cover weak, never wrong.

mod corner;
mod group;
mod parts;
mod remainders;
mod separate;
mod strip;
mod ways;

use self::separate::Separation;
use super::need::Need;
use super::pattern::Blank;
use crate::model::Problem;
use std::collections::BTreeMap;

/// Weighed strips, and the least that those of any plan weigh.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Cover {
    /// What one strip crosscut from a blank weighs, above zero; others weigh nothing.
    pub weights: BTreeMap<Blank, i64>,
    /// What the strips of every plan weigh at least, above zero.
    pub least: i64,
}

impl Cover {
    /// What a strip of this blank weighs, as a part of the least; none where it weighs nothing.
    #[allow(clippy::cast_precision_loss)] // small weights
    pub(super) fn part(&self, blank: Blank) -> Option<f64> {
        self.weights.get(&blank).map(|weight| *weight as f64 / self.least as f64)
    }
}

/// The groups of panels that covers are looked for.
#[derive(Clone)]
pub(super) struct Covers {
    groups: Vec<Separation>,
}

impl Covers {
    /// The groups of what is needed.
    pub(super) fn new(problem: &Problem, need: &Need) -> Covers {
        Covers { groups: group::groups(problem, need).into_iter().map(Separation::new).collect() }
    }

    /// The work done since this was last asked, in nanoseconds.
    pub(super) fn work(&mut self) -> u64 {
        self.groups.iter_mut().map(Separation::work).sum()
    }

    /// Covers that so many strips do not meet, the most telling of each group.
    pub(super) fn unmet(&mut self, strips: &BTreeMap<Blank, f64>) -> Vec<Cover> {
        self.groups.iter_mut().filter_map(|group| group.unmet(strips)).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::super::generate::{bounded, generate, relax};
    use super::super::master::Master;
    use super::super::money::least;
    use super::super::scope::Scope;
    use super::*;
    use crate::data::{File, Source, read};
    use crate::solve::Patient;
    use proptest::prelude::*;

    const SHEETS: &str = "[[sheet]]\nname = \"whole\"\nlength = 96\nwidth = 48\nprice = 38.50\n\
         [[sheet]]\nname = \"half\"\nlength = 48\nwidth = 48\nprice = 22.00\n";

    fn problem(counts: &[u32], yard: &str) -> Problem {
        let panel = |(size, count): (&&str, &u32)| format!("[[panel]]\nsize = \"{size}\"\ncount = {count}\n");
        let sizes = ["8 x 10", "12 x 16", "16 x 20", "18 x 24", "5 x 7"];
        let panels: String = sizes.iter().zip(counts).map(panel).collect();
        let text = format!("{SHEETS}{panels}[yard]\nrips = \"either\"\n{yard}");
        let job = read(&Source { job: File::of("batch", text), list: None, rack: None }).expect("it is sound");
        crate::model::build(&job).expect("they can be made")
    }

    /// The bound of all plans with the covers that the linear program does not meet, and those covers.
    fn covered(problem: &Problem, need: &Need) -> (i64, Vec<Cover>) {
        let scope = Scope::all(problem, need, None);
        let mut master = Master::new(problem, need, &scope);
        let mut covers = Covers::new(problem, need);
        let mut bound = 0;
        for _ in 0..20 {
            let now = relax(problem, need, &scope, &mut master, None, &Patient);
            bound = bound.max(now.bound.expect("there are plans"));
            let unmet = covers.unmet(&master.strips());
            if unmet.is_empty() {
                break;
            }
            for cover in unmet {
                master.add_cover(cover);
            }
        }
        (bound, master.covers().cloned().collect())
    }

    #[test]
    fn covers_lift_the_bound() {
        let problem = problem(&[7, 11, 9, 7, 13], "cut_price = 0.50\n");
        let need = Need::of(&problem);
        let plain = generate(&problem, &need, &[], &Patient).bound.expect("there are plans");
        let (bound, covers) = covered(&problem, &need);
        assert!(!covers.is_empty());
        assert!(bound > plain, "{bound} is not above {plain}");
    }

    proptest! {
        #![proptest_config(ProptestConfig { cases: 48, failure_persistence: None, ..ProptestConfig::default() })]

        #[test]
        fn the_cheapest_plan_meets_all_covers(
            counts in prop::collection::vec(1..14_u32, 2..6),
            times in prop::sample::select(vec![1, 25]),
            yard in prop::sample::select(vec![
                "", "cut_price = 0.50\n", "cut_price = 0.75\nfree_cuts = 3\nfree_per = \"order\"\n",
            ]),
        ) {
            let counts: Vec<u32> = counts.iter().map(|count| count * times).collect();
            let problem = problem(&counts, yard);
            let need = Need::of(&problem);
            let Ok(money) = least(&problem, &Patient) else { panic!("the job can be done") };
            let (bound, covers) = covered(&problem, &need);
            prop_assert!(bound <= money.cost, "{bound} is above {}", money.cost);
            let mut strips: BTreeMap<Blank, i64> = BTreeMap::new();
            for (pattern, copies) in &money.draft.patterns {
                *strips.entry(pattern.blank).or_default() += i64::from(*copies);
            }
            for cover in covers {
                let of = |(blank, weight): (&Blank, &i64)| weight * strips.get(blank).copied().unwrap_or(0);
                let weight: i64 = cover.weights.iter().map(of).sum();
                prop_assert!(weight >= cover.least, "{weight} of {cover:?}");
            }
        }

        #[test]
        fn a_bound_with_covers_holds_at_any_prices(
            counts in prop::collection::vec(1..14_u32, 2..6),
            by in prop::collection::vec(0..40_i64, 1..8),
        ) {
            let problem = problem(&counts, "cut_price = 0.50\n");
            let need = Need::of(&problem);
            let Ok(money) = least(&problem, &Patient) else { panic!("the job can be done") };
            let (_, covers) = covered(&problem, &need);
            let mut prices = generate(&problem, &need, &[], &Patient).prices;
            for (cover, times) in covers.iter().zip(by.iter().cycle()) {
                let each = prices.scale * 100 / cover.least * times;
                prices.covered += i128::from(each) * i128::from(cover.least);
                for (blank, weight) in &cover.weights {
                    *prices.covering.entry(*blank).or_default() += each * weight;
                }
            }
            prices.size.iter_mut().zip(by.iter().cycle()).for_each(|(price, times)| *price = *price / 32 * times);
            let bound = bounded(&problem, &need, &Scope::all(&problem, &need, None), prices).bound;
            prop_assert!(bound.is_none_or(|bound| bound <= money.cost), "{bound:?} is above {}", money.cost);
        }
    }
}
