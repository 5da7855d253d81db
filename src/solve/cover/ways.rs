//! The strips that weigh least and give all of a group's panels: a search from all panels wanted to none, the most
//! promising strip first (A*, Hart, Nilsson and Raphael 1968). Prices of panels at which no pattern gives more than it
//! weighs tell what is still to be weighed at least; they come from the linear program over parts of strips. As most
//! strips are cut to patterns that give just what they weigh, few of all numbers of panels still wanted are ever met.

use super::parts::{FINE, Parts};
use super::strip::{Cheapest, Strip};
use std::cmp::Reverse;
use std::collections::BinaryHeap;

/// Most numbers of panels still wanted that are told apart.
const MOST: usize = 30_000;

/// All ways from all panels wanted to none, a strip at a time.
pub(super) struct Ways<'a> {
    /// Panels wanted of each size.
    counts: &'a [u32],
    /// How far apart two numbers of panels still wanted are that differ by one panel of a size.
    strides: Vec<usize>,
    /// How many there are.
    many: usize,
    /// What a panel of each size is worth, in fixed point: no strip gives more than it weighs.
    prices: Vec<i64>,
    strips: &'a [Strip],
    /// For each size the strips that give some of it: strips come in any order, so the next one may be of those that give
    /// the last size still wanted.
    giving: Vec<Vec<usize>>,
}

/// How some numbers of panels still wanted were come to.
#[derive(Clone, Copy)]
struct Met {
    /// What the strips weigh until there, in fixed point.
    weight: i64,
    /// From which, and by which strip.
    from: (usize, usize),
}

impl<'a> Ways<'a> {
    /// The ways with these strips, where the linear program has these prices; none where there are too many numbers of
    /// panels.
    pub(super) fn new(counts: &'a [u32], strips: &'a [Strip], parts: &Parts) -> Option<Ways<'a>> {
        let (mut many, mut strides) = (1_usize, Vec::with_capacity(counts.len()));
        for count in counts {
            strides.push(many);
            many = many.saturating_mul(*count as usize + 1);
        }
        if many > MOST {
            return None;
        }
        let mut giving = vec![Vec::new(); counts.len()];
        for (at, strip) in strips.iter().enumerate() {
            strip.gives.iter().for_each(|(size, _)| giving[*size].push(at));
        }
        Some(Ways { counts, strides, many, prices: parts.fixed(strips), strips, giving })
    }

    /// How many numbers of panels still wanted there are.
    pub(super) fn many(&self) -> usize {
        self.many
    }

    /// The strips that weigh least, if less than `below`, going on from so many numbers of panels still wanted at most;
    /// and from how many it went on.
    pub(super) fn cheapest(&self, below: Option<i64>, most: usize) -> (Cheapest, usize) {
        let below = below.map_or(i64::MAX, |below| below.saturating_mul(FINE));
        let (mut state, mut still) = (0, 0);
        for ((count, stride), price) in self.counts.iter().zip(&self.strides).zip(&self.prices) {
            state += *count as usize * stride;
            still += i64::from(*count) * price;
        }
        let start = state;
        let mut met = vec![Met { weight: i64::MAX, from: (start, 0) }; self.many];
        met[start].weight = 0;
        // What the strips weigh at least, of that what is still to be weighed, and the numbers of panels still wanted.
        let mut next = BinaryHeap::from([Reverse((still, still, state))]);
        let (mut looks, mut left) = (0, vec![0; self.counts.len()]);
        while let Some(Reverse((promised, still, state))) = next.pop() {
            let weight = promised - still;
            if met[state].weight < weight {
                continue;
            }
            self.leave(&mut left, state);
            let Some(last) = left.iter().rposition(|left| *left > 0) else {
                return (Cheapest::Strips(way(&met, start)), looks);
            };
            if looks == most {
                return (Cheapest::at_least(promised, FINE), looks);
            }
            looks += 1;
            for at in &self.giving[last] {
                let (to, still) = self.after(*at, &left, (state, still));
                let weight = weight + self.strips[*at].weight * FINE;
                if weight < met[to].weight && weight + still < below {
                    met[to] = Met { weight, from: (state, *at) };
                    next.push(Reverse((weight + still, still, to)));
                }
            }
        }
        (Cheapest::NotBelow, looks)
    }

    /// Where a strip leads to: the panels still wanted, and what is then still to be weighed.
    fn after(&self, strip: usize, left: &[u32], (mut state, mut still): (usize, i64)) -> (usize, i64) {
        for (size, panels) in &self.strips[strip].gives {
            let given = left[*size].min(*panels);
            state -= given as usize * self.strides[*size];
            still -= i64::from(given) * self.prices[*size];
        }
        (state, still)
    }

    /// The panels of each size still wanted.
    fn leave(&self, left: &mut [u32], mut state: usize) {
        for (size, stride) in self.strides.iter().enumerate().rev() {
            left[size] = u32::try_from(state / stride).expect("no more than the count");
            state %= stride;
        }
    }
}

/// The strips on the way from the start to no panels still wanted.
fn way(met: &[Met], start: usize) -> Vec<usize> {
    let (mut way, mut state) = (Vec::new(), 0);
    while state != start {
        let (from, strip) = met[state].from;
        way.push(strip);
        state = from;
    }
    way
}
