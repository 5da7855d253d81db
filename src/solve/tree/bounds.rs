//! The bound of a node: the linear program of its scope, with the covers that it does not meet added until it meets all
//! or there are many.

use super::super::branching::only_sheets_cost;
use super::super::generate::{Bounded, bounded, relax};
use super::super::layout::Layout;
use super::super::scope::Scope;
use super::Tree;
use super::node::Node;

/// Most times that covers are added at one program of a node.
const ROUNDS: usize = 10;
/// Most covers of a tree, beyond which its program would become slow.
const COVERS: usize = 200;

impl Tree<'_> {
    /// The bound of a node and the prices that gave it, those of the program that the master stands at first; none
    /// where the node holds nothing cheaper than the best plan.
    ///
    /// Where nothing but sheets costs money and it is settled which, the program may use fewer: how far it stays below
    /// tells how close the node comes to being closed. Where cuts cost money too, both programs tell something.
    pub(super) fn bound(&mut self, node: &Node) -> Option<(i64, Vec<Bounded>)> {
        let (mut bound, mut lenses) = (node.bound, Vec::new());
        let only_sheets = only_sheets_cost(self.problem, &node.scope);
        if !only_sheets {
            let plain = self.relax(&node.scope);
            bound = bound.max(plain.bound?);
            lenses.push(plain);
        }
        if self.is_cheaper(bound) && (only_sheets || (node.scope.is_bought() && !self.buys_as_best(&node.scope))) {
            let fewer = self.relaxed_with_fewer(&node.scope);
            bound = bound.max(fewer.bound?);
            lenses.insert(0, fewer);
        }
        self.is_cheaper(bound).then_some((bound, lenses))
    }

    fn relax(&mut self, scope: &Scope) -> Bounded {
        let mut best = self.relax_once(scope);
        for _ in 0..ROUNDS {
            let closed = best.bound.is_none_or(|bound| !self.is_cheaper(bound));
            if closed || self.master.covers().count() >= COVERS || self.watch.stop() {
                break;
            }
            let unmet = self.covers.unmet(&self.master.strips());
            self.watch.worked(self.covers.work());
            if unmet.is_empty() {
                break;
            }
            for cover in unmet {
                self.master.add_cover(cover);
            }
            let next = self.relax_once(scope);
            if next.is_as_good_as(&best) {
                best = next;
            }
        }
        best
    }

    fn relax_once(&mut self, scope: &Scope) -> Bounded {
        let limit = self.limit();
        relax(self.problem, self.need, scope, &mut self.master, limit, self.watch)
    }

    /// The bound of a scope at the prices where fewer sheets would be welcome.
    pub(super) fn relaxed_with_fewer(&mut self, scope: &Scope) -> Bounded {
        let fewer = self.relax(&scope.with_fewer(self.problem));
        bounded(self.problem, self.need, scope, fewer.prices)
    }

    /// Whether the best plan buys the very sheets of the scope.
    fn buys_as_best(&self, scope: &Scope) -> bool {
        let Some((draft, _)) = &self.best else { return false };
        let mut bought = vec![0_i64; scope.kinds.len()];
        let sheet = |layout: &Layout| self.problem.rippings[layout.ripping].sheet;
        draft.layouts.iter().for_each(|(layout, copies)| bought[sheet(layout)] += i64::from(*copies));
        bought.iter().zip(&scope.kinds).all(|(bought, range)| range.least <= *bought && *bought <= range.most)
    }
}
