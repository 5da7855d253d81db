//! The strips that weigh least and give all of a group's panels: a search from all panels wanted to none, the most
//! promising strip first (A*, Hart, Nilsson and Raphael 1968). Prices of panels at which no pattern gives more than it
//! weighs tell what is still to be weighed at least; they come from the linear program over parts of strips. As most
//! strips are cut to patterns that give just what they weigh, few of all numbers of panels still wanted are ever met.

use super::parts::{FINE, Parts};
use super::strip::{Cheapest, Strip};
use std::cmp::Reverse;
use std::collections::{BinaryHeap, HashMap};

/// All ways from all panels wanted to none, a strip at a time.
pub(super) struct Ways<'a> {
    /// Panels wanted of each size.
    counts: &'a [u32],
    /// How far apart two numbers of panels still wanted are that differ by one panel of a size.
    strides: Vec<u64>,
    /// What a panel of each size is worth, in fixed point: no strip gives more than it weighs.
    prices: Vec<i64>,
    strips: &'a [Strip],
    /// For each size the strips that give some of it: strips come in any order, so the next one may be of those that give
    /// the last size still wanted.
    giving: Vec<Vec<usize>>,
}

/// How some numbers of panels still wanted were come to.
struct Met {
    /// What the strips weigh until there, in fixed point.
    weight: i64,
    /// From which, and by which strip; none at the beginning.
    from: Option<(u64, usize)>,
}

impl<'a> Ways<'a> {
    /// The ways with these strips, where the linear program has these prices; none where the numbers of panels are too
    /// large to tell all apart.
    pub(super) fn new(counts: &'a [u32], strips: &'a [Strip], parts: &Parts) -> Option<Ways<'a>> {
        let mut states = 1_u64;
        let mut strides = Vec::with_capacity(counts.len());
        for count in counts {
            strides.push(states);
            states = states.checked_mul(u64::from(*count) + 1)?;
        }
        let mut giving = vec![Vec::new(); counts.len()];
        for (at, strip) in strips.iter().enumerate() {
            strip.gives.iter().for_each(|(size, _)| giving[*size].push(at));
        }
        Some(Ways { counts, strides, prices: parts.fixed(strips), strips, giving })
    }

    /// The strips that weigh least, if less than `below`, going on from so many numbers of panels still wanted at most;
    /// and from how many it went on.
    pub(super) fn cheapest(&self, below: Option<i64>, most: usize) -> (Cheapest, usize) {
        let below = below.map_or(i64::MAX, |below| below.saturating_mul(FINE));
        let (mut state, mut still) = (0, 0);
        for ((count, stride), price) in self.counts.iter().zip(&self.strides).zip(&self.prices) {
            state += u64::from(*count) * stride;
            still += i64::from(*count) * price;
        }
        let mut met = HashMap::from([(state, Met { weight: 0, from: None })]);
        // What the strips weigh at least, of that what is still to be weighed, and the numbers of panels still wanted.
        let mut next = BinaryHeap::from([Reverse((still, still, state))]);
        let (mut looks, mut left) = (0, vec![0; self.counts.len()]);
        while let Some(Reverse((promised, still, state))) = next.pop() {
            let weight = promised - still;
            if met[&state].weight < weight {
                continue;
            }
            self.leave(&mut left, state);
            let Some(last) = left.iter().rposition(|left| *left > 0) else {
                return (Cheapest::Strips(way(&met, state)), looks);
            };
            if looks == most {
                return (
                    Cheapest::AtLeast(promised.div_euclid(FINE) + i64::from(promised.rem_euclid(FINE) > 0)),
                    looks,
                );
            }
            looks += 1;
            for at in &self.giving[last] {
                let (to, still) = self.after(*at, &left, (state, still));
                let weight = weight + self.strips[*at].weight * FINE;
                if weight + still < below && met.get(&to).is_none_or(|met| weight < met.weight) {
                    met.insert(to, Met { weight, from: Some((state, *at)) });
                    next.push(Reverse((weight + still, still, to)));
                }
            }
        }
        (Cheapest::NotBelow, looks)
    }

    /// Where a strip leads to: the panels still wanted, and what is then still to be weighed.
    fn after(&self, strip: usize, left: &[u32], (mut state, mut still): (u64, i64)) -> (u64, i64) {
        for (size, panels) in &self.strips[strip].gives {
            let given = left[*size].min(*panels);
            state -= u64::from(given) * self.strides[*size];
            still -= i64::from(given) * self.prices[*size];
        }
        (state, still)
    }

    /// The panels of each size still wanted.
    fn leave(&self, left: &mut [u32], mut state: u64) {
        for (size, stride) in self.strides.iter().enumerate().rev() {
            left[size] = u32::try_from(state / stride).expect("no more than the count");
            state %= stride;
        }
    }
}

/// The strips on the way to a state.
fn way(met: &HashMap<u64, Met>, mut state: u64) -> Vec<usize> {
    let mut way = Vec::new();
    while let Some((from, strip)) = met[&state].from {
        way.push(strip);
        state = from;
    }
    way
}
