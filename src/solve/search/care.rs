//! The count to branch on, chosen with care: of all counts that are not whole, of whatever sort, the one that lifts
//! the bounds of both parts most, as far as a few pivots of the dual method tell, and later as earlier probes told; those
//! of sheets that give some strips are probed first, as they mostly lift them most. It costs more than going by the sort,
//! and closes searches in far fewer nodes. What was learned about strips, sheets, layouts and patterns serves the next
//! search through a list that has them too.

use super::super::master::Made;
use super::super::program::{Counts, Program, Spot, WHOLE};
use super::super::rises::{Rises, score};
use super::super::simplex::Moved;
use std::collections::BTreeMap;

/// Most counts that are probed at one node.
const PROBES: usize = 2;
/// Pivots of each probe.
const PIVOTS: usize = 10;

/// What searches have learned about how much the bound rises.
#[derive(Clone, Default)]
pub(in crate::solve) struct Learned {
    counts: BTreeMap<Spot, Rises>,
    made: BTreeMap<Made, Rises>,
}

/// A count whose value is not whole.
#[derive(Clone, Copy)]
struct Open {
    spot: Spot,
    counts: Counts,
    value: f64,
    /// The value above the whole number below it.
    part: f64,
}

/// What a search with care knows.
pub(super) struct Care<'a> {
    learned: &'a mut Learned,
    /// Of each count that was looked at.
    rises: BTreeMap<Spot, Rises>,
}

impl<'a> Care<'a> {
    /// Nothing but what earlier searches learned.
    pub(super) fn new(learned: &'a mut Learned) -> Care<'a> {
        Care { learned, rises: BTreeMap::new() }
    }

    /// The count to branch on; none where all values are whole. `limit` is the cost that closes a part.
    pub(super) fn spot(&mut self, program: &mut Program, limit: f64) -> Option<Spot> {
        let mut open: Vec<Open> = program
            .open()
            .chain(program.open_sheets(PROBES).into_iter().map(|(spot, value)| (spot, Counts::Strips, value)))
            .map(|(spot, counts, value)| Open { spot, counts, value, part: value - value.floor() })
            .filter(|open| open.part > WHOLE && open.part < 1.0 - WHOLE)
            .collect();
        if open.len() <= 1 {
            return open.pop().map(|open| open.spot);
        }
        let middle = |open: &Open| (open.part - 0.5).abs();
        let sort = |open: &Open| (!matches!(open.spot, Spot::Sheets(..)), open.counts);
        open.sort_by(|one, other| sort(one).cmp(&sort(other)).then(middle(one).total_cmp(&middle(other))));
        let probed = self.probe(program, &open, limit);
        let mut best: Option<(Spot, f64)> = None;
        for open in &open {
            let rises = probed.get(&open.spot).copied();
            let score = score(rises.unwrap_or_else(|| self.known(program, open.spot).expected(open.part)), 1e-6);
            if best.is_none_or(|(_, most)| score > most * (1.0 + 1e-9)) {
                best = Some((open.spot, score));
            }
        }
        best.map(|(spot, _)| spot)
    }

    /// Probes the first of those of which too little is known: how much the bound rises below and above.
    fn probe(&mut self, program: &mut Program, open: &[Open], limit: f64) -> BTreeMap<Spot, (f64, f64)> {
        let unknown = open.iter().filter(|open| !self.known(program, open.spot).are_trusted());
        let asked: Vec<&Open> = unknown.take(PROBES).collect();
        let mut probed = BTreeMap::new();
        if asked.is_empty() {
            return probed;
        }
        let now = program.lp.cost();
        let spots: Vec<Spot> = asked.iter().map(|open| open.spot).collect();
        let costs = program.counting(&spots, |program, columns| {
            let moves: Vec<Moved> = asked
                .iter()
                .zip(columns)
                .flat_map(|(open, column)| {
                    let (least, most) = program.lp.bounds(*column);
                    [(*column, least, open.value.floor()), (*column, open.value.ceil(), most)]
                })
                .collect();
            program.lp.probes(&moves, limit, PIVOTS)
        });
        let rise = |cost: f64| (cost.min(limit) - now).max(0.0);
        for (open, costs) in asked.into_iter().zip(costs.chunks(2)) {
            let rises = (rise(costs[0]), rise(costs[1]));
            let known = self.known(program, open.spot).with(rises, open.part);
            self.rises.insert(open.spot, known);
            self.learned.keep(program, open.spot, known);
            probed.insert(open.spot, rises);
        }
        probed
    }

    /// What is known of a count by now.
    fn known(&mut self, program: &Program, spot: Spot) -> Rises {
        *self.rises.entry(spot).or_insert_with(|| self.learned.of(program, spot))
    }
}

impl Learned {
    fn of(&self, program: &Program, spot: Spot) -> Rises {
        let known = match spot {
            Spot::Strips(_) | Spot::Sheets(..) => self.counts.get(&spot),
            Spot::Column(column) => program.made_of(column).and_then(|made| self.made.get(made)),
        };
        known.copied().unwrap_or_default()
    }

    fn keep(&mut self, program: &Program, spot: Spot, rises: Rises) {
        match spot {
            Spot::Strips(_) | Spot::Sheets(..) => drop(self.counts.insert(spot, rises)),
            Spot::Column(column) => {
                if let Some(made) = program.made_of(column) {
                    self.made.insert(made.clone(), rises);
                }
            }
        }
    }
}
