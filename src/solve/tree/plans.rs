//! Looking for cheaper plans at a node: searches through what was found on the way and through lists of what a plan can
//! be made of; and work for the finder, to dive from the node's linear program and to rework the best plan so far. All
//! find plans; only a search through a whole list also proves that there is none.

use super::super::branching::only_sheets_cost;
use super::super::generate::{Bounded, Relaxed};
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
        let found: Vec<Made> = self.master.found().filter(|made| self.is_in(scope, made)).cloned().collect();
        while self.is_cheaper(bound) && !self.watch.stop() {
            let Some(target) = self.target(scope) else { return };
            let (Verdict::Found(draft), _) = self.search(scope, &found, target, GLANCE) else { return };
            self.take(&draft);
        }
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
    /// too much. `last` says that there is nothing to branch on, and how often the node was broken off before.
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
        let found = listed.map(|listed| {
            let (verdict, nodes) = self.search(scope, &listed, target, NODES * MORE.pow(last.unwrap_or(0)));
            if last.is_none() && self.is_cheaper(target) {
                self.lists.searched(listed.len(), (!matches!(verdict, Verdict::Unsure)).then_some(nodes));
            }
            verdict
        });
        if pass && self.is_cheaper(target) {
            self.lists.tried(gap, matches!(found, Some(Verdict::Nothing | Verdict::Found(_))));
        }
        match found {
            None if look => self.search_nearest(scope, &lenses, target),
            found => found,
        }
    }

    /// Searches through the layouts and patterns closest to the program's own, which finds plans but proves nothing.
    fn search_nearest(&mut self, scope: &Scope, lenses: &[&Bounded], target: i64) -> Option<Verdict> {
        let listed = near(self.problem, self.need, scope, lenses, target, self.watch)?;
        let (verdict, _) = self.search(scope, &listed, target, NODES);
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
