//! Small sets of rip widths or lengths that leave every panel asked for a way to lie.

use crate::length::Length;
use crate::model::{Laid, Problem};
use std::collections::BTreeSet;

/// What each panel size asked for may be cut with: one of each set must be used.
pub(super) struct Sets {
    /// All candidates, those to be tried first first.
    candidates: Vec<Length>,
    /// For each size, those that would do.
    would_do: Vec<BTreeSet<Length>>,
}

/// The sets of one size, and whether they are all that there are.
pub(super) struct Listed {
    /// The sets.
    pub sets: Vec<BTreeSet<Length>>,
    /// False where there are too many to be listed.
    pub all: bool,
}

/// Most sets that are looked at.
const LOOKS: usize = 20_000;
/// Most sets that are listed.
const LISTED: usize = 64;

impl Sets {
    /// The sets of rip widths; sizes that strips on hand may give need none.
    pub(super) fn of_widths(problem: &Problem, first: &BTreeSet<Length>) -> Sets {
        let families: BTreeSet<usize> = problem.rippings.iter().map(|ripping| ripping.family).collect();
        let hand = problem.on_hand.iter().map(|strip| strip.family);
        let by_hand = lying(problem, hand, |laid, _| laid.along);
        let would_do = lying(problem, families.into_iter(), |_, width| width);
        Sets::new(problem, would_do, first, |size| !by_hand[size].is_empty())
    }

    /// The sets of lengths at the stop block.
    pub(super) fn of_lengths(problem: &Problem, first: &BTreeSet<Length>) -> Sets {
        let would_do = lying(problem, 0..problem.families.len(), |laid, _| laid.along);
        Sets::new(problem, would_do, first, |_| false)
    }

    fn new(
        problem: &Problem,
        mut would_do: Vec<BTreeSet<Length>>,
        first: &BTreeSet<Length>,
        needs_none: impl Fn(usize) -> bool,
    ) -> Sets {
        let all: BTreeSet<Length> = would_do.iter().flatten().copied().collect();
        let others = all.iter().filter(|candidate| !first.contains(candidate));
        let candidates = first.iter().chain(others).copied().collect();
        for (size, of) in problem.sizes.iter().enumerate() {
            if of.count == 0 || needs_none(size) {
                would_do[size].clear();
            }
        }
        would_do.retain(|set| !set.is_empty());
        Sets { candidates, would_do }
    }

    /// The sets of just so many that leave each size a way; where there are fewer candidates than that, all of them.
    pub(super) fn of(&self, many: usize) -> Listed {
        let mut listing = Listing { sets: self, listed: Vec::new(), looks: LOOKS, all: true };
        listing.choose(0, many.min(self.candidates.len()), &mut BTreeSet::new());
        Listed { sets: listing.listed, all: listing.all }
    }
}

struct Listing<'a> {
    sets: &'a Sets,
    listed: Vec<BTreeSet<Length>>,
    looks: usize,
    all: bool,
}

impl Listing<'_> {
    fn choose(&mut self, from: usize, more: usize, chosen: &mut BTreeSet<Length>) {
        if self.looks == 0 || self.listed.len() >= LISTED {
            self.all = false;
            return;
        }
        self.looks -= 1;
        if more == 0 {
            if self.sets.would_do.iter().all(|set| !set.is_disjoint(chosen)) {
                self.listed.push(chosen.clone());
            }
            return;
        }
        for at in from..=self.sets.candidates.len() - more {
            let candidate = self.sets.candidates[at];
            chosen.insert(candidate);
            self.choose(at + 1, more - 1, chosen);
            chosen.remove(&candidate);
        }
    }
}

/// For each size, what its ways to lie in these families come to.
fn lying(
    problem: &Problem,
    families: impl Iterator<Item = usize>,
    of: impl Fn(&Laid, Length) -> Length,
) -> Vec<BTreeSet<Length>> {
    let mut sets = vec![BTreeSet::new(); problem.sizes.len()];
    for width in families.flat_map(|family| &problem.families[family].widths) {
        for laid in &width.laid {
            sets[laid.size].insert(of(laid, width.width));
        }
    }
    sets
}
