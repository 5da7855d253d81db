//! The second tree: it looks for plans in short lists only, and has no finder dive from its nodes. Its nodes cost
//! far less than those of the first, so it gets far down; a list is tried where the bound has come so near the target that
//! such lists were short before, and else now and then.

use super::super::branching::Branching;
use super::super::cover::Covers;
use super::super::generate::Bounded;
use super::super::master::Master;
use super::super::pool::pool;
use super::super::scope::Scope;
use super::super::search::{Learned, Verdict};
use super::lists::Lists;
use super::plans::MORE;
use super::{Node, Tree};
use std::collections::BinaryHeap;

/// Most layouts and patterns that are listed while there is something to branch on, and where there is nothing.
const LISTED: [usize; 2] = [500, 4_000];
/// Most nodes of a search through a list.
const NODES: usize = 500;
/// Most nodes that are passed over after a list that was too long.
const PASSED: usize = 64;

/// How the lists of the second tree went.
pub(super) struct Lean {
    /// How far below the target the bound may stay for a list to be tried at once, in fixed point.
    near: i128,
    /// Nodes to be passed over until a list is tried all the same.
    left: usize,
    /// Nodes passed over before the last list.
    passed: usize,
}

impl<'a> Tree<'a> {
    /// A second tree over all plans, with what the first has found.
    pub(super) fn second(&self) -> Tree<'a> {
        let scope = Scope::all(self.problem, self.need, self.limit());
        let mut master = Master::new(self.problem, self.need, &scope);
        self.master.found().for_each(|made| {
            master.add(made.clone());
        });
        let mut second = Tree {
            problem: self.problem,
            need: self.need,
            watch: self.watch,
            master,
            open: BinaryHeap::new(),
            stuck: None,
            made: 0,
            best: self.best.clone(),
            branching: Branching::nearer_first(),
            covers: Covers::new(self.problem, self.need),
            next: usize::MAX,
            strand: None,
            dives: 0,
            hints: None,
            lists: Lists::new(),
            learned: Learned::default(),
            lean: Some(Lean { near: -1, left: 0, passed: 0 }),
        };
        second.push(Node::new(0, 0, scope));
        second
    }

    /// Lists all that a plan of the scope within the target can be made of, where that promises to be little, and
    /// searches through it; none where it does not, or is too much.
    pub(super) fn search_short(
        &mut self,
        scope: &Scope,
        lenses: &[Bounded],
        target: i64,
        last: Option<u32>,
    ) -> Option<Verdict> {
        let gap = i128::from(target) * i128::from(lenses[0].prices.scale) - lenses[0].judged.total?;
        if !self.lean.as_mut()?.is_time(gap) {
            return None;
        }
        let lenses: Vec<&Bounded> = lenses.iter().collect();
        let most = LISTED[usize::from(last.is_some())];
        let listed = pool(self.problem, self.need, scope, &lenses, (target, most), self.watch);
        let found = listed.map(|listed| self.search(scope, &listed, target, NODES * MORE.pow(last.unwrap_or(0))).0);
        let closed = matches!(found, Some(Verdict::Nothing | Verdict::Found(_)));
        self.lean.as_mut()?.learn(gap, closed);
        found
    }
}

impl Lean {
    /// Whether to list at a node that stays so far below the target.
    fn is_time(&mut self, gap: i128) -> bool {
        let time = gap <= self.near || self.left == 0;
        self.left -= usize::from(!time);
        time
    }

    /// Keeps in mind how a list went.
    fn learn(&mut self, gap: i128, closed: bool) {
        if closed {
            self.near = self.near.max(gap);
            self.passed /= 2;
        } else {
            self.near = gap / 2;
            self.passed = (self.passed * 2).clamp(1, PASSED);
            self.left = self.passed;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_list_is_tried_again_at_half_the_gap_or_after_some_nodes() {
        let mut lean = Lean { near: -1, left: 0, passed: 0 };
        assert!(lean.is_time(100));
        lean.learn(100, false);
        assert!(lean.is_time(50));
        assert!(!lean.is_time(51));
        assert!(lean.is_time(51), "one node was passed over");
        lean.learn(51, false);
        assert!(!lean.is_time(51) && !lean.is_time(51) && lean.is_time(51), "then two");
        lean.learn(51, true);
        assert!(lean.is_time(51));
    }
}
