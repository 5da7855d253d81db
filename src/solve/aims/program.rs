//! Most worth at no more than a cost, as an integer program over the layouts and patterns found so far:
//!
//! - each panel size: panels on its patterns - extras taken + panels missing >= panels asked for;
//! - each blank: strips from layouts >= strips used; sheets and strips on hand: no more than there are;
//! - the money: cost of the layouts and of the paid cuts <= the cost that must not be passed.
//!
//! It minimises what missing panels cost (more than any extra is worth) less the worth of extras and of offcuts kept,
//! in cents. All its numbers are whole, so that [`super::branch`] can judge the prices of the simplex exactly.

use super::super::draft::Draft;
use super::super::layout::Layout;
use super::super::master::Made;
use super::super::pattern::{Blank, Pattern};
use super::super::program::rounded;
use super::super::simplex::{Column, Outcome, Place, Simplex};
use super::count::{kept_behind, kept_beside};
use super::judge::Judged;
use super::prices::{Prices, missing_worth, scale};
use super::tidy::wanted;
use crate::model::Problem;
use std::collections::{BTreeMap, BTreeSet};

/// What a plan may spend, and where the yard's work is settled, what it has ripped.
#[derive(Clone, Copy, Debug)]
pub(super) struct Means<'a> {
    /// The most that it may cost, in units.
    pub cost: i64,
    /// Sheets that it must buy at least.
    pub sheets: i64,
    /// The sheets as they are ripped; none where that is open.
    pub ripped: Option<&'a BTreeMap<Layout, u32>>,
}

impl Means<'_> {
    /// The most that one sheet and its cuts can cost, and the most that all cuts of the order can: what the other
    /// sheets that must be bought leave of the money.
    pub(super) fn left(&self, problem: &Problem) -> (i64, i64) {
        let cheapest = problem.charges.sheets.iter().min().copied().unwrap_or(0);
        (self.cost - (self.sheets - 1).max(0) * cheapest, (self.cost - self.sheets * cheapest).max(0))
    }
}

/// A basis of the simplex, to come back to.
type Basis = (Vec<usize>, Vec<Place>);

/// What a column counts.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Counts {
    /// What a row is overfilled by.
    Slack,
    /// Panels that are not made.
    Missing,
    /// Extra panels, or paid cuts; they follow from the rest.
    Follows,
    /// Copies of a layout or a pattern.
    Made(Made),
}

/// The program.
pub(super) struct Program<'a> {
    problem: &'a Problem,
    means: Means<'a>,
    /// The linear relaxation.
    pub lp: Simplex,
    /// What each column counts.
    pub counts: Vec<Counts>,
    /// What each column costs, in cents.
    pub cost: Vec<i64>,
    /// The entries of each column.
    pub entries: Vec<Vec<(usize, i64)>>,
    /// The right side of each row.
    pub right: Vec<i64>,
    sizes: Vec<usize>,
    stock: Vec<Option<usize>>,
    on_hand: Vec<usize>,
    money: usize,
    cuts: Option<usize>,
    blanks: BTreeMap<Blank, usize>,
    known: BTreeSet<Made>,
}

#[allow(clippy::cast_precision_loss)] // counts and worths of an order
fn real(number: i64) -> f64 {
    number as f64
}

