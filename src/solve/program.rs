//! The integer program over a listed pool of layouts and patterns, with the counts that the search branches on as
//! variables of their own: sheets of a kind, paid cuts, and strips of a width, these only where the scope narrows them or
//! as long as something is branched on them; their rows would make up half of the program. Knows every number exactly, so
//! that prices from the floating-point simplex can be judged in whole numbers.

use super::cover::Cover;
use super::draft::Draft;
use super::layout::Layout;
use super::master::Made;
use super::need::Need;
use super::pattern::{Blank, Pattern};
use super::prices::dearest;
use super::scope::{Count, Range, Scope};
use super::simplex::{Column, FREE, Place, Simplex};
use crate::model::Problem;
use std::collections::BTreeMap;

/// What a variable counts; the search branches in this order.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Counts {
    /// Sheets of one kind, or paid cuts.
    Sheets,
    /// Sheets ripped one way.
    Ripped,
    /// Strips of one width from one kind of board.
    Strips,
    /// Copies of one layout.
    Layouts,
    /// Copies of one pattern.
    Patterns,
    /// What a row is overfilled by; follows from the rest.
    Slack,
}

/// Values within this of a whole number are whole.
pub(super) const WHOLE: f64 = 1e-6;

/// A count that can be branched on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Spot {
    /// Strips of one blank.
    Strips(Blank),
    /// What a column counts, if not strips.
    Column(usize),
}

/// The program.
pub(super) struct Program {
    /// The linear relaxation.
    pub lp: Simplex,
    /// What each column counts.
    pub counts: Vec<Counts>,
    /// What each column costs, in units.
    pub cost: Vec<i64>,
    /// The whole-number entries of each column.
    pub entries: Vec<Vec<(usize, i64)>>,
    /// The right side of each row.
    pub right: Vec<i64>,
    /// Whether a row's price may be below zero.
    pub free: Vec<bool>,
    /// Units of cost that one unit of the relaxation's cost stands for.
    pub unit: f64,
    /// Columns of layouts and patterns, in their order.
    made: Vec<(usize, Made)>,
    /// Columns that count strips, in their order.
    strips: Vec<(usize, Blank)>,
    /// Strips that no column counts, by their blanks.
    uncounted: BTreeMap<Blank, Uncounted>,
    /// Strips that are counted for a while, in the order of their columns.
    counted: Vec<(Blank, Uncounted)>,
    /// The column of the strips of each blank that are given and not used.
    spare: BTreeMap<Blank, usize>,
}

/// Strips that no column counts as long as nothing is branched on that.
struct Uncounted {
    /// The columns of their patterns.
    patterns: Vec<usize>,
    /// How many there may be.
    range: Range,
}

/// Rows by what they say.
struct Rows {
    sizes: Vec<usize>,
    on_hand: Vec<usize>,
    sheets: Vec<usize>,
    ripped: Vec<usize>,
    cuts: Option<usize>,
    given: BTreeMap<Blank, usize>,
    used: BTreeMap<Blank, usize>,
    covered: Vec<(usize, Cover)>,
}

#[allow(clippy::cast_precision_loss)] // counts and costs of an order
fn real(number: i64) -> f64 {
    number as f64
}

impl Program {
    /// The program of making what is needed from the pool, within the scope, at no more than `target` units.
    pub(super) fn new(
        problem: &Problem,
        need: &Need,
        scope: &Scope,
        (pool, covers): (&[Made], &[Cover]),
        target: i64,
    ) -> Program {
        let mut program = Program {
            lp: Simplex::default(),
            counts: Vec::new(),
            cost: Vec::new(),
            entries: Vec::new(),
            right: Vec::new(),
            free: Vec::new(),
            unit: real(dearest(problem)),
            made: Vec::new(),
            strips: Vec::new(),
            uncounted: BTreeMap::new(),
            counted: Vec::new(),
            spare: BTreeMap::new(),
        };
        let rows = program.rows(problem, need, scope, (pool, covers), target);
        for made in pool {
            program.add_made(problem, need, &rows, made, target);
        }
        program
    }

