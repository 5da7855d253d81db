//! Two trees that share the work of one, each on a strand of its own with open nodes of its own (parallel branch and
//! bound, Gendron and Crainic 1994). The most promising come first in both: each tells the other how many it has of those
//! with the least bound, and gives some of them away where the other has fewer. As with all that strands tell, a tree
//! learns of that a lag later, however fast either is; so which tree closes which node does not hang on that.

use super::Tree;
use super::finder::Job;
use super::node::Node;
use super::strand::Strand;
use std::cmp::Reverse;
use std::collections::{BinaryHeap, VecDeque};
use std::mem::take;
use std::sync::{Mutex, MutexGuard, PoisonError};

/// How long a tree that has nothing to do waits until it looks again what came from the other, in nanoseconds.
pub(super) const IDLE: u64 = 200_000;

/// What is under way to the first tree and to the second, and when it was sent.
#[derive(Default)]
pub(super) struct Exchange([Mutex<VecDeque<(u64, Parcel)>>; 2]);

/// Nodes given away, and how things stand with the tree that gave them.
struct Parcel {
    nodes: Vec<Node>,
    state: State,
}

/// How things stand with a tree.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
struct State {
    /// The least bound of its open nodes that may hold something cheaper than its best plan, and how many have it.
    least: Option<(i64, usize)>,
    /// Parcels with nodes that it got.
    got: usize,
}

/// What a tree knows of the other, its mate.
pub(super) struct Mate<'a> {
    exchange: &'a Exchange,
    /// The tree whose mate it is: 0 or 1.
    of: usize,
    /// How things stand with the mate, as it last told.
    state: State,
    /// How things stood here when the mate was last told.
    told: State,
    /// Parcels with nodes that came from the mate.
    got: usize,
    /// Parcels with nodes that were sent to it.
    sent: usize,
    /// The bounds of the nodes that it did not yet tell to have got, parcel by parcel.
    under_way: VecDeque<Vec<i64>>,
}

impl Exchange {
    fn to(&self, tree: usize) -> MutexGuard<'_, VecDeque<(u64, Parcel)>> {
        self.0[tree].lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// The nodes that are still under way.
    pub(super) fn left(&self) -> Vec<Node> {
        let parcels = [0, 1].map(|tree| take(&mut *self.to(tree)));
        parcels.into_iter().flatten().flat_map(|(_, parcel)| parcel.nodes).collect()
    }
}

impl Mate<'_> {
    /// The mate of the first or the second tree; neither has sent anything yet.
    fn new(exchange: &Exchange, of: usize) -> Mate<'_> {
        let (state, told) = (State::default(), State::default());
        Mate { exchange, of, state, told, got: 0, sent: 0, under_way: VecDeque::new() }
    }

    /// The least bound of its open nodes, those under way to it among them.
    pub(super) fn least(&self) -> Option<i64> {
        let open = self.state.least.map(|(least, _)| least);
        self.under_way.iter().flatten().copied().chain(open).min()
    }

    /// How many to give it of so many nodes with this bound, so that both have as many.
    fn lacks(&self, (least, many): (i64, usize)) -> usize {
        let open = match self.state.least {
            Some((bound, _)) if bound < least => return 0,
            Some((bound, open)) if bound == least => open,
            _ => 0,
        };
        let coming = self.under_way.iter().flatten().filter(|bound| **bound == least).count();
        many.saturating_sub(open + coming) / 2
    }

    /// The nodes that it sent before this.
    fn sent_before(&mut self, horizon: u64) -> Vec<Node> {
        let mut nodes = Vec::new();
        let mut to = self.exchange.to(self.of);
        while to.front().is_some_and(|(time, _)| *time < horizon) {
            let Some((_, parcel)) = to.pop_front() else { break };
            self.got += usize::from(!parcel.nodes.is_empty());
            self.state = parcel.state;
            nodes.extend(parcel.nodes);
        }
        let open = self.sent - self.state.got;
        self.under_way.drain(..self.under_way.len() - open);
        nodes
    }

    /// Sends it nodes, and tells it how things stand with those kept, where it does not know that yet.
    fn send(&mut self, now: u64, nodes: Vec<Node>, least: Option<(i64, usize)>) {
        let state = State { least, got: self.got };
        if nodes.is_empty() && state == self.told {
            return;
        }
        if !nodes.is_empty() {
            self.sent += 1;
            self.under_way.push_back(nodes.iter().map(|node| node.bound).collect());
        }
        self.told = state;
        self.exchange.to(1 - self.of).push_back((now, Parcel { nodes, state }));
    }
}

