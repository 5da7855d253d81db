//! Strips that give panels of a group, and what a search for the cheapest of them comes to.

/// A strip of a blank, cut to a pattern.
pub(super) struct Strip {
    /// Its blank's place among those of the group.
    pub blank: usize,
    /// What it weighs; not negative.
    pub weight: i64,
    /// What it gives of the group's sizes: (size, panels), panels above zero.
    pub gives: Vec<(usize, u32)>,
}

/// What a search for the strips that weigh least comes to.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Cheapest {
    /// These strips weigh least, by their places.
    Strips(Vec<usize>),
    /// No strips weigh less than what was asked for.
    NotBelow,
    /// There are too many ways to tell, but no strips weigh less than this.
    AtLeast(i64),
}

impl Cheapest {
    /// No strips weigh less than this part of `times`, rounded up.
    pub(super) fn at_least(weight: i64, times: i64) -> Cheapest {
        Cheapest::AtLeast(weight.div_euclid(times) + i64::from(weight.rem_euclid(times) > 0))
    }
}

/// What the heaviest of them weighs; no panel that some strip gives is worth more.
pub(super) fn heaviest(strips: &[Strip]) -> i64 {
    strips.iter().map(|strip| strip.weight).max().unwrap_or(0)
}
