//! The linear program over the layouts and patterns found so far, and its rows: panels wanted, strips given and used,
//! sheets of a kind and ripped each way, strips on hand, cuts of the order. See [`crate::model`] for what they say.
//!
//! It stays the same program from node to node of the search: a scope only moves the bounds of what its counts add up
//! to. Whatever a scope asks for can be had from nowhere at a high price, so that there is always an answer; what that
//! answer is worth, the bound says.

mod prices;

use super::cover::Cover;
use super::layout::Layout;
use super::need::Need;
use super::pattern::{Blank, Pattern};
use super::prices::{dearest, highest, scale};
use super::scope::{Count, Range, Scope, most_strips};
use super::simplex::{Column, Outcome, Simplex};
use crate::model::Problem;
use std::collections::BTreeMap;

/// What a column stands for.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub(super) enum Made {
    /// One sheet ripped so.
    Layout(Layout),
    /// One strip crosscut so.
    Pattern(Pattern),
    /// One strip on hand (index into `Problem::on_hand`) crosscut so.
    OnHand(usize, Pattern),
}

/// A row that adds up a count, with the column of the sum and the column of what comes from nowhere.
#[derive(Clone, Copy, Debug)]
struct Sum {
    row: usize,
    count: usize,
    nowhere: usize,
}

/// The program, with what its columns stand for.
#[derive(Clone)]
pub(super) struct Master<'a> {
    problem: &'a Problem,
    need: &'a Need,
    lp: Simplex,
    /// Units of cost that one unit of the program's cost stands for.
    unit: f64,
    scale: i64,
    highest: i64,
    /// What one panel, sheet or strip from nowhere costs, in the program's cost.
    dear: f64,
    sizes: Vec<Sum>,
    kinds: Vec<Sum>,
    rippings: Vec<Option<Sum>>,
    on_hand: Vec<usize>,
    cuts: Option<usize>,
    given: BTreeMap<Blank, usize>,
    used: BTreeMap<Blank, Sum>,
    made: BTreeMap<Made, usize>,
    covers: Vec<(Cover, Sum)>,
}

/// The slack of a row that may be overfilled.
const OVER: (f64, f64) = (0.0, f64::INFINITY);
/// Pivots to see where a count leads.
const PROBE: usize = 25;
/// How dear it is to have something from nowhere, beside the dearest sheet.
const DEAR: f64 = 4096.0;

#[allow(clippy::cast_precision_loss)] // counts and costs of an order
fn real(number: i64) -> f64 {
    number as f64
}

