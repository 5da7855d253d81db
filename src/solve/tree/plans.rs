//! Looking for cheaper plans at a node: searches through what was found on the way and through lists of what a plan can
//! be made of; and work for the finder, to dive from the node's linear program and to rework the best plan so far. All
//! find plans; only a search through a whole list also proves that there is none.

use super::super::branching::only_sheets_cost;
use super::super::generate::{Bounded, Relaxed, bounded};
use super::super::master::Made;
use super::super::need::Need;
use super::super::pool::pool;
use super::super::program::Program;
use super::super::scope::Scope;
use super::super::search::{Search, Verdict};
use super::finder::{Material, Task};
use super::near::near;
use super::strand::Until;
use super::{ALONE, Tree};

/// Nodes made from which on lists are tried only where they promise to be short, and searched through with care.
pub(super) const GROWN: usize = 64;
/// Most layouts and patterns that are listed where there is nothing to branch on: at first, and after that.
const LAST_LISTED: [usize; 2] = [6_000, 40_000];
/// Most nodes of a search through a list.
const NODES: usize = 500;
/// How many times as many it may have each time that a node comes back.
const MORE: usize = 8;
/// Most nodes of a search among what was found on the way, which proves nothing.
const GLANCE: usize = 100;

impl Tree<'_> {
    /// Has the finder dive from the node's linear program, with no more sheets than its scope allows.
    pub(super) fn dive(&mut self, scope: &Scope, relaxed: &Bounded) {
        let stock = scope.kinds.iter().map(|range| u32::try_from(range.most).ok()).collect();
        let need = Need { stock, ..self.need.clone() };
        let (used, found) = (self.master.used(), self.master.found().cloned().collect());
        let first =
            Relaxed { cost: self.master.cost(), bound: relaxed.bound, used, found, prices: relaxed.prices.clone() };
        self.hand_over(Task::Dive(need, first));
    }

    /// Looks for cheaper plans among what was found on the way.
    pub(super) fn glance(&mut self, scope: &Scope, bound: i64) {
        let found = self.found(scope);
        while self.is_cheaper(bound) && !self.watch.stop() {
            let Some(target) = self.target(scope) else { return };
            let (Verdict::Found(draft), _) = self.search(scope, &found, target, GLANCE) else { return };
            self.take(&draft);
        }
    }

    /// What was found on the way, as far as the scope has room for it.
    fn found(&self, scope: &Scope) -> Vec<Made> {
        self.master.found().filter(|made| self.is_in(scope, made)).cloned().collect()
    }

    /// What was found on the way, and what is closest to the prices of the first linear program: where all that is left
    /// to be settled costs nothing, nothing is nearer than anything else to those of now.
    fn found_or_near_at_first(&self, scope: &Scope, target: i64) -> Vec<Made> {
        let first = bounded(self.problem, self.need, scope, self.first.clone());
        let mut some = near(self.problem, self.need, scope, &[&first], target, self.watch).unwrap_or_default();
        some.extend(self.found(scope));
        some.sort_unstable();
        some.dedup();
        some
    }

    fn is_in(&self, scope: &Scope, made: &Made) -> bool {
        match made {
            Made::Layout(layout) => {
                let kind = self.problem.rippings[layout.ripping].sheet;
                scope.rippings[layout.ripping].most > 0 && scope.kinds[kind].most > 0
            }
            Made::Pattern(_) | Made::OnHand(..) => true,
        }
    }

    /// Searches through a list for a plan within the target: what comes out, and in how many nodes. Where the tree has
    /// grown, it chooses with care what to branch on.
    pub(super) fn search(&mut self, scope: &Scope, listed: &[Made], target: i64, nodes: usize) -> (Verdict, usize) {
        let program = Program::new(self.problem, self.need, scope, (listed, &self.master.priced_covers()), target);
        let until = self.strand.map(|strand| Until { strand, cost: target });
        let watch = until.as_ref().map_or(self.watch, |until| until);
        let search = Search::new(self.problem, self.need, program, target, nodes, watch);
        let found =
            if self.made < GROWN || nodes <= GLANCE { search.run() } else { search.with_care(&mut self.learned).run() };
        if matches!(found.0, Verdict::Unsure) {
            self.learn();
        }
        found
    }

    /// Lists all that a plan of the scope within the target can be made of, and searches through it; none where that is
    /// too much and no plan was found in less. `last` says that there is nothing to branch on, and how often the node was
    /// broken off before.
    pub(super) fn search_listed(
        &mut self,
        scope: &Scope,
        mut lenses: Vec<Bounded>,
        target: i64,
        last: Option<u32>,
        look: bool,
    ) -> Option<Verdict> {
        let most = last.map_or(self.lists.most, |efforts| LAST_LISTED[usize::from(efforts > 0)]);
        if last.is_some() && lenses.len() == 1 && !only_sheets_cost(self.problem, scope) {
            lenses.push(self.relaxed_with_fewer(scope));
        }
        let gap = i128::from(target) * i128::from(lenses[0].prices.scale) - lenses[0].judged.total?;
        let pass = last.is_none() && !look && self.made >= GROWN;
        if pass && !self.lists.is_time(gap) {
            return None;
        }
        let lenses: Vec<&Bounded> = lenses.iter().collect();
        let listed = pool(self.problem, self.need, scope, &lenses, (target, most), self.watch);
        let most_nodes = NODES * MORE.pow(last.unwrap_or(0));
        let found = listed.map(|listed| {
            let (verdict, nodes) = self.search(scope, &listed, target, most_nodes);
            if last.is_none() && self.is_cheaper(target) {
                self.lists.searched(listed.len(), (!matches!(verdict, Verdict::Unsure)).then_some(nodes));
            }
            verdict
        });
        if pass && self.is_cheaper(target) {
            self.lists.tried(gap, matches!(found, Some(Verdict::Nothing | Verdict::Found(_))));
        }
        match found {
            None if last.is_some() => {
                let some = self.found_or_near_at_first(scope, target);
                self.search_some(scope, &some, target, most_nodes)
            }
            None if look => {
                let nearest = near(self.problem, self.need, scope, &lenses, target, self.watch)?;
                self.search_some(scope, &nearest, target, NODES)
            }
            found => found,
        }
    }

    /// Searches through some of what a plan of the scope can be made of, which finds plans but proves nothing.
    fn search_some(&mut self, scope: &Scope, some: &[Made], target: i64, nodes: usize) -> Option<Verdict> {
        let (verdict, _) = self.search(scope, some, target, nodes);
        Some(verdict).filter(|verdict| matches!(verdict, Verdict::Found(_)))
    }

    /// Has the finder rework the best plan each time that the nodes made have doubled, in more rounds each time: few at
    /// first, then one for every node, but no more than there are ways to choose three of its sheets.
    pub(super) fn rework_now_and_then(&mut self, scope: &Scope, lenses: &[Bounded], bound: i64) {
        if self.made < self.next || self.best.is_none() {
            return;
        }
        let rounds = if self.next == ALONE { self.made / 2 } else { self.made.min(self.threes()) };
        let (found, covers) = (self.master.found().cloned().collect(), self.master.priced_covers());
        let (scope, lenses, target) = (scope.clone(), lenses.to_vec(), self.target(scope));
        self.hand_over(Task::Rework(Material { scope, lenses, target, found, covers, rounds, bound }));
        self.next = 2 * self.made;
    }

    /// In how many ways three of the best plan's sheets can be chosen.
    fn threes(&self) -> usize {
        let sheets = self.best.iter().flat_map(|(draft, _)| draft.layouts.values());
        let sheets = sheets.map(|copies| usize::try_from(*copies).expect("sheets are few")).sum::<usize>();
        sheets * sheets.saturating_sub(1) * sheets.saturating_sub(2) / 6
    }
}

