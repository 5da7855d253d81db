//! The columns outside the basis that can move, of which the dual method chooses the one that enters: what each costs above
//! its worth, kept up to date from pivot to pivot. They lie in lists side by side, as each pivot goes through all of them.

use super::sums::{Leaf, Sums};
use super::{PIVOT, Place, Simplex};

/// What a reduced cost may be off by.
const LITTLE: f64 = 1e-9;

/// The columns.
#[derive(Clone, Debug, Default)]
pub(super) struct Free {
    columns: Vec<usize>,
    /// Which way each can move: up, down or, as a bound has moved, not at all.
    ways: Vec<f64>,
    /// What the cost of each is above its worth.
    reduced: Vec<f64>,
    /// What a line comes to in each.
    leaves: Vec<Leaf>,
    sums: Sums,
    /// Where the entries of the last one stand among those steps.
    path: Vec<u32>,
    /// What each does to the basic column that leaves.
    parts: Vec<f64>,
    /// Those whose move brings it back to its bound: their places in the lists, and how much they help.
    helping: Vec<(usize, f64)>,
}

impl Free {
    /// Those of now, and what they cost, in the same lists.
    pub(super) fn renew(&mut self, lp: &Simplex) {
        self.columns.clear();
        self.ways.clear();
        self.reduced.clear();
        self.leaves.clear();
        self.path.clear();
        self.sums.back_to(0);
        let mut alike = 0;
        for column in 0..lp.columns.count() {
            alike = alike.min(lp.columns.alike(column));
            if let Some(way) = lp.way(column) {
                let leaf = self.sums.follow(&mut self.path, lp.columns.entries(column), alike);
                self.push(column, way, leaf);
                alike = usize::MAX;
            }
        }
        self.begin(lp);
    }

    /// How many there are.
    pub(super) fn count(&self) -> usize {
        self.columns.len()
    }

    /// The column at a place in the lists.
    pub(super) fn column(&self, place: usize) -> usize {
        self.columns[place]
    }

    /// What the column at a place does to the one that leaves.
    pub(super) fn part(&self, place: usize) -> f64 {
        self.parts[place]
    }

    /// What follows from the inverse as it is now.
    pub(super) fn begin(&mut self, lp: &Simplex) {
        let prices = lp.prices();
        let steps = self.sums.of(&prices);
        for (reduced, (column, leaf)) in self.reduced.iter_mut().zip(self.columns.iter().zip(&self.leaves)) {
            *reduced = lp.columns.cost[*column] - leaf.of(steps, &prices);
        }
    }

    /// Begins anew as another began, in the same lists.
    pub(super) fn begin_as(&mut self, other: &Free) {
        self.columns.clone_from(&other.columns);
        self.ways.clone_from(&other.ways);
        self.reduced.clone_from(&other.reduced);
        self.leaves.clone_from(&other.leaves);
        self.sums.back_to(other.sums.steps());
    }

    /// The bounds of a column outside the basis have moved.
    pub(super) fn moved(&mut self, lp: &Simplex, column: usize) {
        let way = lp.way(column);
        if let Some(place) = self.columns.iter().position(|of| *of == column) {
            self.ways[place] = way.unwrap_or(0.0);
        } else if let Some(way) = way {
            let leaf = self.sums.add(lp.columns.entries(column));
            self.push(column, way, leaf);
            self.reduced[self.columns.len() - 1] = lp.reduced(column, &lp.prices());
        }
    }

    /// Of the columns whose move brings the leaving one, with this line of the inverse, back to its bound, the first to
    /// stand at its worth as prices move; of those that come so soon, but for a little, the one that helps most (Harris
    /// 1973). Its place in the lists.
    pub(super) fn entering(&mut self, line: &[f64], sign: f64) -> Option<usize> {
        let (steps, many) = (self.sums.of(line), self.leaves.len());
        // Which help cannot be foretold, so each is put down, to be written over where it does not: quicker than to ask.
        self.parts.resize(many, 0.0);
        if self.helping.len() < many {
            self.helping.resize(many, (0, 0.0));
        }
        let (helping, mut count) = (&mut self.helping[..many], 0);
        let all = self.leaves.iter().zip(&self.ways).zip(&mut self.parts);
        for (at, ((leaf, way), part)) in all.enumerate() {
            *part = leaf.of(steps, line);
            let helps = way * *part * sign;
            helping[count] = (at, helps);
            count += usize::from(helps > PIVOT);
        }
        let (helping, reduced) = (&helping[..count], self.reduced.as_slice());
        // The first as a fraction: dividing for each would take as long as all else.
        let mut first = (f64::INFINITY, 1.0);
        for (at, helps) in helping {
            let far = reduced[*at].abs() + LITTLE;
            if far * first.1 < first.0 * helps {
                first = (far, *helps);
            }
        }
        let soonest = first.0 / first.1;
        let mut best: Option<(usize, f64)> = None;
        for (at, helps) in helping {
            if reduced[*at].abs() <= soonest * helps && best.is_none_or(|(_, most)| *helps > most) {
                best = Some((*at, *helps));
            }
        }
        best.map(|(at, _)| at)
    }

