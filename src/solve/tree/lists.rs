//! How long the lists are that the first tree searches through: longer where the searches ended soon, shorter where they
//! took long or were broken off.

/// Most layouts and patterns of a list at first, and the range that this stays in.
const LISTED: usize = 1_500;
const SHORTEST: usize = 300;
const LONGEST: usize = 10_000;
/// Most nodes of a search that ended soon, and of one that did not take long.
const SOON: usize = 40;
const LONG: usize = 160;

/// How long lists may be.
pub(super) struct Lists {
    /// Most layouts and patterns.
    pub(super) most: usize,
}

impl Lists {
    pub(super) fn new() -> Lists {
        Lists { most: LISTED }
    }

    /// Keeps in mind how a search through so many layouts and patterns went: the nodes that it took to its end; none
    /// where it was broken off.
    pub(super) fn learn(&mut self, listed: usize, nodes: Option<usize>) {
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
    fn lists_get_longer_where_long_ones_end_soon_and_shorter_where_they_do_not_end() {
        let mut lists = Lists::new();
        lists.learn(700, Some(SOON));
        assert_eq!(lists.most, 1_500, "it was short");
        lists.learn(1_000, Some(SOON));
        assert_eq!(lists.most, 1_875);
        lists.learn(1_000, Some(SOON + 1));
        assert_eq!(lists.most, 1_875);
        lists.learn(1_800, Some(LONG + 1));
        assert_eq!(lists.most, 1_687);
        lists.learn(1_000, None);
        assert_eq!(lists.most, 750);
        lists.learn(20, None);
        assert_eq!(lists.most, SHORTEST);
        lists.learn(20, None);
        assert_eq!(lists.most, SHORTEST);
    }
}
