//! Small sets of rip widths or lengths that leave every panel asked for a way to lie.

use crate::length::Length;
use crate::model::{Laid, Problem};
use std::collections::BTreeSet;

/// What each panel size asked for may be cut with: one of each set must be used.
pub(super) struct Sets {
    /// All candidates, those to be tried first first.
    candidates: Vec<Length>,
    /// For each size, the places of those that would do, ascending; sizes of few choices first.
    would_do: Vec<Vec<usize>>,
    /// For each two of these sizes, whether no candidate would do for both.
    apart: Vec<Vec<bool>>,
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
        let candidates: Vec<Length> = first.iter().chain(others).copied().collect();
        for (size, of) in problem.sizes.iter().enumerate() {
            if of.count == 0 || needs_none(size) {
                would_do[size].clear();
            }
        }
        would_do.retain(|set| !set.is_empty());
        would_do.sort_by_key(BTreeSet::len);
        let apart = would_do.iter().map(|one| would_do.iter().map(|other| one.is_disjoint(other)).collect()).collect();
        let places = |set: &BTreeSet<Length>| {
            (0..candidates.len()).filter(|place| set.contains(&candidates[*place])).collect::<Vec<usize>>()
        };
        Sets { would_do: would_do.iter().map(places).collect(), apart, candidates }
    }

    /// The sets of just so many that leave each size a way; where there are fewer candidates than that, all of them.
    pub(super) fn of(&self, many: usize) -> Listed {
        let mut listing = Listing { sets: self, chosen: Vec::new(), listed: Vec::new(), looks: LOOKS, all: true };
        let sizes: Vec<usize> = (0..self.would_do.len()).collect();
        listing.choose(0, many.min(self.candidates.len()), &sizes);
        Listed { sets: listing.listed, all: listing.all }
    }
}

struct Listing<'a> {
    sets: &'a Sets,
    chosen: Vec<usize>,
    listed: Vec<BTreeSet<Length>>,
    looks: usize,
    all: bool,
}

impl Listing<'_> {
    /// Chooses so many more from this place on, for the sizes that what is chosen leaves without a way.
    fn choose(&mut self, from: usize, more: usize, sizes: &[usize]) {
        if self.too_few(from, more, sizes) {
            return;
        }
        if self.looks == 0 || self.listed.len() >= LISTED {
            self.all = false;
            return;
        }
        self.looks -= 1;
        if more == 0 {
            self.listed.push(self.chosen.iter().map(|place| self.sets.candidates[*place]).collect());
            return;
        }
        for place in from..=self.sets.candidates.len() - more {
            let without = |size: &usize| self.sets.would_do[*size].binary_search(&place).is_err();
            let left: Vec<usize> = sizes.iter().copied().filter(without).collect();
            self.chosen.push(place);
            self.choose(place + 1, more - 1, &left);
            self.chosen.pop();
        }
    }

    /// Whether so many more from this place on cannot do for these sizes: one of them has none left, or more of them
    /// than that share none.
    fn too_few(&self, from: usize, more: usize, sizes: &[usize]) -> bool {
        let mut apart: Vec<usize> = Vec::new();
        for size in sizes {
            if self.sets.would_do[*size].last().is_none_or(|last| *last < from) {
                return true;
            }
            if apart.iter().all(|other| self.sets.apart[*size][*other]) {
                apart.push(*size);
            }
        }
        apart.len() > more
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