    /// The column at this place in the lists has come into the basis, and another has left it: prices have moved, by how
    /// much along the line of that.
    pub(super) fn swap(&mut self, lp: &Simplex, place: usize, leaving: usize) -> f64 {
        let theta = self.reduced[place] / self.parts[place];
        self.reduced.iter_mut().zip(&self.parts).for_each(|(reduced, part)| *reduced -= theta * part);
        if let Some(way) = lp.way(leaving) {
            self.columns[place] = leaving;
            self.ways[place] = way;
            self.reduced[place] = -theta;
            self.leaves[place] = self.sums.add(lp.columns.entries(leaving));
        } else {
            self.columns.swap_remove(place);
            self.ways.swap_remove(place);
            self.reduced.swap_remove(place);
            self.leaves.swap_remove(place);
        }
        theta
    }

    fn push(&mut self, column: usize, way: f64, leaf: Leaf) {
        self.columns.push(column);
        self.ways.push(way);
        self.reduced.push(0.0);
        self.leaves.push(leaf);
    }
}

impl Simplex {
    /// Which way a column can move; none where it is in the basis or has no room.
    fn way(&self, column: usize) -> Option<f64> {
        let way = if self.places[column] == Place::Upper { -1.0 } else { 1.0 };
        self.moves(column).then_some(way)
    }
}

#[cfg(test)]
mod tests {
    use super::super::{Column, Outcome};
    use super::*;
    use proptest::prelude::*;

    const ROWS: usize = 4;

    /// Columns from 0 to 10, many of which begin alike, that come to at least so much in each row.
    fn program(columns: &[(u8, Vec<u8>)], right: &[u8]) -> Simplex {
        let mut lp = Simplex::default();
        for right in right {
            lp.add_row(&[], f64::from(*right), (0.0, f64::INFINITY));
        }
        for (cost, parts) in columns {
            let entries = parts.iter().enumerate().map(|(row, part)| (row, f64::from(*part)));
            let entries = entries.filter(|(_, part)| *part != 0.0).collect();
            lp.add_column(&Column { entries, cost: f64::from(*cost), least: 0.0, most: 10.0 });
        }
        lp
    }

    /// By hand: of three that cost 3, 8 and 1 above their worth, which moves by 1, 4 and a half, the second and the third
    /// come first, both after 2, and the second helps more.
    #[test]
    fn of_those_that_come_soonest_the_one_that_helps_most_enters() {
        let entries = |part: f64| vec![(0, part)];
        let mut lp = Simplex::default();
        lp.add_row(&[], 1.0, (0.0, f64::INFINITY));
        for (cost, part) in [(3.0, 1.0), (8.0, 4.0), (1.0, 0.5)] {
            lp.add_column(&Column { entries: entries(part), cost, least: 0.0, most: 10.0 });
        }
        lp.begin();
        let mut free = Free::default();
        free.renew(&lp);
        let place = free.entering(&[-1.0], -1.0).expect("all help");
        assert_eq!((free.column(place), free.count()), (2, 3));
        assert!((free.part(place) + 4.0).abs() < 1e-12);
        assert_eq!(free.entering(&[-1.0], 1.0), None, "none brings it down");
    }