impl<'a> Master<'a> {
    /// The program of what is needed, with no layout and no pattern yet.
    pub(super) fn new(problem: &'a Problem, need: &'a Need, scope: &Scope) -> Master<'a> {
        let mut master = Master {
            problem,
            need,
            lp: Simplex::default(),
            unit: real(dearest(problem)),
            scale: scale(problem),
            highest: highest(problem),
            dear: DEAR,
            sizes: Vec::new(),
            kinds: Vec::new(),
            rippings: Vec::new(),
            on_hand: Vec::new(),
            cuts: None,
            given: BTreeMap::new(),
            used: BTreeMap::new(),
            made: BTreeMap::new(),
            covers: Vec::new(),
        };
        for count in &need.count {
            let (row, count) = master.lp.add_row(&[], f64::from(*count), OVER);
            let nowhere = master.nowhere(row);
            master.sizes.push(Sum { row, count, nowhere });
        }
        for count in &need.on_hand {
            let row = master.lp.add_row(&[], -f64::from(*count), OVER).0;
            master.on_hand.push(row);
        }
        master.add_sheet_rows(scope);
        if problem.charges.per_order {
            master.add_cuts_row(need.free);
        }
        master.begin_again();
        master
    }

    fn add_sheet_rows(&mut self, scope: &Scope) {
        let of = |kind: usize| self.problem.rippings.iter().filter(|ripping| ripping.sheet == kind).count();
        let several: Vec<bool> = self.problem.rippings.iter().map(|ripping| of(ripping.sheet) > 1).collect();
        for range in &scope.kinds {
            let sum = self.sum(&[], real(range.least), real(range.most));
            self.kinds.push(sum);
        }
        for (range, several) in scope.rippings.iter().zip(several) {
            let sum = several.then(|| self.sum(&[], real(range.least), real(range.most)));
            self.rippings.push(sum);
        }
    }

    /// A row that adds up columns to a count between two bounds.
    fn sum(&mut self, columns: &[(usize, f64)], least: f64, most: f64) -> Sum {
        let (row, count) = self.lp.add_row(columns, 0.0, (least, most));
        Sum { row, count, nowhere: self.nowhere(row) }
    }

    /// A column that gives one of what the row counts at a high price.
    fn nowhere(&mut self, row: usize) -> usize {
        self.lp.add_column(&Column { entries: vec![(row, 1.0)], cost: self.dear, least: 0.0, most: f64::INFINITY })
    }

    /// Paid cuts cover all cuts but the free ones.
    fn add_cuts_row(&mut self, free: u32) {
        let (row, _) = self.lp.add_row(&[], -f64::from(free), OVER);
        let cost = real(self.problem.charges.cut) / self.unit;
        self.lp.add_column(&Column { entries: vec![(row, 1.0)], cost, least: 0.0, most: f64::INFINITY });
        self.cuts = Some(row);
    }

    /// Goes back to a start that meets all rows: everything from nowhere.
    fn begin_again(&mut self) -> bool {
        let sums = self.kinds.iter().chain(self.rippings.iter().flatten()).chain(self.used.values());
        let wanting = sums.filter(|sum| self.lp.bounds(sum.count).0 > 0.0);
        let start: Vec<(usize, usize)> = self
            .sizes
            .iter()
            .chain(self.covers.iter().map(|(_, sum)| sum))
            .chain(wanting)
            .map(|sum| (sum.row, sum.nowhere))
            .collect();
        self.lp.begin_with(&start)
    }

    /// Moves to a scope. What was found stays.
    pub(super) fn move_to(&mut self, scope: &Scope) {
        for (sum, range) in self.kinds.iter().zip(&scope.kinds) {
            self.lp.set_bounds(sum.count, real(range.least), real(range.most));
        }
        for (sum, range) in self.rippings.iter().zip(&scope.rippings) {
            if let Some(sum) = sum {
                self.lp.set_bounds(sum.count, real(range.least), real(range.most));
            }
        }
        for blank in scope.strips.keys() {
            self.count_strips(*blank);
        }
        self.bound_layouts(scope);
        for (blank, sum) in &self.used {
            let range = scope.range(self.problem, self.need, Count::Strips(*blank));
            self.lp.set_bounds(sum.count, real(range.least), real(range.most));
        }
    }

    /// Leaves out layouts of whole sheets with more strips of a blank than the scope crosscuts: some would be spare.
    fn bound_layouts(&mut self, scope: &Scope) {
        let most = |blank: &Blank| (*blank, scope.most_on_a_sheet(self.problem, self.need, *blank));
        let most: BTreeMap<Blank, u32> = self.given.keys().map(most).collect();
        let lp = &mut self.lp;
        for (made, column) in &self.made {
            let Made::Layout(layout) = made else { continue };
            let mut strips = layout.blanks(self.problem);
            let lean = layout.is_broken() || strips.all(|(blank, copies)| copies <= most[&blank]);
            let (_, before) = lp.bounds(*column);
            if lean != (before > 0.0) {
                lp.set_bounds(*column, 0.0, if lean { f64::INFINITY } else { 0.0 });
            }
        }
    }

    fn count_strips(&mut self, blank: Blank) {
        if self.used.contains_key(&blank) {
            return;
        }
        let uses = |made: &Made| matches!(made, Made::Pattern(pattern) if pattern.blank == blank);
        let columns: Vec<(usize, f64)> =
            self.made.iter().filter(|(made, _)| uses(made)).map(|(_, column)| (*column, 1.0)).collect();
        let most = real(most_strips(self.problem, self.need, blank));
        let sum = self.sum(&columns, 0.0, most);
        self.used.insert(blank, sum);
    }

    /// Adds a cover, which must hold for every plan; its row asks for one, its weights being parts of what it asks for.
    pub(super) fn add_cover(&mut self, cover: Cover) {
        let part = |made: &Made| match made {
            Made::Pattern(pattern) => cover.part(pattern.blank),
            Made::Layout(_) | Made::OnHand(..) => None,
        };
        let columns: Vec<(usize, f64)> =
            self.made.iter().filter_map(|(made, column)| part(made).map(|part| (*column, part))).collect();
        let (row, count) = self.lp.add_row(&columns, 1.0, OVER);
        let nowhere = self.nowhere(row);
        self.covers.push((cover, Sum { row, count, nowhere }));
    }

    /// The strips crosscut from each blank.
    pub(super) fn strips(&self) -> BTreeMap<Blank, f64> {
        let mut strips: BTreeMap<Blank, f64> = BTreeMap::new();
        for (made, column) in &self.made {
            if let Made::Pattern(pattern) = made {
                *strips.entry(pattern.blank).or_default() += self.lp.value(*column);
            }
        }
        strips
    }

    /// All covers.
    pub(super) fn covers(&self) -> impl Iterator<Item = &Cover> {
        self.covers.iter().map(|(cover, _)| cover)
    }

    /// Adds a layout, a pattern or a pattern of a strip on hand; false where it is there already.
    pub(super) fn add(&mut self, made: Made) -> bool {
        if self.made.contains_key(&made) {
            return false;
        }
        let (entries, cost) = match &made {
            Made::Layout(layout) => self.layout_entries(layout),
            Made::Pattern(pattern) => {
                let mut entries = self.pattern_entries(pattern);
                entries.push((self.given_row(pattern.blank), -1.0));
                entries.extend(self.used.get(&pattern.blank).map(|sum| (sum.row, 1.0)));
                let covers = self.covers.iter();
                entries.extend(covers.filter_map(|(cover, sum)| Some((sum.row, cover.part(pattern.blank)?))));
                (entries, 0)
            }
            Made::OnHand(strip, pattern) => {
                let mut entries = self.pattern_entries(pattern);
                entries.push((self.on_hand[*strip], -1.0));
                (entries, 0)
            }
        };
        let column = Column { entries, cost: real(cost) / self.unit, least: 0.0, most: f64::INFINITY };
        let column = self.lp.add_column(&column);
        self.made.insert(made, column);
        true
    }

    fn layout_entries(&mut self, layout: &Layout) -> (Vec<(usize, f64)>, i64) {
        let blanks: Vec<(Blank, u32)> = layout.blanks(self.problem).collect();
        let mut entries: BTreeMap<usize, f64> = BTreeMap::new();
        for (blank, copies) in blanks {
            *entries.entry(self.given_row(blank)).or_default() += f64::from(copies);
        }
        entries.insert(self.kinds[self.problem.rippings[layout.ripping].sheet].row, 1.0);
        if let Some(sum) = self.rippings[layout.ripping] {
            entries.insert(sum.row, 1.0);
        }
        if let Some(row) = self.cuts {
            entries.insert(row, -f64::from(layout.cuts(self.problem)));
        }
        (entries.into_iter().collect(), layout.cost(self.problem))
    }

    fn pattern_entries(&self, pattern: &Pattern) -> Vec<(usize, f64)> {
        let mut entries: BTreeMap<usize, f64> = BTreeMap::new();
        for (size, copies) in pattern.yields(self.problem) {
            *entries.entry(self.sizes[size].row).or_default() += f64::from(copies);
        }
        entries.into_iter().collect()
    }

    fn given_row(&mut self, blank: Blank) -> usize {
        let lp = &mut self.lp;
        *self.given.entry(blank).or_insert_with(|| lp.add_row(&[], 0.0, OVER).0)
    }

    /// Solves the program over what is there, within the bounds of now; false where the method lost its way.
    pub(super) fn solve(&mut self) -> bool {
        // A loose end of the dual method is no harm: the primal method starts anew then.
        let moved = self.lp.dual(f64::INFINITY) == Outcome::Optimal && self.lp.primal() == Outcome::Optimal;
        moved || (self.begin_again() && self.lp.primal() == Outcome::Optimal)
    }

    /// Solves the program again after columns were added.
    pub(super) fn solve_grown(&mut self) -> bool {
        self.lp.primal() == Outcome::Optimal || (self.begin_again() && self.lp.primal() == Outcome::Optimal)
    }

    /// The work done since this was last asked, see [`Simplex::work`].
    pub(super) fn work(&mut self) -> u64 {
        self.lp.work()
    }

    /// What it all costs, in units.
    pub(super) fn cost(&self) -> f64 {
        self.lp.cost() * self.unit
    }

    /// Everything that the program uses, with how much of it.
    pub(super) fn used(&self) -> Vec<(Made, f64)> {
        let uses = self.made.iter().map(|(made, column)| (made.clone(), self.lp.value(*column)));
        uses.filter(|(_, value)| *value > 1e-7).collect()
    }

    /// The numbers that a count may have in a scope.
    pub(super) fn range(&self, scope: &Scope, count: Count) -> Range {
        scope.range(self.problem, self.need, count)
    }

    /// About how much the cost rises, in units, where a count is kept at most `below` or at least one more; no further
    /// than to `limit`, as what only comes from nowhere rises beyond all measure.
    pub(super) fn probe(&mut self, count: Count, below: i64, limit: Option<i64>) -> (f64, f64) {
        if let Count::Strips(blank) = count {
            self.count_strips(blank);
        }
        let sum = match count {
            Count::Kind(kind) => self.kinds[kind],
            Count::Ripping(ripping) => {
                self.rippings[ripping].unwrap_or(self.kinds[self.problem.rippings[ripping].sheet])
            }
            Count::Strips(blank) => self.used[&blank],
        };
        let (now, (least, most)) = (self.lp.cost(), self.lp.bounds(sum.count));
        let limit = limit.map_or(f64::INFINITY, |limit| real(limit) / self.unit);
        let moves = [(sum.count, least, real(below)), (sum.count, real(below + 1), most)];
        let costs = self.lp.probes(&moves, limit, PROBE);
        let rise = |cost: f64| (cost.min(limit) - now).max(0.0) * self.unit;
        (rise(costs[0]), rise(costs[1]))
    }

    /// Everything found so far.
    pub(super) fn found(&self) -> impl Iterator<Item = &Made> {
        self.made.keys()
    }
}
