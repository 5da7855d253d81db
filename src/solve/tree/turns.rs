//! Two trees by turns. How long it takes to meet the cheapest plan is much a matter of luck, and differs from one way of
//! searching to another; so where a tree has grown, a second one that searches otherwise goes on beside it, each learns
//! the other's plans, and the first that closes ends both (an algorithm portfolio, Gomes and Selman 2001).

use super::super::draft::Draft;
use super::Tree;
use std::cmp::Reverse;

/// Nodes made until a second tree is begun.
pub(super) const SECOND: usize = 64;
/// What the second tree may spend for each node of the first: one for a node, and what a list costs.
const TURN: i64 = 30;

/// How the work on a tree ended.
pub(in crate::solve) struct Closed {
    /// The cheapest plan found and its cost in units; none where none was found.
    pub best: Option<(Draft, i64)>,
    /// No plan costs less, in units; none where no plan can be made at all.
    pub bound: Option<i64>,
}

impl Tree<'_> {
    /// Closes node after node until nothing is open, or the watch says stop.
    pub(in crate::solve) fn close(mut self) -> Closed {
        let mut second: Option<Tree> = None;
        while self.step() {
            if self.made < SECOND {
                continue;
            }
            let second = second.get_or_insert_with(|| self.second());
            second.learn(&self);
            let left = second.go_on(TURN);
            self.learn(second);
            if !left {
                break;
            }
        }
        let Some(mut second) = second else { return self.closed() };
        // Where one is at its end and has not closed all, the other goes on alone.
        second.learn(&self);
        while !self.is_proved() && second.step() {}
        self.learn(&second);
        while !second.is_proved() && self.step() {}
        second.learn(&self);
        let (first, second) = (self.closed(), second.closed());
        let bound = first.bound.zip(second.bound).map(|(first, second)| first.max(second));
        Closed { bound, best: first.best }
    }

    /// What is known by now.
    pub(super) fn closed(self) -> Closed {
        let cost = self.best.as_ref().map(|(_, cost)| *cost);
        Closed { bound: self.least_open().or(cost), best: self.best }
    }

    /// The least bound of the parts that may hold something cheaper than the best plan; none where there are none.
    fn least_open(&self) -> Option<i64> {
        let open = self.open.peek().map(|Reverse(node)| node.bound);
        self.stuck.into_iter().chain(open).min().filter(|bound| self.is_cheaper(*bound))
    }

    fn is_proved(&self) -> bool {
        self.least_open().is_none()
    }

    /// Takes over the other's plan where that is cheaper.
    fn learn(&mut self, other: &Tree) {
        if let Some((draft, cost)) = &other.best
            && self.is_cheaper(*cost)
        {
            self.best = Some((draft.clone(), *cost));
        }
    }
}