impl<'a> Program<'a> {
    /// The program with nothing found yet: all panels are missing.
    pub(super) fn new(problem: &'a Problem, means: Means<'a>) -> Program<'a> {
        let mut program = Program {
            problem,
            means,
            lp: Simplex::default(),
            counts: Vec::new(),
            cost: Vec::new(),
            entries: Vec::new(),
            right: Vec::new(),
            sizes: Vec::new(),
            stock: Vec::new(),
            on_hand: Vec::new(),
            money: 0,
            cuts: None,
            blanks: BTreeMap::new(),
            known: BTreeSet::new(),
        };
        program.add_sizes();
        program.money = program.row(-means.cost);
        program.stock = problem.stock.iter().map(|stock| stock.map(|most| program.row(-i64::from(most)))).collect();
        program.on_hand = problem.on_hand.iter().map(|strip| program.row(-i64::from(strip.count))).collect();
        if problem.charges.per_order {
            let row = program.row(-i64::from(problem.charges.free));
            let most = means.left(problem).1 / problem.charges.cut;
            program.column(Counts::Follows, vec![(row, 1), (program.money, -problem.charges.cut)], 0, (0, most));
            program.cuts = Some(row);
        }
        for layout in means.ripped.into_iter().flat_map(BTreeMap::keys) {
            program.add(Made::Layout(layout.clone()));
        }
        program
    }

    fn add_sizes(&mut self) {
        let problem = self.problem;
        for size in &problem.sizes {
            let row = self.row(i64::from(size.count));
            let missing = vec![(row, 1)];
            let missing = self.column(Counts::Missing, missing, missing_worth(problem), (0, i64::from(size.count)));
            if size.count > 0 {
                self.lp.put_in_basis(missing, row);
            }
            for wish in &size.wishes {
                self.column(Counts::Follows, vec![(row, -1)], -wish.worth, (0, i64::from(wish.most)));
            }
            self.sizes.push(row);
        }
    }

    fn row(&mut self, right: i64) -> usize {
        let (row, _) = self.lp.add_row(&[], real(right), (0.0, f64::INFINITY));
        self.right.push(right);
        self.counts.push(Counts::Slack);
        self.cost.push(0);
        self.entries.push(Vec::new());
        row
    }

    fn column(&mut self, counts: Counts, entries: Vec<(usize, i64)>, cost: i64, (least, most): (i64, i64)) -> usize {
        let parts = entries.iter().map(|(row, part)| (*row, real(*part))).collect();
        let cost_of_one = real(cost) / self.unit();
        let data = Column { entries: parts, cost: cost_of_one, least: real(least), most: real(most) };
        self.counts.push(counts);
        self.cost.push(cost);
        self.entries.push(entries);
        self.lp.add_column(&data)
    }

    /// Cents that one unit of the relaxation's cost stands for.
    pub(super) fn unit(&self) -> f64 {
        real(missing_worth(self.problem))
    }

    /// Adds a layout or a pattern; false where it is there already.
    pub(super) fn add(&mut self, made: Made) -> bool {
        if !self.known.insert(made.clone()) {
            return false;
        }
        let (entries, kept, copies) = match &made {
            Made::Layout(layout) => {
                let copies = self.copies_of_layout(layout);
                (self.layout_entries(layout), kept_beside(self.problem, layout), copies)
            }
            Made::Pattern(pattern) => {
                let mut entries = self.pattern_entries(pattern);
                entries.push((self.blank_row(pattern.blank), -1));
                (entries, kept_behind(self.problem, pattern), (0, self.copies(pattern)))
            }
            Made::OnHand(strip, pattern) => {
                let mut entries = self.pattern_entries(pattern);
                entries.push((self.on_hand[*strip], -1));
                (entries, kept_behind(self.problem, pattern), (0, self.copies(pattern)))
            }
        };
        self.column(Counts::Made(made), entries, -kept, copies);
        true
    }

    fn copies_of_layout(&self, layout: &Layout) -> (i64, i64) {
        match self.means.ripped {
            Some(ripped) => ripped.get(layout).map_or((0, 0), |copies| (i64::from(*copies), i64::from(*copies))),
            None if layout.cost(self.problem) > self.means.left(self.problem).0 => (0, 0),
            None => (0, self.means.cost / layout.cost(self.problem).max(1)),
        }
    }

    /// Copies of a pattern after which one more would make nothing that is wanted.
    fn copies(&self, pattern: &Pattern) -> i64 {
        let enough = |(size, each): (usize, u32)| i64::from(wanted(&self.problem.sizes[size]).div_ceil(each));
        pattern.yields(self.problem).map(enough).max().unwrap_or(0)
    }

    fn layout_entries(&mut self, layout: &Layout) -> Vec<(usize, i64)> {
        let blanks: Vec<(Blank, u32)> = layout.blanks(self.problem).collect();
        let mut entries: BTreeMap<usize, i64> = BTreeMap::new();
        for (blank, copies) in blanks {
            *entries.entry(self.blank_row(blank)).or_default() += i64::from(copies);
        }
        entries.insert(self.money, -layout.cost(self.problem));
        if let Some(row) = self.stock[self.problem.rippings[layout.ripping].sheet] {
            entries.insert(row, -1);
        }
        if let Some(row) = self.cuts {
            entries.insert(row, -i64::from(layout.cuts(self.problem)));
        }
        entries.into_iter().collect()
    }

    fn pattern_entries(&self, pattern: &Pattern) -> Vec<(usize, i64)> {
        let mut entries: BTreeMap<usize, i64> = BTreeMap::new();
        for (size, copies) in pattern.yields(self.problem) {
            *entries.entry(self.sizes[size]).or_default() += i64::from(copies);
        }
        entries.into_iter().collect()
    }

    fn blank_row(&mut self, blank: Blank) -> usize {
        if let Some(row) = self.blanks.get(&blank) {
            return *row;
        }
        let row = self.row(0);
        self.blanks.insert(blank, row);
        row
    }

    /// Solves the relaxation over what is there; false where the method lost its way.
    pub(super) fn solve(&mut self) -> bool {
        self.lp.primal() == Outcome::Optimal
    }

    /// Whether the relaxation, as it stands, makes all panels and reaches this worth.
    pub(super) fn reaches(&self, worth: i64) -> bool {
        self.lp.cost() <= 1e-7 - real(worth) / self.unit()
    }

    /// The prices of the rows, in fixed point.
    #[allow(clippy::cast_possible_truncation)] // rounded to fixed point, once
    pub(super) fn prices(&self) -> Prices {
        let prices = self.lp.prices();
        let to_fixed = self.unit() * real(scale(self.problem));
        let of = |row: usize| (prices[row] * to_fixed).round().clamp(0.0, 1e17) as i64;
        Prices {
            size: self.sizes.iter().map(|row| of(*row)).collect(),
            stock: self.stock.iter().map(|row| row.map_or(0, of)).collect(),
            cut: self.cuts.map_or(0, of),
            money: prices[self.money].max(0.0) * to_fixed,
            strips: self.blanks.iter().map(|(blank, row)| (*blank, of(*row))).collect(),
            on_hand: self.on_hand.iter().map(|row| of(*row)).collect(),
        }
    }

    /// Adds what pays at these prices; false where nothing does.
    pub(super) fn improve(&mut self, judged: &Judged, prices: &Prices) -> bool {
        let worthwhile = (missing_worth(self.problem) * scale(self.problem)) >> 30;
        let mut grown = false;
        for (blank, (value, pattern)) in &judged.strips {
            if prices.strips.get(blank).is_some_and(|price| value - price > worthwhile) && !pattern.pieces.is_empty() {
                grown |= self.add(Made::Pattern(pattern.clone()));
            }
        }
        for (strip, (value, pattern)) in judged.on_hand.iter().enumerate() {
            if value - prices.on_hand[strip] > worthwhile && !pattern.pieces.is_empty() {
                grown |= self.add(Made::OnHand(strip, pattern.clone()));
            }
        }
        for (layout, excess) in &judged.layouts {
            if *excess > worthwhile && self.means.ripped.is_none() {
                grown |= self.add_layout(judged, layout);
            }
        }
        grown
    }

    /// Adds a layout and the best pattern of each of its strips.
    fn add_layout(&mut self, judged: &Judged, layout: &Layout) -> bool {
        let mut grown = false;
        for (blank, _) in layout.blanks(self.problem) {
            if let Some((_, pattern)) = judged.strips.get(&blank).filter(|(_, best)| !best.pieces.is_empty()) {
                grown |= self.add(Made::Pattern(pattern.clone()));
            }
        }
        self.add(Made::Layout(layout.clone())) || grown
    }

    /// A basis saved before rows and columns were added, with these: columns at their least, rows overfilled.
    pub(super) fn padded(&self, (mut basis, mut places): Basis) -> Basis {
        places.resize(self.counts.len(), Place::Lower);
        let slacks = (0..self.counts.len()).filter(|column| self.counts[*column] == Counts::Slack);
        for slack in slacks.skip(basis.len()) {
            places[slack] = Place::Basic(basis.len());
            basis.push(slack);
        }
        (basis, places)
    }

    /// Everything found so far.
    pub(super) fn found(&self) -> Vec<Made> {
        self.known.iter().cloned().collect()
    }

    /// The plan that the current whole-number values stand for.
    pub(super) fn draft(&self) -> Draft {
        let mut draft = Draft::default();
        for (column, counts) in self.counts.iter().enumerate() {
            let copies = u32::try_from(rounded(self.lp.value(column)).max(0)).expect("copies are few");
            if let (Counts::Made(made), true) = (counts, copies > 0) {
                draft.add(made.clone(), copies);
            }
        }
        draft
    }
}
