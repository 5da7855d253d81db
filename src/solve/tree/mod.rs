//! The proof: branch and price. A node is a scope; the linear program over all layouts and patterns with covers added
//! gives its bound, whole numbers decide about it. Nodes whose few remaining candidates can be listed are searched
//! through; the others are split by a count that is not whole: sheets of a kind, sheets ripped one way, strips of a
//! width (branching on sums of Gilmore-Gomory variables, as in Vanderbeck 2000 and Silva, Alvelos and Valerio de
//! Carvalho 2010). The most promising node comes first, so the least bound of the nodes left is a bound on every plan. Where
//! it has grown, others work beside it ([`beside`]).

mod anew;
mod beside;
mod bounds;
mod finder;
mod lists;
mod near;
mod node;
mod pair;
mod plans;
mod strand;

use self::finder::Job;
use self::lists::Lists;
use self::node::Node;
use self::pair::Mate;
use self::strand::Strand;
use super::anew::Hints;
use super::branching::{Branching, Part, halves, open_counts, thirds};
use super::cover::Covers;
use super::draft::Draft;
use super::generate::{Bounded, Relaxed};
use super::master::Master;
use super::need::Need;
use super::outlay;
use super::prices::Prices;
use super::scope::{Count, Scope};
use super::search::{Learned, Verdict};
use super::watch::{Progress, Watch};
use crate::data::Cents;
use crate::model::Problem;
use std::cmp::Reverse;
use std::collections::BinaryHeap;

/// Nodes made until others work beside the tree, and the finder dives and reworks for the first time: many batches are
/// proved without.
const ALONE: usize = 8;
/// Nodes made for each dive, at least.
const EACH: usize = 8;

/// What part of the bound a search reaches beyond it at most.
const FINE: i64 = 4_000;

/// How often a node that cannot be split comes back, to be searched for longer each time.
const EFFORTS: u32 = 3;

/// What a look at a node came to.
enum Look {
    /// It holds nothing cheaper than the best plan.
    Closed,
    /// Parts, with the bound of all.
    Split(i64, Vec<Part>),
    /// It holds nothing below this cost; the next search may reach further.
    Raised(i64),
    /// It can neither be closed nor split; the next search may take longer.
    BrokenOff(i64),
    /// It cannot be split, and longer searches were broken off too.
    Stuck(i64),
}

/// The tree of open nodes, and the best plan so far.
pub(super) struct Tree<'a> {
    problem: &'a Problem,
    need: &'a Need,
    watch: &'a dyn Watch,
    master: Master<'a>,
    open: BinaryHeap<Reverse<Node>>,
    stuck: Option<i64>,
    made: usize,
    best: Option<(Draft, i64)>,
    branching: Branching,
    covers: Covers,
    /// Nodes made until the plan is to be reworked again.
    next: usize,
    /// Its strand, where others work beside it.
    strand: Option<&'a Strand<'a, Job>>,
    /// Dives so far.
    dives: usize,
    /// What the first linear program tells, until plans are cut anew by that.
    hints: Option<Hints>,
    /// Prices of the first linear program.
    first: Prices,
    /// How the lists went that it searched through.
    lists: Lists,
    /// How those went of nodes that there is nothing to split by.
    last_lists: Lists,
    /// What the searches through them have learned.
    learned: Learned,
    /// The other tree, where two share the work.
    mate: Option<Mate<'a>>,
}

