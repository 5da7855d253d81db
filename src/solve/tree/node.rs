//! A node of the tree, and which comes first: that with the least bound. Of those with the same bound, those that went
//! least astray on the way down, that is, into parts whose programs rose more than those of the other parts (limited
//! discrepancy search, Harvey and Ginsberg 1995): where a plan for the bound is all that is missing, it more likely lies
//! there. Then the deepest, whose lists are shortest.

use super::super::branching::Part;
use super::super::scope::Scope;
use std::cmp::{Ordering, Reverse};

/// Into how many steps the way astray that a single split can lead is divided: within a step, nodes are as good.
const ASTRAY: f64 = 8.0;

/// A part of all plans that is still open.
pub(super) struct Node {
    /// No plan of it costs less, in units.
    pub bound: i64,
    /// Splits on the way down to it.
    pub depth: usize,
    /// Nodes that its tree had made by then.
    pub order: usize,
    /// How far astray it lies, summed over all splits on the way down.
    pub astray: f64,
    /// How far above the bound the next search reaches, in steps of the charges.
    pub reach: i64,
    /// How often the search through its last list was broken off.
    pub efforts: u32,
    /// Its plans.
    pub scope: Scope,
}

impl Node {
    /// A part that was not looked at yet.
    pub(super) fn new(bound: i64, depth: usize, scope: Scope) -> Node {
        Node { bound, depth, order: 0, astray: 0.0, reach: 1, efforts: 0, scope }
    }

    /// A part of it that was not looked at yet.
    pub(super) fn part(&self, bound: i64, part: Part) -> Node {
        Node { astray: self.astray + part.astray, ..Node::new(bound, self.depth + 1, part.scope) }
    }

    /// In whole steps, how far astray it lies.
    #[allow(clippy::cast_possible_truncation)] // at most one for each split on the way down
    fn steps_astray(&self) -> i64 {
        (self.astray * ASTRAY) as i64
    }

    /// Whether it is worth while to look for plans here with more care: now and then on the way down, and where the
    /// sheets to buy have just been settled; at each bound anew, until searches reach beyond it.
    pub(super) fn is_fresh(&self) -> bool {
        let settled = self.scope.is_bought() && self.scope.strips.is_empty();
        self.reach == 1 && (self.depth == 0 || self.depth.is_power_of_two() || settled)
    }
}

impl Ord for Node {
    fn cmp(&self, other: &Node) -> Ordering {
        let key = |node: &Node| (node.bound, node.steps_astray(), Reverse(node.depth), node.order);
        key(self).cmp(&key(other))
    }
}

impl PartialOrd for Node {
    fn partial_cmp(&self, other: &Node) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl PartialEq for Node {
    fn eq(&self, other: &Node) -> bool {
        self.cmp(other) == Ordering::Equal
    }
}

impl Eq for Node {}

#[cfg(test)]
pub(super) mod tests {
    use super::*;
    use std::collections::{BTreeMap, BinaryHeap};

    /// A scope of no sheets.
    pub(in super::super) fn scope() -> Scope {
        Scope { kinds: Vec::new(), rippings: Vec::new(), strips: BTreeMap::new(), spare: false }
    }

    #[test]
    fn a_part_of_a_part_lies_as_far_astray_as_both_splits_led() {
        let node = Node::new(500, 0, scope());
        let below =
            node.part(510, Part { scope: scope(), astray: 0.5 }).part(520, Part { scope: scope(), astray: 0.25 });
        assert_eq!((below.bound, below.depth, below.reach, below.efforts), (520, 2, 1, 0));
        assert!((below.astray - 0.75).abs() < 1e-12);
    }

    /// The deepest first, but those that lie a whole step further astray after the others, and a lesser bound before all.
    #[test]
    fn of_nodes_with_the_same_bound_those_come_first_that_went_least_astray() {
        let node = |order: usize, (bound, depth): (i64, usize), steps: f64| Node {
            order,
            astray: steps / ASTRAY,
            ..Node::new(bound, depth, scope())
        };
        let nodes = [
            node(1, (500, 2), 0.9),
            node(2, (500, 2), 0.0),
            node(3, (500, 3), 0.5),
            node(4, (500, 9), 1.1),
            node(5, (500, 4), 2.0),
            node(6, (501, 9), 0.0),
        ];
        let mut open: BinaryHeap<Reverse<Node>> = nodes.into_iter().map(Reverse).collect();
        let orders: Vec<usize> = std::iter::from_fn(|| open.pop()).map(|node| node.0.order).collect();
        assert_eq!(orders, [3, 1, 2, 4, 5, 6]);
    }
}
