//! Two trees that share the work of one, each on a strand of its own with open nodes of its own. Each tells the other how
//! many of its nodes are the most promising; where the other has fewer of them, it is given some. As with all that strands
//! tell, a tree learns of that a lag later, however fast either is.

use super::super::watch::Watch;
use super::strand::Strand;
use super::{Node, Tree};
use std::collections::VecDeque;
use std::sync::{Mutex, PoisonError};

/// What a tree that waits for the other does not look at it for, in nanoseconds.
const IDLE: u64 = 200_000;

/// What the two trees sent each other that did not arrive yet: to the first, to the second, and when.
#[derive(Default)]
pub(super) struct Exchange([Mutex<VecDeque<(u64, Parcel)>>; 2]);

/// Nodes given to the other, and how things stand with those kept.
struct Parcel {
    nodes: Vec<Node>,
    state: State,
}

/// How things stand with a tree.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
struct State {
    /// The least bound of its open nodes that may hold something cheaper than the best plan, and how many have it.
    least: Option<(i64, usize)>,
    /// Parcels with nodes that have arrived.
    arrived: usize,
}

/// What a tree knows of the other.
pub(super) struct Mate<'a> {
    exchange: &'a Exchange,
    /// Whose mate it is: 0 or 1.
    of: usize,
    /// How things stand with the mate, as far as it told.
    state: State,
    /// What it was told last.
    told: State,
    /// Parcels with nodes that have arrived here.
    arrived: usize,
    /// Parcels with nodes that were sent.
    sent: usize,
    /// The bounds of the nodes that are not known to have arrived, parcel by parcel.
    under_way: VecDeque<Vec<i64>>,
}

impl Exchange {
    /// The mates of both trees, at first without open nodes.
    pub(super) fn mates(&self) -> [Mate<'_>; 2] {
        [0, 1].map(|of| Mate {
            exchange: self,
            of,
            state: State::default(),
            told: State::default(),
            arrived: 0,
            sent: 0,
            under_way: VecDeque::new(),
        })
    }

    /// The nodes that did not arrive.
    pub(super) fn left(&self) -> Vec<Node> {
        let parcels = |to: &Mutex<VecDeque<(u64, Parcel)>>| std::mem::take(&mut *to.lock().unwrap_or_else(PoisonError::into_inner));
        self.0.iter().flat_map(parcels).flat_map(|(_, parcel)| parcel.nodes).collect()
    }
}

impl Mate<'_> {
    /// The least bound of its open nodes, those that are under way to it too.
    pub(super) fn least(&self) -> Option<i64> {
        let open = self.state.least.map(|(least, _)| least);
        self.under_way.iter().flatten().copied().chain(open).min()
    }

    /// How many to give it of so many nodes with this bound.
    fn lacks(&self, (least, many): (i64, usize)) -> usize {
        let its = match self.state.least {
            Some((bound, _)) if bound < least => return 0,
            Some((bound, its)) if bound == least => its,
            _ => 0,
        };
        let coming = self.under_way.iter().flatten().filter(|bound| **bound == least).count();
        many.saturating_sub(its + coming) / 2
    }

    /// The nodes that have arrived by now.
    fn arrived(&mut self, horizon: u64) -> Vec<Node> {
        let mut to = self.exchange.0[self.of].lock().unwrap_or_else(PoisonError::into_inner);
        let mut nodes = Vec::new();
        while to.front().is_some_and(|(time, _)| *time < horizon) {
            let Some((_, parcel)) = to.pop_front() else { break };
            self.arrived += usize::from(!parcel.nodes.is_empty());
            nodes.extend(parcel.nodes);
            self.state = parcel.state;
        }
        let open = self.sent - self.state.arrived;
        self.under_way.drain(..self.under_way.len() - open);
        nodes
    }

    /// Sends nodes, and tells how things stand with those kept.
    fn send(&mut self, now: u64, nodes: Vec<Node>, least: Option<(i64, usize)>) {
        let state = State { least, arrived: self.arrived };
        if nodes.is_empty() && state == self.told {
            return;
        }
        if !nodes.is_empty() {
            self.sent += 1;
            self.under_way.push_back(nodes.iter().map(|node| node.bound).collect());
        }
        self.told = state;
        let mut to = self.exchange.0[1 - self.of].lock().unwrap_or_else(PoisonError::into_inner);
        to.push_back((now, Parcel { nodes, state }));
    }
}

impl Tree<'_> {
    /// Takes up nodes that the mate has given, and gives it some where it lacks them.
    pub(super) fn share<J: Send>(&mut self, strand: &Strand<J>) {
        let Some(mut mate) = self.mate.take() else { return };
        let horizon = strand.wait();
        for node in mate.arrived(horizon) {
            self.push(node);
        }
        let least = self.most_promising();
        let nodes = least.map_or_else(Vec::new, |least| self.every_other(mate.lacks(least)));
        let least = least.map(|(bound, many)| (bound, many - nodes.len()));
        mate.send(strand.now(), nodes, least);
        self.mate = Some(mate);
    }

    /// The least bound of the open nodes that may hold something cheaper than the best plan, and how many have it.
    fn most_promising(&self) -> Option<(i64, usize)> {
        let least = self.open.peek().map(|node| node.0.bound).filter(|bound| self.is_cheaper(*bound))?;
        Some((least, self.open.iter().filter(|node| node.0.bound == least).count()))
    }

    /// Takes so many of the open nodes out, every other one from the second.
    fn every_other(&mut self, many: usize) -> Vec<Node> {
        if many == 0 {
            return Vec::new();
        }
        let mut nodes = Vec::new();
        let mut kept = Vec::new();
        while let Some(node) = self.open.pop() {
            if kept.len() > nodes.len() && nodes.len() < many { nodes.push(node.0) } else { kept.push(node) }
            if nodes.len() == many {
                break;
            }
        }
        self.open.extend(kept);
        nodes
    }

    /// Waits a moment for the mate, which has open nodes.
    pub(super) fn idle<J: Send>(&mut self, strand: &Strand<J>, bound: i64) {
        strand.worked(IDLE);
        self.report(bound);
    }
}
