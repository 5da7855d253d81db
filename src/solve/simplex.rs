//! A linear program that grows: the bounded simplex method, primal where columns are added and dual where bounds
//! move, with an explicit inverse of the basis. Rows are few (at most a few hundred) and columns sparse.
//!
//! Minimises cost x over rows `a x - slack = right` with bounds on every column. Its answers are floating point and
//! prove nothing: the search and the bound take its prices and judge them in whole numbers.

const FEASIBLE: f64 = 1e-8;
const OPTIMAL: f64 = 1e-9;
const PIVOT: f64 = 1e-9;
/// Pivots between two fresh inverses.
const REFRESH: usize = 80;

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
    columns: Vec<Column>,
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
        for (column, coefficient) in entries {
            self.columns[*column].entries.push((row, *coefficient));
        }
        let slack = self.columns.len();
        self.slacks.push(slack);
        let entries_of = vec![(row, -1.0)];
        self.columns.push(Column { entries: entries_of, cost: 0.0, least: bounds.0, most: bounds.1 });
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

    /// The inverse of the slacks of all rows so far, if nothing was done yet: many rows at once cost no more than one.
    fn begin(&mut self) {
        if !self.begun {
            self.begun = true;
            let rows = self.right.len();
            self.inverse = vec![0.0; rows * rows];
            (0..rows).for_each(|row| self.inverse[row * rows + row] = -1.0);
            self.find_values();
        }
    }

    fn grow_inverse(&mut self, entries: &[(usize, f64)]) {
        let new = self.right.len();
        let old = new - 1;
        let mut inverse = vec![0.0; new * new];
        for position in 0..old {
            inverse[position * new..position * new + old]
                .copy_from_slice(&self.inverse[position * old..(position + 1) * old]);
        }
        for (column, coefficient) in entries {
            if let Place::Basic(position) = self.places[*column] {
                for row in 0..old {
                    inverse[old * new + row] += coefficient * self.inverse[position * old + row];
                }
            }
        }
        inverse[new * new - 1] = -1.0;
        self.inverse = inverse;
    }

    /// Adds a column at its lower bound.
    pub(super) fn add_column(&mut self, column: Column) -> usize {
        let moved = (self.begun && column.least != 0.0).then(|| column.clone());
        self.columns.push(column);
        self.places.push(Place::Lower);
        if let Some(moved) = moved {
            self.shift_values(&moved, moved.least);
        }
        self.columns.len() - 1
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

    /// Starts from the rows' slacks, but for some rows, where another column is basic in the slack's place: (row, column).
    /// False where that is no basis.
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
        self.columns[column].least = least;
        self.columns[column].most = most;
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
            let entries = self.columns[column].clone();
            self.shift_values(&entries, moved);
        }
    }

    /// The bounds of a column.
    pub(super) fn bounds(&self, column: usize) -> (f64, f64) {
        (self.columns[column].least, self.columns[column].most)
    }

    /// The column's value.
    pub(super) fn value(&self, column: usize) -> f64 {
        match self.places[column] {
            Place::Basic(position) => self.values[position],
            Place::Lower => self.columns[column].least,
            Place::Upper => self.columns[column].most,
        }
    }

    /// Where a column stands.
    pub(super) fn place(&self, column: usize) -> Place {
        self.places[column]
    }

    /// The price of each row.
    pub(super) fn prices(&self) -> Vec<f64> {
        let rows = self.right.len();
        let mut prices = vec![0.0; rows];
        for (position, column) in self.basis.iter().enumerate() {
            let cost = self.columns[*column].cost;
            if cost != 0.0 {
                let line = &self.inverse[position * rows..(position + 1) * rows];
                prices.iter_mut().zip(line).for_each(|(price, part)| *price += cost * part);
            }
        }
        prices
    }

    /// Cost of the current values.
    pub(super) fn cost(&self) -> f64 {
        (0..self.columns.len()).map(|column| self.columns[column].cost * self.value(column)).sum()
    }

    /// The basis, to come back to.
    pub(super) fn save(&self) -> (Vec<usize>, Vec<Place>) {
        (self.basis.clone(), self.places.clone())
    }

    /// Comes back to a saved basis, under the bounds of now.
    pub(super) fn restore(&mut self, saved: &(Vec<usize>, Vec<Place>)) -> bool {
        self.basis.clone_from(&saved.0);
        self.places.clone_from(&saved.1);
        for column in 0..self.columns.len() {
            if self.places[column] == Place::Upper && !self.columns[column].most.is_finite() {
                self.places[column] = Place::Lower;
            }
        }
        self.refresh()
    }

    /// The basis with its inverse, to come back to at once as long as no row and no column is added.
    pub(super) fn mark(&self) -> Saved {
        Saved {
            basis: self.basis.clone(),
            places: self.places.clone(),
            inverse: if self.right.len() <= MARKED { self.inverse.clone() } else { Vec::new() },
            since_fresh: self.since_fresh,
        }
    }

    /// Comes back to a saved basis, under the bounds of now.
    pub(super) fn back_to(&mut self, saved: &Saved) -> bool {
        self.basis.clone_from(&saved.basis);
        self.places.clone_from(&saved.places);
        for column in 0..self.columns.len() {
            if self.places[column] == Place::Upper && !self.columns[column].most.is_finite() {
                self.places[column] = Place::Lower;
            }
        }
        if saved.inverse.len() != self.right.len() * self.right.len() {
            return self.refresh();
        }
        self.inverse.clone_from(&saved.inverse);
        self.since_fresh = saved.since_fresh;
        self.find_values();
        true
    }

    /// Runs the primal method from a basis that meets the rows.
    pub(super) fn primal(&mut self) -> Outcome {
        self.begin();
        let (mut still, most) = (0, 20_000 + 50 * self.right.len());
        for _ in 0..most {
            let prices = self.prices();
            let Some((column, falls)) = self.entering(&prices, still > 300) else { return Outcome::Optimal };
            let alpha = self.transformed(column);
            let (step, leaving) = self.ratio(column, falls, &alpha, still > 300);
            if !step.is_finite() {
                return Outcome::Lost;
            }
            still = if step > 1e-10 { 0 } else { still + 1 };
            self.advance(column, falls, step, leaving, &alpha);
            if !self.keep_fresh() {
                return Outcome::Lost;
            }
        }
        Outcome::Lost
    }

    /// Runs the dual method from a basis that is optimal but for bounds that moved; stops when the cost passes `limit`.
    pub(super) fn dual(&mut self, limit: f64) -> Outcome {
        self.dual_for(limit, 5_000 + 20 * self.right.len())
    }

    /// The cost that so many pivots of the dual method come to where a column's bounds move; all stays as it is.
    pub(super) fn probe(&mut self, column: usize, (least, most): (f64, f64), limit: f64, pivots: usize) -> f64 {
        let bounds = self.bounds(column);
        let (basis, places, since_fresh) = (self.basis.clone(), self.places.clone(), self.since_fresh);
        let (inverse, values) = (self.inverse.clone(), self.values.clone());
        self.set_bounds(column, least, most);
        let outcome = self.dual_for(limit, pivots);
        let cost = if matches!(outcome, Outcome::Infeasible(_)) { limit } else { self.cost() };
        self.columns[column].least = bounds.0;
        self.columns[column].most = bounds.1;
        (self.basis, self.places, self.since_fresh) = (basis, places, since_fresh);
        (self.inverse, self.values) = (inverse, values);
        cost
    }

    fn dual_for(&mut self, limit: f64, most: usize) -> Outcome {
        self.begin();
        let mut reduced = self.all_reduced();
        for turn in 0..most {
            let Some((position, below)) = self.broken() else { return Outcome::Optimal };
            if turn % 8 == 7 && self.cost() > limit {
                return Outcome::PastLimit;
            }
            let parts = self.line(position);
            let Some(column) = self.dual_entering(&parts, &reduced, below) else {
                let (rows, sign) = (self.right.len(), if below { -1.0 } else { 1.0 });
                let line = &self.inverse[position * rows..(position + 1) * rows];
                return Outcome::Infeasible(line.iter().map(|part| part * sign).collect());
            };
            let alpha = self.transformed(column);
            let theta = reduced[column] / parts[column];
            let leaving = self.basis[position];
            self.dual_advance(column, position, below, &alpha);
            if self.since_fresh >= REFRESH {
                if !self.refresh() {
                    return Outcome::Lost;
                }
                reduced = self.all_reduced();
            } else {
                reduced.iter_mut().zip(&parts).for_each(|(reduced, part)| *reduced -= theta * part);
                (reduced[column], reduced[leaving]) = (0.0, -theta);
            }
        }
        Outcome::Lost
    }

    /// What each column's cost is above its worth; nothing for those in the basis.
    fn all_reduced(&self) -> Vec<f64> {
        let prices = self.prices();
        let basic = |column: usize| matches!(self.places[column], Place::Basic(_));
        (0..self.columns.len()).map(|column| if basic(column) { 0.0 } else { self.reduced(column, &prices) }).collect()
    }

    /// What each column that can move does to the basic column at a position; nothing for the others.
    fn line(&self, position: usize) -> Vec<f64> {
        let rows = self.right.len();
        let line = &self.inverse[position * rows..(position + 1) * rows];
        let part = |(data, place): (&Column, &Place)| match place {
            Place::Basic(_) => 0.0,
            Place::Lower | Place::Upper => data.entries.iter().map(|(row, part)| line[*row] * part).sum(),
        };
        self.columns.iter().zip(&self.places).map(part).collect()
    }

    fn reduced(&self, column: usize, prices: &[f64]) -> f64 {
        let column = &self.columns[column];
        column.cost - column.entries.iter().map(|(row, part)| prices[*row] * part).sum::<f64>()
    }

    /// The column whose move saves most (or the first that saves), and whether it falls from its upper bound.
    fn entering(&self, prices: &[f64], first: bool) -> Option<(usize, bool)> {
        let mut best: Option<(usize, bool, f64)> = None;
        for column in 0..self.columns.len() {
            let bounds = &self.columns[column];
            if matches!(self.places[column], Place::Basic(_)) || bounds.least >= bounds.most {
                continue;
            }
            let reduced = self.reduced(column, prices);
            let falls = self.places[column] == Place::Upper;
            let gain = if falls { reduced } else { -reduced };
            if gain > OPTIMAL && best.is_none_or(|(_, _, most)| gain > most) {
                best = Some((column, falls, gain));
                if first {
                    break;
                }
            }
        }
        best.map(|(column, falls, _)| (column, falls))
    }

    /// How far the column can move, and the position that then leaves (none where it reaches its other bound).
    fn ratio(&self, column: usize, falls: bool, alpha: &[f64], first: bool) -> (f64, Option<usize>) {
        let own = self.columns[column].most - self.columns[column].least;
        let (mut step, mut leaving, mut strongest) = (own, None, 0.0);
        for (position, part) in alpha.iter().enumerate() {
            let rate = if falls { *part } else { -part };
            if rate.abs() <= PIVOT {
                continue;
            }
            let bounds = &self.columns[self.basis[position]];
            let to = if rate < 0.0 { bounds.least } else { bounds.most };
            if !to.is_finite() {
                continue;
            }
            let far = ((to - self.values[position]) / rate).max(0.0);
            let ties = (far - step).abs() <= 1e-10;
            let stronger = if first {
                leaving.is_none_or(|at: usize| self.basis[position] < self.basis[at])
            } else {
                rate.abs() > strongest
            };
            if far < step - 1e-10 || (ties && stronger) {
                (step, leaving, strongest) = (far.min(step), Some(position), rate.abs());
            }
        }
        (step, leaving)
    }

    fn advance(&mut self, column: usize, falls: bool, step: f64, leaving: Option<usize>, alpha: &[f64]) {
        let signed = if falls { -step } else { step };
        let reached = self.value(column) + signed;
        for (value, part) in self.values.iter_mut().zip(alpha) {
            *value -= signed * part;
        }
        let Some(position) = leaving else {
            self.places[column] = if falls { Place::Lower } else { Place::Upper };
            return;
        };
        let rate = if falls { alpha[position] } else { -alpha[position] };
        let out = self.basis[position];
        self.places[out] = if rate < 0.0 { Place::Lower } else { Place::Upper };
        self.pivot(column, position, alpha);
        self.values[position] = reached;
    }

    /// The basis position furthest outside its bounds, and whether it is below them.
    fn broken(&self) -> Option<(usize, bool)> {
        let mut worst: Option<(usize, bool, f64)> = None;
        for (position, value) in self.values.iter().enumerate() {
            let bounds = &self.columns[self.basis[position]];
            let (under, over) = (bounds.least - value, value - bounds.most);
            let far = under.max(over);
            if far > FEASIBLE && worst.is_none_or(|(_, _, most)| far > most) {
                worst = Some((position, under > over, far));
            }
        }
        worst.map(|(position, below, _)| (position, below))
    }

    fn dual_entering(&self, parts: &[f64], reduced: &[f64], below: bool) -> Option<usize> {
        let mut best: Option<(usize, f64, f64)> = None;
        for (column, part) in parts.iter().enumerate() {
            let helps = if below { -part } else { *part };
            let helps = if self.places[column] == Place::Upper { -helps } else { helps };
            if helps <= PIVOT || self.columns[column].least >= self.columns[column].most {
                continue;
            }
            let ratio = reduced[column].abs() / helps;
            let better = best.is_none_or(|(_, least, strength)| {
                ratio < least - 1e-12 || (ratio <= least + 1e-12 && helps > strength)
            });
            if better {
                best = Some((column, ratio, helps));
            }
        }
        best.map(|(column, _, _)| column)
    }

    fn dual_advance(&mut self, column: usize, position: usize, below: bool, alpha: &[f64]) {
        let out = self.basis[position];
        let to = if below { self.columns[out].least } else { self.columns[out].most };
        let step = (self.values[position] - to) / alpha[position];
        let reached = self.value(column) + step;
        for (value, part) in self.values.iter_mut().zip(alpha) {
            *value -= step * part;
        }
        self.places[out] = if below { Place::Lower } else { Place::Upper };
        self.pivot(column, position, alpha);
        self.values[position] = reached;
    }

    /// The column in terms of the basis.
    fn transformed(&self, column: usize) -> Vec<f64> {
        let rows = self.right.len();
        let entries = &self.columns[column].entries;
        let at = |position: usize| entries.iter().map(|(row, part)| self.inverse[position * rows + row] * part).sum();
        (0..rows).map(at).collect()
    }

    fn pivot(&mut self, column: usize, position: usize, alpha: &[f64]) {
        let rows = self.right.len();
        let pivot = alpha[position];
        let line: Vec<f64> =
            self.inverse[position * rows..(position + 1) * rows].iter().map(|part| part / pivot).collect();
        for (at, part) in alpha.iter().enumerate() {
            let target = &mut self.inverse[at * rows..(at + 1) * rows];
            if at == position {
                target.copy_from_slice(&line);
            } else if *part != 0.0 {
                target.iter_mut().zip(&line).for_each(|(to, from)| *to -= part * from);
            }
        }
        self.basis[position] = column;
        self.places[column] = Place::Basic(position);
        self.since_fresh += 1;
    }

    fn shift_values(&mut self, column: &Column, moved: f64) {
        let rows = self.right.len();
        for position in 0..self.values.len() {
            let line = &self.inverse[position * rows..(position + 1) * rows];
            self.values[position] -= moved * column.entries.iter().map(|(row, part)| line[*row] * part).sum::<f64>();
        }
    }

    fn keep_fresh(&mut self) -> bool {
        self.since_fresh < REFRESH || self.refresh()
    }

    /// Inverts the basis anew; false where it cannot be inverted.
    fn refresh(&mut self) -> bool {
        self.begun = true;
        let rows = self.right.len();
        let mut matrix = vec![0.0; rows * rows];
        for (position, column) in self.basis.iter().enumerate() {
            for (row, part) in &self.columns[*column].entries {
                matrix[row * rows + position] = *part;
            }
        }
        let Some(inverse) = invert(matrix, rows) else { return false };
        self.inverse = inverse;
        self.since_fresh = 0;
        self.find_values();
        true
    }

    /// The values of the basic columns from those of the others.
    fn find_values(&mut self) {
        let rows = self.right.len();
        let mut rest = self.right.clone();
        for (column, data) in self.columns.iter().enumerate() {
            let value = match self.places[column] {
                Place::Basic(_) => continue,
                Place::Lower => data.least,
                Place::Upper => data.most,
            };
            if value != 0.0 {
                data.entries.iter().for_each(|(row, part)| rest[*row] -= part * value);
            }
        }
        let line = |position: usize| &self.inverse[position * rows..(position + 1) * rows];
        self.values = (0..rows).map(|at| line(at).iter().zip(&rest).map(|(part, right)| part * right).sum()).collect();
    }
}