    fn rows(
        &mut self,
        problem: &Problem,
        need: &Need,
        scope: &Scope,
        (pool, covers): (&[Made], &[Cover]),
        target: i64,
    ) -> Rows {
        let sizes = need.count.iter().map(|count| self.row(i64::from(*count), false)).collect();
        let on_hand = need.on_hand.iter().map(|count| self.row(-i64::from(*count), false)).collect();
        let sheets = scope.kinds.iter().map(|range| self.sum(Counts::Sheets, *range).0).collect();
        let ripped = scope.rippings.iter().map(|range| self.sum(Counts::Ripped, *range).0).collect();
        let (given, used) = (BTreeMap::new(), BTreeMap::new());
        let covered = covers.iter().map(|cover| (self.row(cover.least, false), cover.clone())).collect();
        let mut rows = Rows { sizes, on_hand, sheets, ripped, cuts: None, given, used, covered };
        if problem.charges.per_order {
            let row = self.row(-i64::from(need.free), false);
            self.column(
                Counts::Sheets,
                vec![(row, 1)],
                problem.charges.cut,
                Range { least: 0, most: target / problem.charges.cut },
            );
            rows.cuts = Some(row);
        }
        for made in pool {
            if let Made::Pattern(pattern) = made {
                self.blank_rows(problem, need, scope, pattern.blank, &mut rows);
            }
        }
        rows
    }

    /// Strips given by layouts, at least those used, which are counted where the scope narrows that.
    fn blank_rows(&mut self, problem: &Problem, need: &Need, scope: &Scope, blank: Blank, rows: &mut Rows) {
        if rows.given.contains_key(&blank) {
            return;
        }
        let given = self.row(0, false);
        self.spare.insert(blank, self.lp.columns() - 1);
        rows.given.insert(blank, given);
        let range = scope.range(problem, need, Count::Strips(blank));
        if scope.strips.contains_key(&blank) {
            let (row, column) = self.sum(Counts::Strips, range);
            rows.used.insert(blank, row);
            self.strips.push((column, blank));
        } else {
            self.uncounted.insert(blank, Uncounted { patterns: Vec::new(), range });
        }
    }

    /// A row that adds up a count, and the column of the sum.
    fn sum(&mut self, counts: Counts, range: Range) -> (usize, usize) {
        let row = self.row(0, true);
        (row, self.column(counts, vec![(row, -1)], 0, range))
    }

    fn add_made(&mut self, problem: &Problem, need: &Need, rows: &Rows, made: &Made, target: i64) {
        let (counts, entries, cost, most) = match made {
            Made::Layout(layout) => {
                let cost = layout.cost(problem);
                (Counts::Layouts, layout_entries(problem, rows, layout), cost, target / cost)
            }
            Made::Pattern(pattern) => {
                let blank = pattern.blank;
                let mut entries = pattern_entries(problem, rows, pattern);
                entries.push((rows.given[&blank], -1));
                entries.extend(rows.used.get(&blank).map(|row| (*row, 1)));
                entries
                    .extend(rows.covered.iter().filter_map(|(row, cover)| Some((*row, *cover.weights.get(&blank)?))));
                (Counts::Patterns, entries, 0, copies(problem, need, pattern))
            }
            Made::OnHand(strip, pattern) => {
                let mut entries = pattern_entries(problem, rows, pattern);
                entries.push((rows.on_hand[*strip], -1));
                let most = copies(problem, need, pattern).min(i64::from(need.on_hand[*strip]));
                (Counts::Patterns, entries, 0, most)
            }
        };
        let uncounted = match made {
            Made::Pattern(pattern) => self.uncounted.get_mut(&pattern.blank),
            Made::Layout(_) | Made::OnHand(..) => None,
        };
        let free = uncounted.map(|uncounted| {
            uncounted.patterns.push(self.lp.columns());
            FREE
        });
        let column = self.column_with((counts, entries, cost), Range { least: 0, most }, free);
        self.made.push((column, made.clone()));
    }

    fn row(&mut self, right: i64, exact: bool) -> usize {
        let most = if exact { 0.0 } else { f64::INFINITY };
        let (row, _) = self.lp.add_row(&[], real(right), (0.0, most));
        self.right.push(right);
        self.free.push(exact);
        self.counts.push(Counts::Slack);
        self.cost.push(0);
        self.entries.push(Vec::new());
        row
    }

    fn column(&mut self, counts: Counts, entries: Vec<(usize, i64)>, cost: i64, range: Range) -> usize {
        self.column_with((counts, entries, cost), range, None)
    }

    /// A column, with an entry kept free.
    fn column_with(
        &mut self,
        (counts, entries, cost): (Counts, Vec<(usize, i64)>, i64),
        range: Range,
        free: Option<(usize, f64)>,
    ) -> usize {
        let parts = entries.iter().map(|(row, part)| (*row, real(*part))).chain(free).collect();
        let data =
            Column { entries: parts, cost: real(cost) / self.unit, least: real(range.least), most: real(range.most) };
        self.counts.push(counts);
        self.cost.push(cost);
        self.entries.push(entries);
        self.lp.add_column(&data)
    }