impl<'a> Tree<'a> {
    /// A second tree that knows what this one does and has no open nodes yet; they are mates from now on.
    pub(super) fn second(&mut self, strand: &'a Strand<'a, Job>, exchange: &'a Exchange) -> Tree<'a> {
        self.mate = Some(Mate::new(exchange, 0));
        Tree {
            watch: strand,
            strand: Some(strand),
            mate: Some(Mate::new(exchange, 1)),
            open: BinaryHeap::new(),
            stuck: None,
            hints: None,
            master: self.master.clone(),
            best: self.best.clone(),
            branching: self.branching.clone(),
            covers: self.covers.clone(),
            lists: self.lists.clone(),
            last_lists: self.last_lists.clone(),
            learned: self.learned.clone(),
            first: self.first.clone(),
            ..*self
        }
    }

    /// Takes up what the mate has sent, and gives it nodes where it has too few.
    pub(super) fn share(&mut self, strand: &Strand<Job>) {
        let Some(mut mate) = self.mate.take() else { return };
        for node in mate.sent_before(strand.wait()) {
            self.push(node);
        }
        let least = self.most_promising();
        let nodes = least.map_or_else(Vec::new, |least| self.every_other(mate.lacks(least)));
        let kept = least.map(|(bound, many)| (bound, many - nodes.len()));
        mate.send(strand.now(), nodes, kept);
        self.mate = Some(mate);
    }

    /// The least bound of the open nodes that may hold something cheaper than the best plan, and how many have it.
    pub(super) fn most_promising(&self) -> Option<(i64, usize)> {
        let least = self.next_bound()?;
        Some((least, self.open.iter().filter(|node| node.0.bound == least).count()))
    }

    /// Takes so many of the open nodes out, half of the most promising at most: the second in line and every other one
    /// after that.
    fn every_other(&mut self, many: usize) -> Vec<Node> {
        let (mut nodes, mut kept) = (Vec::new(), Vec::new());
        while nodes.len() < many
            && let Some(first) = self.open.pop()
        {
            kept.push(first);
            nodes.extend(self.open.pop().map(|second| second.0));
        }
        self.open.extend(kept);
        nodes
    }

    /// The same tree with all that the other one left open, all that is still under way, and the cheaper of both plans.
    pub(super) fn with_all_of(mut self, other: Tree<'a>, exchange: &Exchange) -> Tree<'a> {
        self.open.extend(other.open);
        self.open.extend(exchange.left().into_iter().map(Reverse));
        self.stuck = self.stuck.into_iter().chain(other.stuck).min();
        self.best = self.best.into_iter().chain(other.best).min_by_key(|(_, cost)| *cost);
        self
    }
}

#[cfg(test)]
mod tests {
    use super::super::node::tests::scope;
    use super::*;

    fn nodes(bounds: &[i64]) -> Vec<Node> {
        bounds.iter().map(|bound| Node::new(*bound, 0, scope())).collect()
    }

    fn sent_before(mate: &mut Mate, horizon: u64) -> Vec<i64> {
        mate.sent_before(horizon).iter().map(|node| node.bound).collect()
    }

    #[test]
    fn a_tree_with_fewer_of_the_most_promising_nodes_gets_half_of_what_the_other_has_more() {
        let exchange = Exchange::default();
        let [mut second, mut first] = [0, 1].map(|of| Mate::new(&exchange, of));
        assert_eq!(second.lacks((500, 1)), 0, "the only one is closed here");
        assert_eq!(second.lacks((500, 7)), 3);
        first.send(10, Vec::new(), Some((500, 3)));
        assert_eq!(sent_before(&mut second, 10), [0; 0]);
        assert_eq!(second.lacks((500, 7)), 3, "that was told at 10, which is not before 10");
        sent_before(&mut second, 11);
        assert_eq!([(500, 7), (500, 3), (499, 7), (501, 7)].map(|here| second.lacks(here)), [2, 0, 3, 0]);
        second.send(20, nodes(&[500, 500]), Some((500, 5)));
        assert_eq!(second.lacks((500, 5)), 0, "two are under way");
        assert_eq!(sent_before(&mut first, 21), [500, 500]);
        assert_eq!(first.lacks((500, 5)), 0);
    }

    #[test]
    fn nodes_are_open_from_when_they_are_sent_until_they_are_closed() {
        let exchange = Exchange::default();
        let [mut second, mut first] = [0, 1].map(|of| Mate::new(&exchange, of));
        second.send(10, nodes(&[500, 500]), None);
        second.send(20, nodes(&[505]), None);
        assert_eq!(second.least(), Some(500));
        assert_eq!(sent_before(&mut first, 15), [500, 500]);
        first.send(30, Vec::new(), Some((510, 1)));
        assert_eq!(second.least(), Some(500), "it does not know yet that they came");
        sent_before(&mut second, 40);
        assert_eq!(second.least(), Some(505), "one is still under way");
        assert_eq!(sent_before(&mut first, 50), [505]);
        first.send(50, Vec::new(), None);
        sent_before(&mut second, 60);
        assert_eq!((second.least(), exchange.left().len()), (None, 0));
        first.send(70, nodes(&[520]), None);
        assert_eq!((first.least(), exchange.left().len()), (Some(520), 1));
    }
}
