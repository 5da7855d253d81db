//! The column to branch on, chosen with care: of all counts that are not whole, of whatever sort, the one that lifts
//! the bounds of both parts most, as far as a few pivots of the dual method tell, and later as earlier probes told. It
//! costs far more than going by the sort, and closes searches in far fewer nodes. What was learned about strips, layouts
//! and patterns serves the next search through a list that has them too.

use super::super::master::Made;
use super::super::pattern::Blank;
use super::super::program::{Counts, Program};
use super::super::rises::{Rises, score};
use super::super::simplex::Moved;
use super::WHOLE;
use std::collections::BTreeMap;

/// Most counts that are probed at one node.
const PROBES: usize = 30;
/// Pivots of each probe.
const PIVOTS: usize = 10;

/// What searches have learned about how much the bound rises.
#[derive(Clone, Default)]
pub(in crate::solve) struct Learned {
    strips: BTreeMap<Blank, Rises>,
    made: BTreeMap<Made, Rises>,
}

/// A column whose value is not whole.
#[derive(Clone, Copy)]
struct Open {
    column: usize,
    counts: Counts,
    value: f64,
    /// The value above the whole number below it.
    part: f64,
}

/// What a search with care knows.
pub(super) struct Care<'a> {
    learned: &'a mut Learned,
    /// Of each column that was looked at.
    rises: BTreeMap<usize, Rises>,
}

impl<'a> Care<'a> {
    /// Nothing but what earlier searches learned.
    pub(super) fn new(learned: &'a mut Learned) -> Care<'a> {
        Care { learned, rises: BTreeMap::new() }
    }

    /// The column to branch on; none where all values are whole. `limit` is the cost that closes a part.
    pub(super) fn column(&mut self, program: &mut Program, limit: f64) -> Option<usize> {
        let mut open: Vec<Open> = program
            .basic()
            .map(|(column, counts, value)| Open { column, counts, value, part: value - value.floor() })
            .filter(|open| open.part > WHOLE && open.part < 1.0 - WHOLE)
            .collect();
        if open.len() <= 1 {
            return open.pop().map(|open| open.column);
        }
        let middle = |open: &Open| (open.part - 0.5).abs();
        open.sort_by(|one, other| one.counts.cmp(&other.counts).then(middle(one).total_cmp(&middle(other))));
        let probed = self.probe(program, &open, limit);
        let mut best: Option<(usize, f64)> = None;
        for open in &open {
            let rises = probed.get(&open.column).copied();
            let score = score(rises.unwrap_or_else(|| self.known(program, open.column).expected(open.part)), 1e-6);
            if best.is_none_or(|(_, most)| score > most * (1.0 + 1e-9)) {
                best = Some((open.column, score));
            }
        }
        best.map(|(column, _)| column)
    }

    /// Probes the first of those of which too little is known: how much the bound rises below and above.
    fn probe(&mut self, program: &mut Program, open: &[Open], limit: f64) -> BTreeMap<usize, (f64, f64)> {
        let unknown = open.iter().filter(|open| !self.known(program, open.column).are_trusted());
        let asked: Vec<&Open> = unknown.take(PROBES).collect();
        let moves: Vec<Moved> = asked
            .iter()
            .flat_map(|open| {
                let (least, most) = program.lp.bounds(open.column);
                [(open.column, least, open.value.floor()), (open.column, open.value.ceil(), most)]
            })
            .collect();
        let now = program.lp.cost();
        let costs = program.lp.probes(&moves, limit, PIVOTS);
        let rise = |cost: f64| (cost.min(limit) - now).max(0.0);
        let mut probed = BTreeMap::new();
        for (open, costs) in asked.into_iter().zip(costs.chunks(2)) {
            let rises = (rise(costs[0]), rise(costs[1]));
            let known = self.known(program, open.column).with(rises, open.part);
            self.rises.insert(open.column, known);
            self.learned.keep(program, open.column, known);
            probed.insert(open.column, rises);
        }
        probed
    }

    /// What is known of a column by now.
    fn known(&mut self, program: &Program, column: usize) -> Rises {
        *self.rises.entry(column).or_insert_with(|| self.learned.of(program, column))
    }
}

impl Learned {
    fn of(&self, program: &Program, column: usize) -> Rises {
        let strips = || program.blank_of(column).and_then(|blank| self.strips.get(&blank));
        let made = || program.made_of(column).and_then(|made| self.made.get(made));
        made().or_else(strips).copied().unwrap_or_default()
    }

    fn keep(&mut self, program: &Program, column: usize, rises: Rises) {
        if let Some(made) = program.made_of(column) {
            self.made.insert(made.clone(), rises);
        } else if let Some(blank) = program.blank_of(column) {
            self.strips.insert(blank, rises);
        }
    }
}
