//! A group of panel sizes that share strips with each other and with no others, and the least that the strips weigh
//! which give all of its panels.

use super::super::layout::blank;
use super::super::need::Need;
use super::super::pattern::{Blank, Patterns, Worth};
use super::corner::Corner;
use super::parts::Parts;
use super::strip::{Cheapest, Strip};
use super::ways::Ways;
use crate::model::{Problem, StripWidth};
use std::cmp::Reverse;
use std::collections::btree_map::Entry;
use std::collections::{BTreeMap, BTreeSet};

/// Most numbers of panels still wanted that a search looks at.
const LOOKS: usize = 2_000;
/// How many times fewer remainders there must be than numbers of panels still wanted for a corner to be looked at.
const FEWER: usize = 8;
/// Most patterns of a group.
const PATTERNS: usize = 300;
/// Most patterns of one blank that are looked at.
const PATTERNS_SEEN: usize = 500;

/// Panels of each size of the group that a strip gives.
type Panels = Vec<u32>;

/// What strips weigh that give all panels of a group.
#[derive(Debug, PartialEq, Eq)]
pub(super) struct Least {
    /// No strips weigh less.
    pub(super) weight: i64,
    /// Strips of each blank that weigh just that; none where it was too long until some are found.
    pub(super) plan: Option<Vec<u32>>,
    /// How many looks that took.
    pub(super) looks: usize,
}

/// Sizes whose panels are covered together.
#[derive(Clone)]
pub(super) struct Group {
    /// Panels wanted of each size.
    counts: Panels,
    /// All blanks that some of its panels can be cut from.
    pub(super) blanks: Vec<Blank>,
    /// What can be crosscut from a blank: (index into the blanks, panels); only the largest.
    patterns: Vec<(usize, Panels)>,
    /// Plans met so far: strips of each blank.
    pub(super) plans: Vec<Vec<u32>>,
}

/// The groups of what is needed, as far as they are small enough; none where strips may come from a breakdown or lie on
/// hand, which no group counts.
pub(super) fn groups(problem: &Problem, need: &Need) -> Vec<Group> {
    if problem.rippings.iter().any(|ripping| ripping.broken) || !problem.on_hand.is_empty() {
        return Vec::new();
    }
    let mut tied: Vec<BTreeSet<usize>> = Vec::new();
    for width in problem.families.iter().flat_map(|family| &family.widths) {
        let sizes = width.laid.iter().map(|laid| laid.size).filter(|size| need.count[*size] > 0);
        let mut sizes: BTreeSet<usize> = sizes.collect();
        let (apart, shared) = tied.into_iter().partition(|other| other.is_disjoint(&sizes));
        tied = apart;
        sizes.extend::<BTreeSet<usize>>(shared.into_iter().flat_map(|other: BTreeSet<usize>| other).collect());
        if !sizes.is_empty() {
            tied.push(sizes);
        }
    }
    // Where nothing is worth anything, every pattern is worth as much as the best.
    let price = vec![0; need.count.len()];
    let worth = Worth { price: &price, most: &need.count, keeping: 0 };
    let longest = problem.rippings.iter().map(|ripping| ripping.usable(ripping.board).raw()).max().unwrap_or(0);
    let families = 0..problem.families.len();
    let patterns: Vec<Patterns> = families.map(|family| Patterns::new(problem, family, worth, longest)).collect();
    let group = |sizes: BTreeSet<usize>| Group::new(problem, need, &patterns, &sizes.into_iter().collect::<Vec<_>>());
    tied.into_iter().filter_map(group).collect()
}

