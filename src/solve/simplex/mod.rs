//! A linear program that grows: the bounded simplex method, primal where columns are added and dual where bounds
//! move, with an explicit inverse of the basis. Rows are few (at most a few hundred) and columns sparse.
//!
//! Minimises cost x over rows `a x - slack = right` with bounds on every column. Its answers are floating point and
//! prove nothing: the search and the bound take its prices and judge them in whole numbers.

mod columns;
mod dual;
mod elimination;
mod free;
mod inverse;
mod primal;
mod sums;

use self::columns::Columns;
use self::dual::Work;

const PIVOT: f64 = 1e-9;
/// Pivots until it is looked whether the inverse still holds, each time; and until it is worked out anew in any case.
const REFRESH: [usize; 2] = [80, 640];

/// Most rows of an inverse that is kept with its basis; a larger one is worked out again, to save room.
const MARKED: usize = 200;

/// Where a column stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Place {
    /// In the basis, at this position.
    Basic(usize),
    /// At its lower bound.
    Lower,
    /// At its upper bound.
    Upper,
}

/// A column of the program.
#[derive(Clone, Debug)]
pub(super) struct Column {
    /// (row, coefficient).
    pub entries: Vec<(usize, f64)>,
    /// Cost of one.
    pub cost: f64,
    /// Least value; finite.
    pub least: f64,
    /// Greatest value; may be infinite.
    pub most: f64,
}

/// A column and new bounds of it: (column, least, most).
pub(super) type Moved = (usize, f64, f64);

/// How a run ended.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Outcome {
    /// At an optimum.
    Optimal,
    /// No values within the bounds meet the rows; moving the rows' prices along this ray raises the bound for ever.
    Infeasible(Vec<f64>),
    /// The cost passed the limit given.
    PastLimit,
    /// Too many pivots, or a broken inverse.
    Lost,
}

/// The program and its current basis.
#[derive(Clone, Debug, Default)]
pub(super) struct Simplex {
    columns: Columns,
    right: Vec<f64>,
    /// Slack column of each row.
    slacks: Vec<usize>,
    /// Column at each basis position.
    basis: Vec<usize>,
    places: Vec<Place>,
    /// Row-major inverse: position by row.
    inverse: Vec<f64>,
    values: Vec<f64>,
    since_fresh: usize,
    /// Work done since it was last asked for, see [`Simplex::work`].
    work: u64,
    /// What the dual method works with: lists that are filled anew each time.
    dual_work: Work,
    /// Whether the inverse and the values stand; they do from the first use on.
    begun: bool,
}

/// A basis with its inverse, to come back to.
#[derive(Clone, Debug)]
pub(super) struct Saved {
    basis: Vec<usize>,
    places: Vec<Place>,
    inverse: Vec<f64>,
    since_fresh: usize,
}

impl Simplex {
    /// Adds a row `a x - slack = right`, with `slack` between the bounds, over the columns given; its slack becomes
    /// basic. Returns (row, slack column).
    pub(super) fn add_row(&mut self, entries: &[(usize, f64)], right: f64, bounds: (f64, f64)) -> (usize, usize) {
        let row = self.right.len();
        self.right.push(right);
        self.columns.add_row(row, entries);
        let slack = self.columns.count();
        self.slacks.push(slack);
        self.columns.push(&Column { entries: vec![(row, -1.0)], cost: 0.0, least: bounds.0, most: bounds.1 }, 0);
        self.places.push(Place::Basic(row));
        self.basis.push(slack);
        if !self.begun && entries.is_empty() {
            return (row, slack);
        }
        self.begin();
        if self.inverse.len() < self.right.len() * self.right.len() {
            self.grow_inverse(entries);
        }
        self.find_values();
        (row, slack)
    }

    /// Adds a row that counts columns which have room for it; its slack, between the bounds, is the count and becomes
    /// basic. Returns (row, slack column).
    pub(super) fn count(&mut self, columns: &[usize], (least, most): (f64, f64)) -> (usize, usize) {
        self.begin();
        let row = self.right.len();
        self.right.push(0.0);
        for column in columns {
            self.columns.put_last(*column, (row, 1.0));
        }
        let slack = self.columns.count();
        self.columns.push(&Column { entries: vec![(row, -1.0)], cost: 0.0, least, most }, 0);
        self.slacks.push(slack);
        self.places.push(Place::Basic(row));
        self.basis.push(slack);
        self.grow_inverse(&columns.iter().map(|column| (*column, 1.0)).collect::<Vec<_>>());
        self.values.push(columns.iter().map(|column| self.value(*column)).sum());
        (row, slack)
    }

    /// Takes the last row away, which counted these columns. Before anything else is done, a basis of before must be come
    /// back to.
    pub(super) fn uncount(&mut self, columns: &[usize]) {
        for column in columns {
            self.columns.drop_last(*column);
        }
        self.columns.pop();
        self.right.pop();
        self.slacks.pop();
        self.places.pop();
        self.begun = false;
    }

    /// Adds a column at its lower bound.
    pub(super) fn add_column(&mut self, column: &Column) -> usize {
        self.add_column_with_room(column, 0)
    }

