//! Flow through one extent: nodes are positions, arcs are pieces laid from one position to another.
//!
//! Every set of pieces that fits is a path from position 0 with its longer pieces first, and every path is a set of
//! pieces that fits.

use std::collections::BTreeSet;

/// A piece that can be laid, with the kerf behind it.
#[derive(Clone, Copy)]
pub(super) struct Piece {
    /// Extent, kerf included.
    pub(super) length: i64,
    /// More of it are never needed.
    pub(super) most: u32,
    /// Whether it may come first.
    pub(super) leads: bool,
}

/// A piece laid from one position to another.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Arc {
    pub(super) from: Node,
    pub(super) to: Node,
    /// Index of the piece.
    pub(super) piece: usize,
}

/// How far the pieces reach, and how many they are where that is counted.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Node {
    pub(super) reach: i64,
    pub(super) pieces: u32,
}

/// Where every path begins.
pub(super) const START: Node = Node { reach: 0, pieces: 0 };

/// All arcs of the paths that are no longer than `extent`.
pub(super) fn arcs(pieces: &[Piece], extent: i64, counted: bool) -> BTreeSet<Arc> {
    let mut order: Vec<usize> = (0..pieces.len()).collect();
    order.sort_by_key(|piece| (!pieces[*piece].leads, -pieces[*piece].length, *piece));
    let mut nodes = BTreeSet::from([START]);
    let mut arcs = BTreeSet::new();
    for piece in order {
        let reached: Vec<Node> = nodes.iter().copied().filter(|node| *node != START || pieces[piece].leads).collect();
        for mut from in reached {
            for _ in 0..pieces[piece].most {
                let pieces_then = if counted { from.pieces + 1 } else { 0 };
                let to = Node { reach: from.reach + pieces[piece].length, pieces: pieces_then };
                if to.reach > extent || !arcs.insert(Arc { from, to, piece }) {
                    break;
                }
                nodes.insert(to);
                from = to;
            }
        }
    }
    arcs
}