impl Group {
    /// None where there is too much to tell apart.
    fn new(problem: &Problem, need: &Need, patterns: &[Patterns], sizes: &[usize]) -> Option<Group> {
        let counts: Panels = sizes.iter().map(|size| need.count[*size]).collect();
        let mut found: BTreeMap<Blank, Vec<Panels>> = BTreeMap::new();
        for ripping in &problem.rippings {
            let widths = problem.families[ripping.family].widths.iter().enumerate();
            let takes = |width: &StripWidth| width.laid.iter().any(|laid| sizes.contains(&laid.size));
            // The widest give most patterns: whether there are too many is seen soonest there.
            for (at, _) in widths.rev().filter(|(_, width)| takes(width)) {
                let blank = blank(ripping, ripping.board.raw(), at);
                if let Entry::Vacant(entry) = found.entry(blank) {
                    let patterns = &patterns[blank.family];
                    entry.insert(largest_of(problem, (sizes, &counts), patterns, blank)?);
                }
            }
        }
        found.retain(|_, patterns| !patterns.is_empty());
        let blanks: Vec<Blank> = found.keys().copied().collect();
        let patterns = found.into_values().enumerate();
        let patterns = patterns.flat_map(|(at, patterns)| patterns.into_iter().map(move |panels| (at, panels)));
        let patterns: Vec<(usize, Panels)> = patterns.collect();
        (patterns.len() <= PATTERNS).then(|| Group { counts, blanks, patterns, plans: Vec::new() })
    }

    /// The least that strips weigh which give all panels, the strips of each blank weighing so much; none where no strips
    /// do, or where there is too much to tell.
    pub(super) fn least(&self, weights: &[i64]) -> Option<Least> {
        let weigh =
            |strips: &[u32]| strips.iter().zip(weights).map(|(strips, weight)| i64::from(*strips) * weight).sum();
        let known = self.plans.iter().map(|plan| (weigh(plan), plan)).min_by_key(|(weight, _)| *weight);
        let strips = self.worthwhile(weights);
        let (found, looks) = self.cheapest(&strips, known.map(|(weight, _)| weight))?;
        let (weight, plan) = match found {
            Cheapest::Strips(way) => {
                let mut plan = vec![0; self.blanks.len()];
                for at in way {
                    plan[strips[at].blank] += 1;
                }
                (weigh(&plan), Some(plan))
            }
            Cheapest::NotBelow => known.map(|(weight, plan)| (weight, Some(plan.clone())))?,
            Cheapest::AtLeast(weight) => (weight, None),
        };
        Some(Least { weight, plan, looks })
    }

    /// The strips that weigh least, if less than `below`, or what they weigh at least; none where no strips give all
    /// panels, or there is too much to tell. And how many looks that took.
    fn cheapest(&self, strips: &[Strip], below: Option<i64>) -> Option<(Cheapest, usize)> {
        let parts = Parts::new(&self.counts, strips)?;
        let ways = Ways::new(&self.counts, strips, &parts);
        let corner = Corner::new(&self.counts, strips, &parts);
        let corner = corner.filter(|corner| ways.as_ref().is_none_or(|ways| corner.many() <= ways.many() / FEWER));
        let found = corner.map(|corner| corner.cheapest(below, LOOKS));
        let (least, looks) = match (found, &ways) {
            (Some((Cheapest::AtLeast(least), looks)), Some(_)) => (least, looks),
            (Some(found), _) => return Some(found),
            (None, _) => (0, 0),
        };
        let (found, more) = ways?.cheapest(below, LOOKS);
        let found = match found {
            Cheapest::AtLeast(other) => Cheapest::AtLeast(least.max(other)),
            found => found,
        };
        Some((found, looks + more))
    }

    /// Strips cut to the patterns, but to those that give no more than another one that weighs no more.
    fn worthwhile(&self, weights: &[i64]) -> Vec<Strip> {
        let mut sorted: Vec<&(usize, Panels)> = self.patterns.iter().collect();
        sorted.sort_by_cached_key(|(blank, panels)| (weights[*blank], Reverse(panels.iter().sum::<u32>())));
        let mut kept: Vec<&(usize, Panels)> = Vec::new();
        for next in sorted {
            if !kept.iter().any(|other| contains(&other.1, &next.1)) {
                kept.push(next);
            }
        }
        let strip = |(blank, panels): &(usize, Panels)| {
            let gives = panels.iter().copied().enumerate().filter(|(_, panels)| *panels > 0).collect();
            Strip { blank: *blank, weight: weights[*blank], gives }
        };
        kept.into_iter().map(strip).collect()
    }
}