    /// The same with room for so many rows that count it, see [`Simplex::count`].
    pub(super) fn add_column_with_room(&mut self, column: &Column, room: usize) -> usize {
        let added = self.columns.count();
        self.columns.push(column, room);
        self.places.push(Place::Lower);
        if self.begun && column.least != 0.0 {
            self.shift_values(added, column.least);
        }
        added
    }

    /// Makes a column basic in the place of a row's slack; for a start that meets the rows.
    pub(super) fn put_in_basis(&mut self, column: usize, row: usize) {
        self.begin();
        let position = row;
        let alpha = self.transformed(column);
        let leaving = self.basis[position];
        self.places[leaving] = Place::Lower;
        self.pivot(column, position, &alpha);
        self.find_values();
    }

    /// Starts from the rows' slacks, but for some rows, where another column is basic in the slack's place: (row,
    /// column). False where that is no basis.
    pub(super) fn begin_with(&mut self, instead: &[(usize, usize)]) -> bool {
        self.places.iter_mut().for_each(|place| *place = Place::Lower);
        self.basis.clone_from(&self.slacks);
        for (row, column) in instead {
            self.basis[*row] = *column;
        }
        for (position, column) in self.basis.iter().enumerate() {
            self.places[*column] = Place::Basic(position);
        }
        self.refresh()
    }

    /// Sets the bounds of a column; the dual method then repairs what no longer holds.
    pub(super) fn set_bounds(&mut self, column: usize, least: f64, most: f64) {
        let before = if self.begun { self.value(column) } else { 0.0 };
        (self.columns.least[column], self.columns.most[column]) = (least, most);
        if !self.begun {
            return;
        }
        if let Place::Basic(_) = self.places[column] {
            return;
        }
        if self.places[column] == Place::Upper && !most.is_finite() {
            self.places[column] = Place::Lower;
        }
        let moved = self.value(column) - before;
        if moved != 0.0 {
            self.shift_values(column, moved);
        }
    }

    /// How many columns there are.
    pub(super) fn columns(&self) -> usize {
        self.columns.count()
    }

    /// The bounds of a column.
    pub(super) fn bounds(&self, column: usize) -> (f64, f64) {
        (self.columns.least[column], self.columns.most[column])
    }

    /// The columns whose room between their bounds, times a number of each, is more than this.
    pub(super) fn columns_beyond(&self, times: &[f64], much: f64) -> Vec<usize> {
        self.columns.beyond(times, much)
    }

    /// The column's value.
    pub(super) fn value(&self, column: usize) -> f64 {
        match self.places[column] {
            Place::Basic(position) => self.values[position],
            Place::Lower => self.columns.least[column],
            Place::Upper => self.columns.most[column],
        }
    }

    /// Where a column stands.
    pub(super) fn place(&self, column: usize) -> Place {
        self.places[column]
    }

    /// The work done since this was last asked: about so many nanoseconds (two for each entry of an inverse worked out
    /// anew, half of one for each that a pivot changes, measured on usual batches), but the same wherever the same is done.
    pub(super) fn work(&mut self) -> u64 {
        std::mem::take(&mut self.work)
    }

    /// Cost of the current values.
    pub(super) fn cost(&self) -> f64 {
        let costs = self.columns.cost.iter().enumerate().filter(|(_, cost)| **cost != 0.0);
        costs.map(|(column, cost)| cost * self.value(column)).sum()
    }

    /// The basis, to come back to.
    pub(super) fn save(&self) -> (Vec<usize>, Vec<Place>) {
        (self.basis.clone(), self.places.clone())
    }

    /// Comes back to a saved basis, under the bounds of now.
    pub(super) fn restore(&mut self, saved: &(Vec<usize>, Vec<Place>)) -> bool {
        self.basis.clone_from(&saved.0);
        self.places.clone_from(&saved.1);
        self.leave_no_end();
        self.refresh()
    }

    /// No column stands at an upper bound that it does not have.
    fn leave_no_end(&mut self) {
        for (place, most) in self.places.iter_mut().zip(&self.columns.most) {
            if *place == Place::Upper && !most.is_finite() {
                *place = Place::Lower;
            }
        }
    }

    /// The basis with its inverse, to come back to at once as long as no row and no column is added.
    pub(super) fn mark(&self) -> Saved {
        if self.right.len() <= MARKED {
            return self.standing();
        }
        let (basis, places) = self.save();
        Saved { basis, places, inverse: Vec::new(), since_fresh: self.since_fresh }
    }

    /// Comes back to a saved basis, under the bounds of now.
    pub(super) fn back_to(&mut self, saved: &Saved) -> bool {
        if saved.inverse.len() != self.right.len() * self.right.len() {
            self.basis.clone_from(&saved.basis);
            self.places.clone_from(&saved.places);
            self.leave_no_end();
            return self.refresh();
        }
        self.stand_as(saved);
        self.leave_no_end();
        self.find_values();
        true
    }

    /// The basis with its inverse, however large.
    pub(super) fn standing(&self) -> Saved {
        let (basis, places) = self.save();
        Saved { basis, places, inverse: self.inverse.clone(), since_fresh: self.since_fresh }
    }

    fn stand_as(&mut self, saved: &Saved) {
        self.basis.clone_from(&saved.basis);
        self.places.clone_from(&saved.places);
        self.inverse.clone_from(&saved.inverse);
        self.since_fresh = saved.since_fresh;
        self.begun = true;
    }
}