impl<'a> Tree<'a> {
    /// A tree over all plans, with a plan to begin with and the linear program that led to it.
    pub(super) fn new(
        problem: &'a Problem,
        need: &'a Need,
        best: Option<Draft>,
        relaxed: &Relaxed,
        watch: &'a dyn Watch,
    ) -> Tree<'a> {
        let best = best.filter(|draft| draft.serves(problem, need)).map(|draft| priced(problem, need, &draft));
        let scope = Scope::all(problem, need, best.as_ref().map(|(_, cost)| *cost));
        let mut master = Master::new(problem, need, &scope);
        for made in &relaxed.found {
            master.add(made.clone());
        }
        let mut tree = Tree {
            problem,
            need,
            watch,
            master,
            open: BinaryHeap::new(),
            stuck: None,
            made: 0,
            best,
            branching: Branching::default(),
            covers: Covers::new(problem, need),
            next: ALONE,
            strand: None,
            dives: 0,
            hints: Some(anew::hints(problem, relaxed)),
            first: relaxed.prices.clone(),
            lists: Lists::new(),
            last_lists: Lists::new(),
            learned: Learned::default(),
            mate: None,
        };
        if let Some(bound) = relaxed.bound {
            tree.push(Node::new(bound, 0, scope));
        }
        tree
    }

    /// Closes or splits one node; false where none is open.
    fn step(&mut self) -> bool {
        let Some(Reverse(node)) = self.open.pop() else { return false };
        if !self.is_cheaper(node.bound) {
            return true;
        }
        if self.watch.stop() {
            self.stick(node.bound);
            return true;
        }
        self.report(node.bound);
        match self.look(&node) {
            Look::Closed => {}
            Look::Split(bound, parts) => {
                for part in parts {
                    self.push(node.part(bound, part));
                }
            }
            Look::Raised(bound) => {
                self.push(Node { bound, reach: further(node.reach, self.problem.charges.step(), bound), ..node });
            }
            Look::BrokenOff(bound) => self.push(Node { bound, efforts: node.efforts + 1, ..node }),
            Look::Stuck(bound) => self.stick(bound),
        }
        true
    }

    fn push(&mut self, node: Node) {
        self.made += 1;
        self.open.push(Reverse(Node { order: self.made, ..node }));
    }

    fn stick(&mut self, bound: i64) {
        self.stuck = Some(self.stuck.map_or(bound, |least| least.min(bound)));
    }

    fn is_cheaper(&self, bound: i64) -> bool {
        self.best.as_ref().is_none_or(|(_, cost)| bound < *cost)
    }

    fn report(&self, bound: i64) {
        let cents = |units: i64| Cents(units / self.problem.charges.cent);
        let mate = self.mate.as_ref().and_then(Mate::least);
        let least = self.stuck.into_iter().chain(mate).fold(bound, i64::min);
        if let Some(strand) = self.strand.filter(|strand| strand.is_first()) {
            strand.tell_bound(least);
        }
        let (best, bound) = (self.best.as_ref().map(|(_, cost)| cents(*cost)), Some(cents(least)));
        self.watch.report(Progress { doing: "proving that nothing cheaper exists", best, bound });
    }

    /// Bounds a node, lists and searches what is left of it, or splits it.
    fn look(&mut self, node: &Node) -> Look {
        let Some((bound, lenses)) = self.bound(node) else { return Look::Closed };
        let counts = open_counts(self.problem, &self.master, &node.scope);
        let last = counts.is_empty().then_some(node.efforts);
        let fresh = node.is_fresh() && self.dives * EACH <= self.made;
        let gap = self.gap(&node.scope, &lenses[0]);
        // The parts of a node that there is nothing to split by are much like it, and so would their lists be.
        let time = last.is_none_or(|efforts| efforts > 0 || self.last_lists.is_time(gap));
        if node.depth == 0 || (last.is_some() && time) {
            self.glance(&node.scope, bound);
        }
        if fresh && self.made >= ALONE && self.is_cheaper(bound) {
            self.dives += 1;
            self.dive(&node.scope, &lenses[0]);
        }
        if !self.is_cheaper(bound) {
            return Look::Closed;
        }
        let Some(target) = self.within_reach(node, bound) else { return Look::Closed };
        self.rework_now_and_then(&node.scope, &lenses, bound);
        let sheets_open = matches!(counts.first(), Some((Count::Kind(_), _)));
        let found =
            if sheets_open || !time { None } else { self.search_listed(&node.scope, lenses, target, last, fresh) };
        if last == Some(0) && time && self.is_cheaper(target) {
            self.last_lists.tried(gap, matches!(found, Some(Verdict::Nothing | Verdict::Found(_))));
        }
        match found {
            Some(Verdict::Nothing) => match outlay::least_from(self.problem, &node.scope, target + 1) {
                Some(bound) if self.is_cheaper(bound) => Look::Raised(bound),
                _ => Look::Closed,
            },
            Some(Verdict::Found(draft)) => {
                self.take(&draft);
                self.look(node)
            }
            // Others have told such a plan.
            Some(Verdict::Unsure) | None if !self.is_cheaper(target) => self.look(node),
            Some(Verdict::Unsure) | None => {
                let limit = self.limit();
                let parts = self.branching.split(&mut self.master, &node.scope, counts, limit);
                let parts = parts.filter(|parts| parts.iter().all(|part| part.scope != node.scope));
                let parts = parts.or_else(|| thirds(self.problem, self.need, &self.master, &node.scope));
                match parts.or_else(|| halves(self.problem, self.need, &node.scope)) {
                    Some(parts) => Look::Split(bound, parts),
                    None if node.efforts < EFFORTS => Look::BrokenOff(bound),
                    None => Look::Stuck(bound),
                }
            }
        }
    }

    fn limit(&self) -> Option<i64> {
        self.best.as_ref().map(|(_, cost)| *cost)
    }

    /// How far the bound at these prices stays below the greatest cost that is an improvement, in fixed point.
    fn gap(&self, scope: &Scope, lens: &Bounded) -> i128 {
        let (target, total) = (self.target(scope), lens.judged.total);
        let gap = |(target, total): (i64, i128)| i128::from(target) * i128::from(lens.prices.scale) - total;
        target.zip(total).map_or(0, gap)
    }

    /// The cost that the next search through a list aims at: the bound, where lists are short, or as far above it as the
    /// node's searches reach, or a step more if that closes the node where nothing is found; always an improvement.
    fn within_reach(&self, node: &Node, bound: i64) -> Option<i64> {
        let (most, step) = (self.target(&node.scope)?, self.problem.charges.step());
        match reach_from(bound, node.reach, step, most) {
            reach if reach == most => Some(most),
            reach => outlay::most_below(self.problem, &node.scope, reach + 1),
        }
    }

    /// Keeps a plan that is cheaper than the best so far, and makes all that is needed.
    fn take(&mut self, draft: &Draft) {
        if !draft.serves(self.problem, self.need) {
            return;
        }
        let (draft, cost) = priced(self.problem, self.need, draft);
        if self.is_cheaper(cost) {
            self.tell(&(draft.clone(), cost));
            self.best = Some((draft, cost));
        }
    }

    /// The greatest cost that is an improvement.
    fn target(&self, scope: &Scope) -> Option<i64> {
        let Some((_, cost)) = &self.best else {
            return Some(outlay::dearest(self.problem, scope));
        };
        outlay::most_below(self.problem, scope, *cost)
    }
}