/// The largest patterns of a blank, as panels of each of the sizes, up to the counts; none where there are too many to
/// look at.
fn largest_of(
    problem: &Problem,
    (sizes, counts): (&[usize], &[u32]),
    patterns: &Patterns,
    blank: Blank,
) -> Option<Vec<Panels>> {
    let (mut found, mut looks) = (BTreeSet::new(), 0);
    let all = patterns.walk(blank, 0, &mut |pattern, _| {
        let mut panels = vec![0; sizes.len()];
        for (size, copies) in pattern.yields(problem) {
            if let Some(at) = sizes.iter().position(|other| *other == size) {
                panels[at] = counts[at].min(panels[at] + copies);
            }
        }
        if panels.iter().any(|panels| *panels > 0) {
            found.insert(panels);
        }
        looks += 1;
        looks < PATTERNS_SEEN
    });
    all.then(|| largest(found))?
}

fn contains(larger: &[u32], smaller: &[u32]) -> bool {
    larger.iter().zip(smaller).all(|(larger, smaller)| larger >= smaller)
}

/// Those that no other one contains; none where there are too many.
fn largest(found: BTreeSet<Panels>) -> Option<Vec<Panels>> {
    let mut largest: Vec<Panels> = Vec::new();
    // Descending, a larger one comes before those that it contains.
    for next in found.into_iter().rev() {
        if !largest.iter().any(|other| contains(other, &next)) {
            if largest.len() == PATTERNS {
                return None;
            }
            largest.push(next);
        }
    }
    Some(largest)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::data::{File, Source, read};
    use proptest::prelude::*;

    fn problem(text: &str) -> Problem {
        let job = read(&Source { job: File::of("batch", text), list: None, rack: None }).expect("it is sound");
        crate::model::build(&job).expect("they can be made")
    }

    const SHEET: &str =
        "[[sheet]]\nlength = 96\nwidth = 48\nprice = 38.50\n[yard]\nrips = \"along\"\n[saw]\nsquaring = 0\n";

    /// Of a strip of 96 in. come five panels 16 in. long (5 x 16 + 4/8 = 80 1/2; six would take 96 5/8) or seven 12 in.
    /// long (7 x 12 + 6/8 = 84 3/4; eight would take 96 7/8), by hand. Seventeen are just two strips of five and one of
    /// seven, or four of five.
    #[test]
    fn seventeen_panels_take_the_strips_that_weigh_least() {
        let problem = problem(&format!("{SHEET}[[panel]]\nsize = \"12 x 16\"\ncount = 17\n"));
        let groups = groups(&problem, &Need::of(&problem));
        let [group] = &groups[..] else { panic!("one size is one group") };
        let widths = &problem.families[0].widths;
        let wide = |at: usize| widths[group.blanks[at].width].width == crate::length::Length::inches(16);
        let narrow_and_wide = if wide(0) { [1, 0] } else { [0, 1] };
        for (weights, least) in [([1, 1], 3), ([12, 16], 40), ([5, 7], 17), ([3, 7], 12), ([0, 1], 0)] {
            let weights: Vec<i64> = narrow_and_wide.iter().map(|at| weights[*at]).collect();
            let found = group.least(&weights).expect("strips do");
            assert_eq!(found.weight, least, "{weights:?}");
            let plan = found.plan.expect("few looks are needed");
            let weight: i64 = plan.iter().zip(&weights).map(|(strips, weight)| i64::from(*strips) * weight).sum();
            assert_eq!(weight, least);
        }
    }

    #[test]
    fn sizes_that_share_a_width_are_one_group() {
        let text = format!(
            "{SHEET}[[panel]]\nsize = \"12 x 16\"\ncount = 5\n[[panel]]\nsize = \"9 x 12\"\ncount = 5\n\
             [[panel]]\nsize = \"8 x 10\"\ncount = 5\n"
        );
        let problem = problem(&text);
        let groups = groups(&problem, &Need::of(&problem));
        let mut counts: Vec<usize> = groups.iter().map(|group| group.counts.len()).collect();
        counts.sort_unstable();
        assert_eq!(counts, [1, 2]);
    }

    /// Every number of strips of each blank up to one for each panel, by trying all: whether they give the panels.
    fn by_trying(group: &Group, weights: &[i64]) -> i64 {
        fn give(group: &Group, weights: &[i64], left: &[u32], next: usize, spent: i64, least: &mut i64) {
            if left.iter().all(|left| *left == 0) {
                *least = (*least).min(spent);
                return;
            }
            for at in next..group.patterns.len() {
                let (blank, panels) = &group.patterns[at];
                let after: Vec<u32> =
                    left.iter().zip(panels).map(|(left, given)| left.saturating_sub(*given)).collect();
                if after != left {
                    give(group, weights, &after, at, spent + weights[*blank], least);
                }
            }
        }
        let mut least = i64::MAX;
        give(group, weights, &group.counts, 0, 0, &mut least);
        least
    }

    /// What was found is so, where the strips that weigh least weigh so much.
    fn assert_holds(group: &Group, strips: &[Strip], (found, below, least): (&Cheapest, Option<i64>, i64)) {
        match found {
            Cheapest::Strips(way) => {
                let weight: i64 = way.iter().map(|at| strips[*at].weight).sum();
                let mut left = group.counts.clone();
                for (size, panels) in way.iter().flat_map(|at| &strips[*at].gives) {
                    left[*size] = left[*size].saturating_sub(*panels);
                }
                assert_eq!((weight, left.iter().max()), (least, Some(&0)));
                assert!(below.is_none_or(|below| weight < below));
            }
            Cheapest::NotBelow => assert!(below.is_some_and(|below| below <= least)),
            Cheapest::AtLeast(weight) => assert!(*weight <= least, "{weight} is more than {least}"),
        }
    }

    proptest! {
        #![proptest_config(ProptestConfig { cases: 64, failure_persistence: None, ..ProptestConfig::default() })]

        #[test]
        fn nothing_weighs_less_than_the_least(
            counts in prop::collection::vec(0..6_u32, 3),
            weights in prop::collection::vec(0..20_i64, 4),
        ) {
            let panel = |(size, count): (&str, &u32)| format!("[[panel]]\nsize = \"{size}\"\ncount = {}\n", count + 1);
            let panels: String = ["16 x 20", "16 x 24", "20 x 24"].into_iter().zip(&counts).map(panel).collect();
            let problem = problem(&format!("{SHEET}{panels}"));
            let groups = groups(&problem, &Need::of(&problem));
            prop_assert_eq!(groups.len(), 1);
            let weights: Vec<i64> = weights.into_iter().cycle().take(groups[0].blanks.len()).collect();
            let found = groups[0].least(&weights).map(|least| least.weight);
            prop_assert_eq!(found, Some(by_trying(&groups[0], &weights)));
        }

        #[test]
        fn corner_and_ways_never_tell_what_is_not_so(
            counts in prop::collection::vec(0..8_u32, 3),
            weights in prop::collection::vec(0..20_i64, 4),
            below in prop::option::of(0..120_i64),
            looks in 0..60_usize,
        ) {
            let panel = |(size, count): (&str, &u32)| format!("[[panel]]\nsize = \"{size}\"\ncount = {}\n", count + 1);
            let panels: String = ["16 x 20", "16 x 24", "20 x 24"].into_iter().zip(&counts).map(panel).collect();
            let problem = problem(&format!("{SHEET}{panels}"));
            let groups = groups(&problem, &Need::of(&problem));
            let weights: Vec<i64> = weights.into_iter().cycle().take(groups[0].blanks.len()).collect();
            let (least, strips) = (by_trying(&groups[0], &weights), groups[0].worthwhile(&weights));
            let parts = Parts::new(&groups[0].counts, &strips).expect("strips give all sizes");
            let ways = Ways::new(&groups[0].counts, &strips, &parts).expect("they are few");
            for most in [looks, usize::MAX] {
                let (found, took) = ways.cheapest(below, most);
                prop_assert!(took <= most && (most == looks || !matches!(found, Cheapest::AtLeast(_))));
                assert_holds(&groups[0], &strips, (&found, below, least));
                let corner = Corner::new(&groups[0].counts, &strips, &parts).expect("it is small");
                let (found, took) = corner.cheapest(below, most);
                prop_assert!(took <= most);
                assert_holds(&groups[0], &strips, (&found, below, least));
            }
        }
    }
}
