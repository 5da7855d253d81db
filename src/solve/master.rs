//! The linear program over the layouts and patterns found so far, and its rows: panels wanted, strips given and used,
//! sheets and strips to be had, cuts of the order. See [`crate::model`] for what they say.

use super::layout::Layout;
use super::need::Need;
use super::pattern::{Blank, Pattern};
use super::prices::{Prices, dearest, fixed};
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

/// The program, with what its columns stand for.
pub(super) struct Master<'a> {
    problem: &'a Problem,
    lp: Simplex,
    /// Units of cost that one unit of the program's cost stands for.
    unit: f64,
    sizes: Vec<usize>,
    stock: Vec<Option<usize>>,
    on_hand: Vec<usize>,
    cuts: Option<usize>,
    blanks: BTreeMap<Blank, usize>,
    missing: Vec<usize>,
    made: BTreeMap<Made, usize>,
}

#[allow(clippy::cast_precision_loss)] // counts and costs of an order
fn real(number: i64) -> f64 {
    number as f64
}

impl<'a> Master<'a> {
    /// The program of what is needed, with no layout and no pattern yet: every panel is missing, at a price above all.
    pub(super) fn new(problem: &'a Problem, need: &Need, missing: i64) -> Master<'a> {
        let unit = real(dearest(problem));
        let mut master = Master {
            problem,
            lp: Simplex::default(),
            unit,
            sizes: Vec::new(),
            stock: Vec::new(),
            on_hand: Vec::new(),
            cuts: None,
            blanks: BTreeMap::new(),
            missing: Vec::new(),
            made: BTreeMap::new(),
        };
        for count in &need.count {
            master.add_size(*count, real(missing) / unit);
        }
        for stock in &need.stock {
            let row = stock.map(|most| master.lp.add_row(&[], -f64::from(most), OVER).0);
            master.stock.push(row);
        }
        for count in &need.on_hand {
            let row = master.lp.add_row(&[], -f64::from(*count), OVER).0;
            master.on_hand.push(row);
        }
        if problem.charges.per_order {
            master.add_cuts_row(need.free);
        }
        master
    }

    fn add_size(&mut self, count: u32, cost: f64) {
        let (row, _) = self.lp.add_row(&[], f64::from(count), OVER);
        let column = Column { entries: vec![(row, 1.0)], cost, least: 0.0, most: f64::INFINITY };
        let missing = self.lp.add_column(column);
        self.lp.put_in_basis(missing, row);
        self.sizes.push(row);
        self.missing.push(missing);
    }

    /// Paid cuts cover all cuts but the free ones.
    fn add_cuts_row(&mut self, free: u32) {
        let (row, _) = self.lp.add_row(&[], -f64::from(free), OVER);
        let cost = real(self.problem.charges.cut) / self.unit;
        self.lp.add_column(Column { entries: vec![(row, 1.0)], cost, least: 0.0, most: f64::INFINITY });
        self.cuts = Some(row);
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
                entries.push((self.blank_row(pattern.blank), -1.0));
                (entries, 0)
            }
            Made::OnHand(strip, pattern) => {
                let mut entries = self.pattern_entries(pattern);
                entries.push((self.on_hand[*strip], -1.0));
                (entries, 0)
            }
        };
        let column = Column { entries, cost: real(cost) / self.unit, least: 0.0, most: f64::INFINITY };
        let column = self.lp.add_column(column);
        self.made.insert(made, column);
        true
    }

    fn layout_entries(&mut self, layout: &Layout) -> (Vec<(usize, f64)>, i64) {
        let blanks: Vec<(Blank, u32)> = layout.blanks(self.problem).collect();
        let mut entries: BTreeMap<usize, f64> = BTreeMap::new();
        for (blank, copies) in blanks {
            *entries.entry(self.blank_row(blank)).or_default() += f64::from(copies);
        }
        if let Some(row) = self.stock[self.problem.rippings[layout.ripping].sheet] {
            entries.insert(row, -1.0);
        }
        if let Some(row) = self.cuts {
            entries.insert(row, -f64::from(layout.cuts(self.problem)));
        }
        (entries.into_iter().collect(), layout.cost(self.problem))
    }

    fn pattern_entries(&self, pattern: &Pattern) -> Vec<(usize, f64)> {
        let mut entries: BTreeMap<usize, f64> = BTreeMap::new();
        for (size, copies) in pattern.yields(self.problem) {
            *entries.entry(self.sizes[size]).or_default() += f64::from(copies);
        }
        entries.into_iter().collect()
    }

    fn blank_row(&mut self, blank: Blank) -> usize {
        let lp = &mut self.lp;
        *self.blanks.entry(blank).or_insert_with(|| lp.add_row(&[], 0.0, OVER).0)
    }

    /// Solves the program over what is there; false where the method lost its way.
    pub(super) fn solve(&mut self) -> bool {
        self.lp.primal() == Outcome::Optimal
    }

    /// The prices of the rows in fixed point.
    pub(super) fn prices(&self, scale: i64) -> Prices {
        let prices = self.lp.prices();
        let of = |row: usize| fixed(prices[row] * self.unit, scale);
        Prices {
            scale,
            size: self.sizes.iter().map(|row| of(*row)).collect(),
            stock: self.stock.iter().map(|row| row.map_or(0, of)).collect(),
            cut: self.cuts.map_or(0, |row| of(row).min(self.problem.charges.cut * scale)),
            keeping: 0,
        }
    }

    /// The price of a strip in fixed point; none where no layout gives it yet.
    pub(super) fn strip_prices(&self, scale: i64) -> BTreeMap<Blank, i64> {
        let prices = self.lp.prices();
        self.blanks.iter().map(|(blank, row)| (*blank, fixed(prices[*row] * self.unit, scale))).collect()
    }

    /// The price of a strip on hand in fixed point.
    pub(super) fn on_hand_prices(&self, scale: i64) -> Vec<i64> {
        let prices = self.lp.prices();
        self.on_hand.iter().map(|row| fixed(prices[*row] * self.unit, scale)).collect()
    }

    /// Everything that the program uses, with how much of it.
    pub(super) fn used(&self) -> Vec<(Made, f64)> {
        let uses = self.made.iter().map(|(made, column)| (made.clone(), self.lp.value(*column)));
        uses.filter(|(_, value)| *value > 1e-7).collect()
    }

    /// Everything found so far.
    pub(super) fn found(&self) -> impl Iterator<Item = &Made> {
        self.made.keys()
    }
}

/// The slack of a row that may be overfilled.
const OVER: (f64, f64) = (0.0, f64::INFINITY);
