//! A group of panel sizes that share strips with each other and with no others, and the least that the strips weigh
//! which give all of its panels: dynamic programming over the panels still wanted.

use super::super::layout::blank;
use super::super::need::Need;
use super::super::pattern::{Blank, Patterns, Worth};
use crate::model::{Problem, StripWidth};
use std::cmp::Reverse;
use std::collections::btree_map::Entry;
use std::collections::{BTreeMap, BTreeSet};

/// Most states of the panels still wanted; groups with more are left to the linear program alone.
const STATES: usize = 6_000;
/// Most patterns of a group.
const PATTERNS: usize = 300;
/// Most patterns of one blank that are looked at.
const PATTERNS_SEEN: usize = 5_000;

/// Panels of each size of the group that a strip gives.
type Panels = Vec<u32>;

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
        let states = counts.iter().try_fold(1_usize, |states, count| states.checked_mul(*count as usize + 1))?;
        if states > STATES {
            return None;
        }
        let mut found: BTreeMap<Blank, Vec<Panels>> = BTreeMap::new();
        for ripping in &problem.rippings {
            let widths = problem.families[ripping.family].widths.iter().enumerate();
            let takes = |width: &StripWidth| width.laid.iter().any(|laid| sizes.contains(&laid.size));
            for (at, _) in widths.filter(|(_, width)| takes(width)) {
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

    /// The least that strips weigh which give all panels, the strips of each blank weighing so much; and such strips.
    /// None where no strips do.
    pub(super) fn least(&self, weights: &[i64]) -> Option<(i64, Vec<u32>)> {
        let (mut strides, mut states) = (Vec::with_capacity(self.counts.len()), 1);
        for count in &self.counts {
            strides.push(states);
            states *= *count as usize + 1;
        }
        let patterns = self.worthwhile(weights);
        // Strips come in any order, so the next one may be of those that give the last size still wanted.
        let giving: Vec<Vec<Strip>> = (0..self.counts.len())
            .map(|last| {
                let some = patterns.iter().filter(|(_, panels)| panels[last] > 0);
                some.map(|(blank, panels)| Strip::of(*blank, panels, &strides)).collect()
            })
            .collect();
        // The least weight for each state, and the place of the pattern that it begins with.
        let mut best = vec![(i64::MAX, 0); states];
        best[0].0 = 0;
        let mut left = vec![0; self.counts.len()];
        for state in 1..states {
            count_up(&mut left, &self.counts);
            let last = left.iter().rposition(|left| *left > 0)?;
            let (mut least, mut first) = (i64::MAX, 0);
            for (at, strip) in giving[last].iter().enumerate() {
                let weight = best[strip.leads_to(state, &left)].0.saturating_add(weights[strip.blank]);
                if weight < least {
                    (least, first) = (weight, at);
                }
            }
            best[state] = (least, first);
        }
        let mut strips = vec![0; self.blanks.len()];
        let (mut left, mut state) = (self.counts.clone(), states - 1);
        while let Some(last) = left.iter().rposition(|left| *left > 0) {
            let strip = giving[last].get(best[state].1)?;
            strips[strip.blank] += 1;
            state = strip.leads_to(state, &left);
            strip.gives.iter().for_each(|(size, panels, _)| left[*size] = left[*size].saturating_sub(*panels));
        }
        let (weight, _) = best[states - 1];
        (weight < i64::MAX).then_some((weight, strips))
    }

    /// The patterns but those that give no more than another one that weighs no more.
    fn worthwhile(&self, weights: &[i64]) -> Vec<&(usize, Panels)> {
        let mut sorted: Vec<&(usize, Panels)> = self.patterns.iter().collect();
        sorted.sort_by_cached_key(|(blank, panels)| (weights[*blank], Reverse(panels.iter().sum::<u32>())));
        let mut kept: Vec<&(usize, Panels)> = Vec::new();
        for next in sorted {
            if !kept.iter().any(|other| contains(&other.1, &next.1)) {
                kept.push(next);
            }
        }
        kept
    }
}

/// A strip of a blank, cut to a pattern, on the way through the states.
struct Strip {
    blank: usize,
    /// What it gives: (size, panels, states between one panel of the size and the next).
    gives: Vec<(usize, u32, usize)>,
}

impl Strip {
    fn of(blank: usize, panels: &[u32], strides: &[usize]) -> Strip {
        let sizes = panels.iter().zip(strides).enumerate().filter(|(_, (panels, _))| **panels > 0);
        Strip { blank, gives: sizes.map(|(size, (panels, stride))| (size, *panels, *stride)).collect() }
    }

    /// The state that it leads to from this one, where so many panels of each size are wanted.
    fn leads_to(&self, state: usize, left: &[u32]) -> usize {
        self.gives
            .iter()
            .fold(state, |state, (size, panels, stride)| state - left[*size].min(*panels) as usize * stride)
    }
}

/// The next numbers of panels, the first size counting fastest.
fn count_up(left: &mut [u32], counts: &[u32]) {
    for (left, count) in left.iter_mut().zip(counts) {
        if *left < *count {
            *left += 1;
            return;
        }
        *left = 0;
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
    all.then(|| largest(found))
}

fn contains(larger: &[u32], smaller: &[u32]) -> bool {
    larger.iter().zip(smaller).all(|(larger, smaller)| larger >= smaller)
}

/// Those that no other one contains.
fn largest(found: BTreeSet<Panels>) -> Vec<Panels> {
    let mut largest: Vec<Panels> = Vec::new();
    // Descending, a larger one comes before those that it contains.
    for next in found.into_iter().rev() {
        if !largest.iter().any(|other| contains(other, &next)) {
            largest.push(next);
        }
    }
    largest
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
            assert_eq!(found.0, least, "{weights:?}");
            let weight: i64 = found.1.iter().zip(&weights).map(|(strips, weight)| i64::from(*strips) * weight).sum();
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
            let found = groups[0].least(&weights).map(|(least, _)| least);
            prop_assert_eq!(found, Some(by_trying(&groups[0], &weights)));
        }
    }
}