#[cfg(test)]
mod tests {
    use super::super::super::generate::generate;
    use super::super::node::Node;
    use super::*;
    use crate::data::{File, Source, read};
    use crate::solve::Patient;

    const BATCH: &str = "[[sheet]]\nlength = 96\nwidth = 48\nprice = 38.50\n\
         [[panel]]\nsize = \"5 x 7\"\ncount = 38\n[[panel]]\nsize = \"8 x 10\"\ncount = 30\n\
         [[panel]]\nsize = \"9 x 12\"\ncount = 22\n[[panel]]\nsize = \"11 x 14\"\ncount = 26\n\
         [[panel]]\nsize = \"12 x 16\"\ncount = 18\n[yard]\nrips = \"either\"\ncut_price = 0.50\n";

    #[test]
    fn where_a_list_is_endless_plans_are_looked_for_in_less() {
        let job = read(&Source { job: File::of("batch", BATCH.to_string()), list: None, rack: None });
        let problem = crate::model::build(&job.expect("it is sound")).expect("they can be made");
        let need = Need::of(&problem);
        let relaxed = generate(&problem, &need, &[], &Patient);
        let mut tree = Tree::new(&problem, &need, None, &relaxed, &Patient);
        let scope = Scope::all(&problem, &need, None);
        let (bound, lenses) = tree.bound(&Node::new(0, 0, scope.clone())).expect("there are plans");
        let target = bound + 3 * problem.charges.sheets[0];
        let all: Vec<&Bounded> = lenses.iter().collect();
        let listed = pool(&problem, &need, &scope, &all, (target, LAST_LISTED[0]), &Patient);
        assert!(listed.is_none(), "no more than {} of them", LAST_LISTED[0]);
        let found = tree.search_listed(&scope, lenses, target, Some(0), false);
        let Some(Verdict::Found(draft)) = found else { panic!("three sheets more are enough: {found:?}") };
        assert!(draft.serves(&problem, &need) && draft.cost(&problem) <= target);
        let (some, met) = (tree.found_or_near_at_first(&scope, target), tree.found(&scope));
        assert!(
            some.len() > met.len() && met.iter().all(|made| some.contains(made)),
            "{} of {}",
            met.len(),
            some.len()
        );
        let nothing = tree.search_some(&scope, &[], target, NODES);
        assert!(nothing.is_none(), "that some hold no plan proves nothing: {nothing:?}");
    }
}