/// How far the next search reaches where one found nothing below this bound: twice as far where steps are so small that it
/// would take many to get anywhere, else no further, as lists get longer with each step and all may be for nothing.
fn further(reach: i64, step: i64, bound: i64) -> i64 {
    if (2 * reach - 1) * step <= bound / FINE { 2 * reach } else { reach }
}

/// How far a search reaches from this bound in so many steps, the bound being the first: all the way where a step more
/// comes to the greatest cost that is an improvement.
fn reach_from(bound: i64, reach: i64, step: i64, most: i64) -> i64 {
    let reach = bound + (reach - 1) * step;
    if reach + step >= most { most } else { reach }
}

/// The plan without strips that nothing is cut from, and what it then costs.
fn priced(problem: &Problem, need: &Need, draft: &Draft) -> (Draft, i64) {
    let lean = draft.without_spare_strips(problem);
    let draft = if lean.serves(problem, need) { lean } else { draft.clone() };
    let cost = draft.cost(problem);
    (draft, cost)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn searches_reach_further_each_time_as_far_as_steps_are_small() {
        assert_eq!(reach_from(85_600, 1, 50, 85_700), 85_600, "the bound");
        assert_eq!(reach_from(85_600, 1, 50, 85_650), 85_650, "a step more closes the node");
        assert_eq!([1, 2].map(|reach| reach_from(85_600, reach, 50, 85_600)), [85_600; 2], "never further");
        assert_eq!(reach_from(85_600, 4, 1, 85_700), 85_603, "three steps beyond the bound");
        assert_eq!(further(1, 50, 85_650), 1, "half a dollar in 856.50");
        assert_eq!(further(1, 1, 85_650), 2, "a cent");
        assert_eq!([further(8, 1, 85_650), further(16, 1, 85_650)], [16, 16], "up to 21 cents");
    }
}