/// The inverse of a square matrix by elimination with the largest pivot of each column.
fn invert(mut matrix: Vec<f64>, size: usize) -> Option<Vec<f64>> {
    let mut inverse = vec![0.0; size * size];
    (0..size).for_each(|at| inverse[at * size + at] = 1.0);
    for at in 0..size {
        let largest = |a: &usize, b: &usize| matrix[a * size + at].abs().total_cmp(&matrix[b * size + at].abs());
        let pivot_row = (at..size).max_by(largest)?;
        if matrix[pivot_row * size + at].abs() < 1e-11 {
            return None;
        }
        for column in 0..size {
            matrix.swap(at * size + column, pivot_row * size + column);
            inverse.swap(at * size + column, pivot_row * size + column);
        }
        let pivot = matrix[at * size + at];
        (at..size).for_each(|column| matrix[at * size + column] /= pivot);
        (0..size).for_each(|column| inverse[at * size + column] /= pivot);
        for row in (0..size).filter(|row| *row != at) {
            let factor = matrix[row * size + at];
            if factor != 0.0 {
                (at..size).for_each(|column| matrix[row * size + column] -= factor * matrix[at * size + column]);
                (0..size).for_each(|column| inverse[row * size + column] -= factor * inverse[at * size + column]);
            }
        }
    }
    Some(inverse)
}
