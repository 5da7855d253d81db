//! The second tree: it looks for plans in short lists only, and spends no time on dives and reworking. Its nodes cost
//! far less than those of the first, so it gets far down; a list is tried where the bound has come so near the target that
//! such lists were short before, and else now and then.

use super::super::branching::Branching;
use super::super::cover::Covers;
use super::super::generate::Bounded;
use super::super::master::Master;
use super::super::pool::pool;
use super::super::scope::Scope;
use super::super::search::Verdict;
use super::plans::MORE;
use super::{Node, Tree};
use std::collections::BinaryHeap;

/// Most layouts and patterns that are listed while there is something to branch on, and where there is nothing.
const LISTED: [usize; 2] = [500, 4_000];
/// Most nodes of a search through a list.
const NODES: usize = 500;
/// What a list is counted as beside a node.
const LIST: i64 = 10;
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
    /// What it may still spend.
    purse: i64,
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
            dives: 0,
            lean: Some(Lean { near: -1, left: 0, passed: 0, purse: 0 }),
        };
        second.push(Node::new(0, 0, scope));
        second
    }

    /// Goes on for so much; false where nothing is open.
    pub(super) fn go_on(&mut self, purse: i64) -> bool {
        self.spend(-purse);
        while self.lean.as_ref().is_some_and(|lean| lean.purse > 0) {
            self.spend(1);
            if !self.step() {
                return false;
            }
        }
        true
    }

    fn spend(&mut self, part: i64) {
        if let Some(lean) = &mut self.lean {
            lean.purse -= part;
        }
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
        self.spend(LIST);
        let lenses: Vec<&Bounded> = lenses.iter().collect();
        let listed = pool(self.problem, self.need, scope, &lenses, target, LISTED[usize::from(last.is_some())]);
        let found = listed.map(|listed| self.search(scope, &listed, target, NODES * MORE.pow(last.unwrap_or(0))));
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
    use super::super::super::generate::generate;
    use super::super::super::need::Need;
    use super::super::turns::{Closed, SECOND};
    use super::*;
    use crate::data::{File, Source, read};
    use crate::solve::Patient;

    /// Two kinds of sheets, paid cuts, seven sizes and a strip on hand, which keeps covers away: enough for some dozens of
    /// nodes.
    const BATCH: &str = "[[sheet]]\nname = \"whole\"\nlength = 96\nwidth = 48\nprice = 38.50\n\
         [[sheet]]\nname = \"half\"\nlength = 48\nwidth = 48\nprice = 22.00\n\
         [[panel]]\nsize = \"5 x 7\"\ncount = 18\n[[panel]]\nsize = \"8 x 10\"\ncount = 20\n\
         [[panel]]\nsize = \"9 x 12\"\ncount = 22\ngrain = \"upright\"\n[[panel]]\nsize = \"11 x 14\"\ncount = 16\n\
         [[panel]]\nsize = \"12 x 16\"\ncount = 18\n[[panel]]\nsize = \"16 x 20\"\ncount = 14\n\
         [[panel]]\nsize = \"18 x 24\"\ncount = 13\n[yard]\nrips = \"either\"\n\
         [[strip]]\nlength = 11\nwidth = 8\n";

    #[test]
    fn either_tree_alone_and_both_by_turns_come_to_the_same_cost() {
        let mut most = 0;
        for charges in ["", "cut_price = 0.50\nfree_cuts = 2\n"] {
            let text = BATCH.replace("[yard]\n", &format!("[yard]\n{charges}"));
            let job = read(&Source { job: File::of("batch", text), list: None, rack: None }).expect("it is sound");
            let problem = crate::model::build(&job).expect("they can be made");
            let need = Need::of(&problem);
            let relaxed = generate(&problem, &need, &[], &Patient);
            let mut first = Tree::new(&problem, &need, None, &relaxed, &Patient);
            let mut second = first.second();
            while first.step() {}
            while second.step() {}
            most = most.max(first.made);
            let (first, second) = (first.closed(), second.closed());
            let both = Tree::new(&problem, &need, None, &relaxed, &Patient).close();
            let cost = |closed: &Closed| closed.best.as_ref().map(|(_, cost)| *cost).expect("a plan");
            assert_eq!(first.bound, Some(cost(&first)));
            assert_eq!(second.bound, Some(cost(&second)));
            assert_eq!(both.bound, Some(cost(&both)));
            assert_eq!((cost(&first), cost(&second)), (cost(&both), cost(&both)));
        }
        assert!(most > SECOND, "{most} nodes are too few for turns");
    }

    #[test]
    fn a_list_is_tried_again_at_half_the_gap_or_after_some_nodes() {
        let mut lean = Lean { near: -1, left: 0, passed: 0, purse: 0 };
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
