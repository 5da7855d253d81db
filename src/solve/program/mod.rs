//! The integer program over a listed pool of layouts and patterns, with the counts that the search branches on as
//! variables of their own: sheets of a kind, paid cuts, and strips of a width, these only where the scope narrows them or
//! as long as something is branched on them, as are sheets that give some strips; their rows would make up half of the
//! program. Knows every number exactly, so that prices from the floating-point simplex can be judged in whole numbers.

mod counted;

pub(super) use self::counted::Spot;

use self::counted::{Counted, Givers, ROOM};
use super::cover::Cover;
use super::draft::Draft;
use super::layout::Layout;
use super::master::Made;
use super::need::Need;
use super::pattern::{Blank, Pattern};
use super::prices::dearest;
use super::scope::{Count, Range, Scope};
use super::simplex::{Column, Simplex};
use crate::model::Problem;
use std::collections::BTreeMap;

/// What a variable counts; the search branches in this order.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Counts {
    /// Sheets of one kind, or paid cuts.
    Sheets,
    /// Sheets ripped one way.
    Ripped,
    /// Strips of one width from one kind of board, or sheets that give some of them.
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
    /// Columns that count strips, or sheets that give some, in their order.
    spots: Vec<(usize, Spot)>,
    /// Strips that no column counts, by their blanks.
    uncounted: BTreeMap<Blank, Counted>,
    /// Sheets that give strips: the rows of those, and of each the columns of layouts that give some and how many.
    givers: BTreeMap<usize, Givers>,
    /// What is counted for a while, in the order of their columns.
    counted: Vec<(Spot, Counted)>,
    /// Most sheets there may be.
    most_sheets: i64,
    /// The column of the strips of each blank that are given and not used.
    spare: BTreeMap<Blank, usize>,
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
            spots: Vec::new(),
            uncounted: BTreeMap::new(),
            givers: BTreeMap::new(),
            counted: Vec::new(),
            spare: BTreeMap::new(),
            most_sheets: scope.kinds.iter().map(|range| range.most).sum(),
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
        self.givers.insert(given, Givers { blank, layouts: Vec::new() });
        let range = scope.range(problem, need, Count::Strips(blank));
        if scope.strips.contains_key(&blank) {
            let (row, column) = self.sum(Counts::Strips, range);
            rows.used.insert(blank, row);
            self.spots.push((column, Spot::Strips(blank)));
        } else {
            self.uncounted.insert(blank, Counted { columns: Vec::new(), range });
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
                // What all patterns of the strip have in common comes first.
                let mut entries = vec![(rows.given[&blank], -1)];
                entries.extend(rows.used.get(&blank).map(|row| (*row, 1)));
                entries
                    .extend(rows.covered.iter().filter_map(|(row, cover)| Some((*row, *cover.weights.get(&blank)?))));
                entries.extend(pattern_entries(problem, rows, pattern));
                (Counts::Patterns, entries, 0, copies(problem, need, pattern))
            }
            Made::OnHand(strip, pattern) => {
                let mut entries = pattern_entries(problem, rows, pattern);
                entries.push((rows.on_hand[*strip], -1));
                let most = copies(problem, need, pattern).min(i64::from(need.on_hand[*strip]));
                (Counts::Patterns, entries, 0, most)
            }
        };
        let room = self.may_be_counted(made, &entries);
        let column = self.column_with((counts, entries, cost), Range { least: 0, most }, room);
        self.made.push((column, made.clone()));
    }

    /// Keeps in mind what the next column is to be counted as where something is branched on that: the strips that a
    /// pattern uses, if no column counts them, or those that a layout gives. In how many ways it may be at once.
    fn may_be_counted(&mut self, made: &Made, entries: &[(usize, i64)]) -> usize {
        let column = self.lp.columns();
        match made {
            Made::Pattern(pattern) => {
                let uncounted = self.uncounted.get_mut(&pattern.blank);
                uncounted.map_or(0, |uncounted| {
                    uncounted.columns.push(column);
                    1
                })
            }
            Made::Layout(_) => {
                for (row, copies) in entries {
                    if let Some(givers) = self.givers.get_mut(row) {
                        givers.layouts.push((column, *copies));
                    }
                }
                ROOM
            }
            Made::OnHand(..) => 0,
        }
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
        self.column_with((counts, entries, cost), range, 0)
    }

    /// A column, with room to be counted in so many ways for a while.
    fn column_with(
        &mut self,
        (counts, entries, cost): (Counts, Vec<(usize, i64)>, i64),
        range: Range,
        room: usize,
    ) -> usize {
        let parts = entries.iter().map(|(row, part)| (*row, real(*part))).collect();
        let data =
            Column { entries: parts, cost: real(cost) / self.unit, least: real(range.least), most: real(range.most) };
        self.counts.push(counts);
        self.cost.push(cost);
        self.entries.push(entries);
        self.lp.add_column_with_room(&data, room)
    }

    /// The layout or pattern whose copies a column counts.
    pub(super) fn made_of(&self, column: usize) -> Option<&Made> {
        let at = self.made.binary_search_by_key(&column, |(column, _)| *column).ok()?;
        Some(&self.made[at].1)
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
