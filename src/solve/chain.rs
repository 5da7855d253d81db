//! Strip widths whose panels nest: where the saw trims, a wider strip takes all that a narrower one takes and more.
//! One table of the knapsack then serves all widths of such a chain, each reading it up to its own last choice.

use crate::model::{Family, Laid};

/// The ways to lie of the widest strip of the chain, in the order in which growing widths add them.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(super) struct Chain {
    /// Ways to lie, as (size, turned, along in raw units).
    pub lies: Vec<(usize, bool, i64)>,
}

/// Where a strip width reads its chain.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Link {
    /// Index of the chain.
    pub chain: usize,
    /// For each lie of the chain that the width takes: its index in the width's own list.
    pub laid: Vec<usize>,
}

/// The chains of a family and the link of each of its widths.
pub(super) fn chains(family: &Family, nest: bool) -> (Vec<Chain>, Vec<Link>) {
    let (mut chains, mut links): (Vec<Chain>, Vec<Link>) = (Vec::new(), Vec::new());
    for width in &family.widths {
        let key = |laid: &Laid| (laid.size, laid.turned, laid.along.raw());
        let at = |lie: &(usize, bool, i64)| width.laid.iter().position(|laid| key(laid) == *lie);
        let nested = nest && chains.last().is_some_and(|chain| chain.lies.iter().all(|lie| at(lie).is_some()));
        if !nested {
            chains.push(Chain::default());
        }
        let chain = chains.last_mut().expect("one was pushed");
        for lie in width.laid.iter().map(key) {
            if !chain.lies.contains(&lie) {
                chain.lies.push(lie);
            }
        }
        let laid = chain.lies.iter().map(|lie| at(lie).expect("each lie of the chain lies on this width")).collect();
        links.push(Link { chain: chains.len() - 1, laid });
    }
    (chains, links)
}