    /// The counts that may not be whole, what they count, and their values.
    pub(super) fn open(&self) -> impl Iterator<Item = (Spot, Counts, f64)> {
        let basic = |column: &usize| matches!(self.lp.place(*column), Place::Basic(_));
        let counting = self.counts.iter().enumerate().filter(|(_, counts)| **counts != Counts::Slack);
        let columns = counting.filter(move |(column, _)| basic(column));
        let columns = columns.map(|(column, counts)| {
            let spot = self.blank_of(column).map_or(Spot::Column(column), Spot::Strips);
            (spot, *counts, self.lp.value(column))
        });
        let strips = |patterns: &[usize]| patterns.iter().map(|column| self.lp.value(*column)).sum();
        let uncounted = self.uncounted.iter();
        let all = columns
            .chain(uncounted.map(move |(blank, of)| (Spot::Strips(*blank), Counts::Strips, strips(&of.patterns))));
        // Where a whole number of strips is given, spare ones are no reason to branch.
        let whole = |spot: &Spot, value: f64| match spot {
            Spot::Strips(blank) => value.ceil() <= value + self.lp.value(self.spare[blank]) + WHOLE,
            Spot::Column(_) => false,
        };
        all.filter(move |(spot, _, value)| !whole(spot, *value))
    }

    /// The column of a count; where there was none, strips are counted from now on, and true.
    pub(super) fn column_of(&mut self, spot: Spot) -> (usize, bool) {
        match spot {
            Spot::Column(column) => (column, false),
            Spot::Strips(blank) => {
                let counted = self.strips.iter().find(|(_, of)| *of == blank).map(|(column, _)| (*column, false));
                counted.unwrap_or_else(|| (self.count(blank), true))
            }
        }
    }

    /// Something done while all of these have columns, and all is as it was again.
    pub(super) fn counting<T>(
        &mut self,
        spots: impl Iterator<Item = Spot>,
        then: impl FnOnce(&mut Program, &[usize]) -> T,
    ) -> T {
        let (basis, counted) = (self.lp.standing(), self.counted.len());
        let columns: Vec<usize> = spots.map(|spot| self.column_of(spot).0).collect();
        let done = then(self, &columns);
        if self.counted.len() > counted {
            (counted..self.counted.len()).for_each(|_| self.uncount());
            self.lp.back_to(&basis);
        }
        done
    }

    /// Counts the strips of a blank that no column counts yet, in a row of its own; the column of the count.
    fn count(&mut self, blank: Blank) -> usize {
        let counted = self.uncounted.remove(&blank).expect("no column counts it yet");
        let (row, column) = self.lp.count(&counted.patterns, (real(counted.range.least), real(counted.range.most)));
        counted.patterns.iter().for_each(|pattern| self.entries[*pattern].push((row, 1)));
        self.right.push(0);
        self.free.push(true);
        self.counts.push(Counts::Strips);
        self.cost.push(0);
        self.entries.push(vec![(row, -1)]);
        self.strips.push((column, blank));
        self.counted.push((blank, counted));
        column
    }

    /// No longer counts what was counted last. Before anything else is done, a basis of before must be come back to.
    pub(super) fn uncount(&mut self) {
        let (blank, counted) = self.counted.pop().expect("it was counted");
        self.lp.uncount(&counted.patterns);
        for pattern in &counted.patterns {
            self.entries[*pattern].pop();
        }
        self.right.pop();
        self.free.pop();
        self.counts.pop();
        self.cost.pop();
        self.entries.pop();
        self.strips.pop();
        self.uncounted.insert(blank, counted);
    }

    /// The layout or pattern whose copies a column counts.
    pub(super) fn made_of(&self, column: usize) -> Option<&Made> {
        let at = self.made.binary_search_by_key(&column, |(column, _)| *column).ok()?;
        Some(&self.made[at].1)
    }

    /// The blank whose strips a column counts.
    fn blank_of(&self, column: usize) -> Option<Blank> {
        let at = self.strips.binary_search_by_key(&column, |(column, _)| *column).ok()?;
        Some(self.strips[at].1)
    }

    /// Its layouts and their columns.
    pub(super) fn layouts(&self) -> impl Iterator<Item = (&Layout, usize)> {
        self.made.iter().filter_map(|(column, made)| match made {
            Made::Layout(layout) => Some((layout, *column)),
            Made::Pattern(_) | Made::OnHand(..) => None,
        })
    }

    /// The plan that the current whole-number values stand for.
    pub(super) fn draft(&self) -> Draft {
        let mut draft = Draft::default();
        for (column, made) in &self.made {
            let copies = rounded(self.lp.value(*column));
            if copies > 0 {
                draft.add(made.clone(), u32::try_from(copies).expect("copies are few"));
            }
        }
        draft
    }
}

