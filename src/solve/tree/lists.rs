//! How long the lists are that are searched through, and where they are tried. They get longer where searches end soon,
//! and shorter where they take long or are broken off. Once the tree has grown, a list is tried where the bound has come
//! so near the target that such lists were short before, and else now and then: so it gets far down in little time. So it
//! is from the first where there is nothing left to split by but counts that are whole already.

/// Most layouts and patterns of a list at first, and the range that this stays in.
const LISTED: usize = 1_500;
const SHORTEST: usize = 300;
const LONGEST: usize = 10_000;
/// Most nodes of a search that ended soon, and of one that did not take long.
const SOON: usize = 80;
const LONG: usize = 160;
/// Most nodes of the tree that are passed over after a list that was too long.
const PASSED: usize = 64;

/// How the lists of a tree went.
#[derive(Clone)]
pub(super) struct Lists {
    /// Most layouts and patterns.
    pub(super) most: usize,
    /// How far below the target the bound may stay for a list to be tried at once, in fixed point.
    near: i128,
    /// Nodes to be passed over until a list is tried all the same.
    left: usize,
    /// Nodes passed over before the last list.
    passed: usize,
}

impl Lists {
    pub(super) fn new() -> Lists {
        Lists { most: LISTED, near: -1, left: 0, passed: 0 }
    }

    /// Whether to list at a node whose bound stays so far below the target.
    pub(super) fn is_time(&mut self, gap: i128) -> bool {
        let time = gap <= self.near || self.left == 0;
        self.left -= usize::from(!time);
        time
    }

    /// Keeps in mind whether a list came to a verdict so far below the target.
    pub(super) fn tried(&mut self, gap: i128, decided: bool) {
        if decided {
            self.near = self.near.max(gap);
            self.passed /= 2;
        } else {
            self.near = gap / 2;
            self.passed = (self.passed * 2).clamp(1, PASSED);
            self.left = self.passed;
        }
    }

    /// Keeps in mind how a search through so many layouts and patterns went: the nodes that it took to its end; none
    /// where it was broken off.
    pub(super) fn searched(&mut self, listed: usize, nodes: Option<usize>) {
        self.most = match nodes {
            None => (listed * 3 / 4).clamp(SHORTEST, self.most),
            Some(nodes) if nodes > LONG => (self.most * 9 / 10).max(SHORTEST),
            Some(nodes) if nodes <= SOON && 2 * listed >= self.most => (self.most * 5 / 4).min(LONGEST),
            Some(_) => self.most,
        };
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_list_is_tried_again_at_half_the_gap_or_after_some_nodes() {
        let mut lists = Lists::new();
        assert!(lists.is_time(100));
        lists.tried(100, false);
        assert!(lists.is_time(50));
        assert!(!lists.is_time(51));
        assert!(lists.is_time(51), "one node was passed over");
        lists.tried(51, false);
        assert!(!lists.is_time(51) && !lists.is_time(51) && lists.is_time(51), "then two");
        lists.tried(51, true);
        assert!(lists.is_time(51));
    }

    #[test]
    fn lists_get_longer_where_long_ones_end_soon_and_shorter_where_they_do_not_end() {
        let mut lists = Lists::new();
        lists.searched(700, Some(SOON));
        assert_eq!(lists.most, 1_500, "it was short");
        lists.searched(1_000, Some(SOON));
        assert_eq!(lists.most, 1_875);
        lists.searched(1_000, Some(SOON + 1));
        assert_eq!(lists.most, 1_875);
        lists.searched(1_800, Some(LONG + 1));
        assert_eq!(lists.most, 1_687);
        lists.searched(1_000, None);
        assert_eq!(lists.most, 750);
        lists.searched(20, None);
        assert_eq!(lists.most, SHORTEST);
        lists.searched(20, None);
        assert_eq!(lists.most, SHORTEST);
    }
}