    proptest! {
        #[test]
        fn what_is_kept_from_pivot_to_pivot_is_what_follows_from_the_basis(
            columns in prop::collection::vec((1_u8..9, prop::collection::vec(0_u8..3, ROWS)), 3..12),
            right in prop::collection::vec(1_u8..20, ROWS),
        ) {
            let mut sorted = columns.clone();
            sorted.sort_by(|(_, one), (_, other)| one.cmp(other));
            let mut lp = program(&sorted, &right);
            lp.begin();
            let mut free = Free::default();
            free.renew(&lp);
            for _ in 0..20 {
                let below = |position: &usize| lp.values[*position] < lp.bounds(lp.basis[*position]).0 - 1e-9;
                let Some(position) = (0..ROWS).find(below) else { break };
                let Some(place) = free.entering(lp.inverse_line(position), -1.0) else { break };
                let (column, leaving) = (free.column(place), lp.basis[position]);
                let alpha = lp.transformed(column);
                prop_assert!((alpha[position] - free.part(place)).abs() < 1e-7);
                let step = lp.values[position] / alpha[position];
                lp.values.iter_mut().zip(&alpha).for_each(|(value, part)| *value -= step * part);
                lp.places[leaving] = Place::Lower;
                lp.pivot(column, position, &alpha);
                lp.values[position] = step;
                free.swap(&lp, place, leaving);

                let mut anew = Free::default();
                anew.renew(&lp);
                let of = |free: &Free| {
                    let mut all: Vec<(usize, f64)> = free.columns.iter().copied().zip(free.reduced.iter().copied()).collect();
                    all.sort_by_key(|(column, _)| *column);
                    all
                };
                let (kept, anew) = (of(&free), of(&anew));
                prop_assert_eq!(kept.len(), anew.len());
                for (kept, anew) in kept.iter().zip(&anew) {
                    prop_assert_eq!(kept.0, anew.0);
                    prop_assert!((kept.1 - anew.1).abs() < 1e-7, "{:?} for {:?}", kept, anew);
                }
            }
        }

        #[test]
        fn lists_filled_anew_are_as_good_as_new_ones(
            columns in prop::collection::vec((1_u8..9, prop::collection::vec(0_u8..3, ROWS)), 3..12),
            right in prop::collection::vec(1_u8..20, ROWS),
            fixed in prop::collection::vec(any::<bool>(), 12),
        ) {
            let mut lp = program(&columns, &right);
            lp.begin();
            let (mut free, mut anew) = (Free::default(), Free::default());
            free.renew(&lp);
            free.entering(&[1.0, -2.0, 3.0, -4.0], 1.0);
            for (at, _) in fixed.iter().enumerate().filter(|(at, fixed)| **fixed && *at < columns.len()) {
                lp.set_bounds(ROWS + at, 0.0, 0.0);
            }
            free.renew(&lp);
            anew.renew(&lp);
            let line = [1.5, -1.0, 0.5, -2.0];
            prop_assert_eq!(free.entering(&line, 1.0), anew.entering(&line, 1.0));
            prop_assert_eq!(&free.columns, &anew.columns);
            for (place, column) in free.columns.iter().enumerate() {
                let part: f64 = lp.columns.entries(*column).iter().map(|(row, part)| line[*row] * part).sum();
                prop_assert!((free.parts[place] - part).abs() < 1e-9);
            }
        }
    }

    #[test]
    fn what_begins_anew_as_another_keeps_nothing_of_what_was_done_since() {
        let mut lp = program(&[(3, vec![1, 2, 0, 2]), (2, vec![1, 0, 1, 0])], &[4, 3, 2, 5]);
        lp.begin();
        let mut from = Free::default();
        from.renew(&lp);
        let mut free = from.clone();
        let place = free.entering(&[-1.0, 0.0, 0.0, 0.0], -1.0).expect("both help");
        let leaving = free.column(1 - place);
        free.swap(&lp, place, leaving);
        assert!(free.sums.steps() > from.sums.steps() && free.reduced != from.reduced);
        free.begin_as(&from);
        assert_eq!(free.sums.steps(), from.sums.steps());
        assert_eq!((&free.columns, &free.reduced), (&from.columns, &from.reduced));
    }

    #[test]
    fn a_program_that_was_solved_has_no_column_that_would_save() {
        let mut lp = program(&[(3, vec![1, 0, 0, 2]), (2, vec![1, 0, 1, 0]), (5, vec![0, 2, 1, 1])], &[4, 3, 2, 5]);
        assert_eq!(lp.dual(f64::INFINITY), Outcome::Optimal);
        let mut free = Free::default();
        free.renew(&lp);
        assert!(free.reduced.iter().zip(&free.ways).all(|(reduced, way)| reduced * way >= -1e-9));
    }
}