/// The nearest whole number: the one place where values of the program become counts.
#[allow(clippy::cast_possible_truncation)] // counts of an order
pub(super) fn rounded(value: f64) -> i64 {
    value.round() as i64
}

fn layout_entries(problem: &Problem, rows: &Rows, layout: &Layout) -> Vec<(usize, i64)> {
    let mut entries: BTreeMap<usize, i64> = BTreeMap::new();
    for (blank, each) in layout.blanks(problem) {
        if let Some(row) = rows.given.get(&blank) {
            *entries.entry(*row).or_default() += i64::from(each);
        }
    }
    entries.insert(rows.sheets[problem.rippings[layout.ripping].sheet], 1);
    entries.insert(rows.ripped[layout.ripping], 1);
    entries.extend(rows.cuts.map(|row| (row, -i64::from(layout.cuts(problem)))));
    entries.into_iter().collect()
}

fn pattern_entries(problem: &Problem, rows: &Rows, pattern: &Pattern) -> Vec<(usize, i64)> {
    let mut entries: BTreeMap<usize, i64> = BTreeMap::new();
    for (size, each) in pattern.yields(problem) {
        *entries.entry(rows.sizes[size]).or_default() += i64::from(each);
    }
    entries.into_iter().collect()
}

/// Copies of a pattern after which one more would make nothing that is wanted.
fn copies(problem: &Problem, need: &Need, pattern: &Pattern) -> i64 {
    let enough = |(size, each): (usize, u32)| i64::from(need.count[size].div_ceil(each));
    pattern.yields(problem).map(enough).max().unwrap_or(0)
}

#[cfg(test)]
mod tests {
    use super::super::generate::generate;
    use super::super::simplex::Outcome;
    use super::*;
    use crate::data::{File, Source, read};
    use crate::solve::Patient;

    /// By hand: 2.5 strips are used of 2.75 given, so either two are used or three given; 2.5 of three given are no reason
    /// to branch.
    #[test]
    fn strips_are_counted_while_something_is_branched_on_them() {
        let text = "[[sheet]]\nlength = 96\nwidth = 48\nprice = 38.50\n\
                    [[panel]]\nsize = \"16 x 20\"\ncount = 30\n[[panel]]\nsize = \"11 x 14\"\ncount = 20\n";
        let job = read(&Source { job: File::of("batch", text), list: None, rack: None }).expect("it is sound");
        let problem = crate::model::build(&job).expect("they can be made");
        let need = Need::of(&problem);
        let pool = generate(&problem, &need, &[], &Patient).found;
        let scope = Scope::all(&problem, &need, None);
        let target = 30 * problem.charges.sheets[0];
        let mut program = Program::new(&problem, &need, &scope, (&pool, &[]), target);
        let (&blank, of) = program.uncounted.iter().find(|(_, of)| !of.patterns.is_empty()).expect("strips are used");
        let (pattern, spare) = (of.patterns[0], program.spare[&blank]);
        let narrow = scope.narrowed(Count::Strips(blank), Range { least: 1, most: 9 });
        let narrowed = Program::new(&problem, &need, &narrow, (&pool, &[]), target);
        assert_eq!(narrowed.right.len(), program.right.len() + 1, "one row is the count");
        assert!(!narrowed.uncounted.contains_key(&blank));

        let others: Vec<usize> = of.patterns[1..].to_vec();
        let mut is_open = |used: f64, left: f64| {
            let fixed = others.iter().map(|other| (*other, 0.0)).chain([(pattern, used), (spare, left)]);
            fixed.for_each(|(column, value)| program.lp.set_bounds(column, value, value));
            assert_eq!(program.lp.dual(f64::INFINITY), Outcome::Optimal);
            program.open().any(|(spot, ..)| spot == Spot::Strips(blank))
        };
        assert_eq!([is_open(2.5, 0.25), is_open(2.5, 0.5)], [true, false]);

        let before = (program.right.clone(), program.entries.clone(), program.counts.clone());
        let (column, counted) = program.column_of(Spot::Strips(blank));
        assert!(counted && program.blank_of(column) == Some(blank));
        assert_eq!(program.column_of(Spot::Strips(blank)), (column, false), "it is counted now");
        assert_eq!(program.entries[pattern].last(), Some(&(before.0.len(), 1)));
        program.uncount();
        assert_eq!((program.right.clone(), program.entries.clone(), program.counts.clone()), before);
        assert!(program.uncounted.contains_key(&blank));
    }
}
