//! What the search branches on. The strips used of a blank have a row and a column that count them only where the scope
//! narrows that or as long as something is branched on it: most of those rows would ask for nothing. So it is with the
//! sheets that give some strips of a blank (sets of columns by what they make at least, Vanderbeck 2000): they decide more
//! than the copies of one layout, which others can take the place of.

use super::super::pattern::Blank;
use super::super::scope::Range;
use super::super::simplex::Place;
use super::{Counts, Program, WHOLE, real};
use std::collections::BTreeMap;

/// Most counts of sheets by what they give at the same time; a layout has room for all of them.
pub(super) const ROOM: usize = 8;
/// Most strips of a blank that sheets are told apart by.
const MOST: i64 = 3;

/// A count that can be branched on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(in crate::solve) enum Spot {
    /// Strips of one blank.
    Strips(Blank),
    /// Sheets that give so many strips of one blank, at least.
    Sheets(Blank, i64),
    /// What a column counts, if none of these.
    Column(usize),
}

/// What can be counted.
pub(super) struct Counted {
    /// The columns that are.
    pub columns: Vec<usize>,
    /// How many there may be.
    pub range: Range,
}

/// The layouts that give strips of a blank.
pub(super) struct Givers {
    /// What the strips are cut from.
    pub blank: Blank,
    /// The columns, and how many strips a sheet gives.
    pub layouts: Vec<(usize, i64)>,
}

impl Program {
    /// The counts that may not be whole, what they count, and their values.
    pub(in crate::solve) fn open(&self) -> impl Iterator<Item = (Spot, Counts, f64)> {
        let basic = |column: &usize| matches!(self.lp.place(*column), Place::Basic(_));
        let counting = self.counts.iter().enumerate().filter(|(_, counts)| **counts != Counts::Slack);
        let columns = counting.filter(move |(column, _)| basic(column));
        let columns = columns.map(|(column, counts)| {
            (self.spot_of(column).unwrap_or(Spot::Column(column)), *counts, self.lp.value(column))
        });
        let strips = |columns: &[usize]| columns.iter().map(|column| self.lp.value(*column)).sum();
        let uncounted = self.uncounted.iter();
        let all = columns
            .chain(uncounted.map(move |(blank, of)| (Spot::Strips(*blank), Counts::Strips, strips(&of.columns))));
        // Where a whole number of strips is given, spare ones are no reason to branch.
        let whole = |spot: &Spot, value: f64| match spot {
            Spot::Strips(blank) => value.ceil() <= value + self.lp.value(self.spare[blank]) + WHOLE,
            Spot::Sheets(..) | Spot::Column(_) => false,
        };
        all.filter(move |(spot, _, value)| !whole(spot, *value))
    }

    /// The sheets that give some strips of a blank and are not counted yet, and how many they are, as long as so many more
    /// can be counted.
    pub(in crate::solve) fn open_sheets(&self, more: usize) -> BTreeMap<Spot, f64> {
        let mut sheets: BTreeMap<Spot, f64> = BTreeMap::new();
        let counted = self.counted.iter().filter(|(spot, _)| matches!(spot, Spot::Sheets(..)));
        if counted.count() + more > ROOM {
            return sheets;
        }
        for (_, column) in self.layouts() {
            let copies = self.lp.value(column);
            if copies <= WHOLE {
                continue;
            }
            for (row, gives) in &self.entries[column] {
                if let Some(givers) = self.givers.get(row) {
                    for least in 1..=MOST.min(*gives) {
                        *sheets.entry(Spot::Sheets(givers.blank, least)).or_default() += copies;
                    }
                }
            }
        }
        sheets.retain(|spot, _| self.spots.iter().all(|(_, of)| of != spot));
        sheets
    }

    /// The column of a count; where there was none, it is counted from now on, and true.
    pub(in crate::solve) fn column_of(&mut self, spot: Spot) -> (usize, bool) {
        if let Spot::Column(column) = spot {
            return (column, false);
        }
        let counted = self.spots.iter().find(|(_, of)| *of == spot).map(|(column, _)| (*column, false));
        counted.unwrap_or_else(|| (self.count(spot), true))
    }

    /// Something done while all of these have columns, and all is as it was again.
    pub(in crate::solve) fn counting<T>(
        &mut self,
        spots: &[Spot],
        then: impl FnOnce(&mut Program, &[usize]) -> T,
    ) -> T {
        let counted = self.counted.len();
        let has = |spot: &Spot| matches!(spot, Spot::Column(_)) || self.spots.iter().any(|(_, of)| of == spot);
        let basis = (!spots.iter().all(has)).then(|| self.lp.standing());
        let columns: Vec<usize> = spots.iter().map(|spot| self.column_of(*spot).0).collect();
        let done = then(self, &columns);
        if let Some(basis) = basis {
            (counted..self.counted.len()).for_each(|_| self.uncount());
            self.lp.back_to(&basis);
        }
        done
    }

    /// Counts what no column counts yet, in a row of its own; the column of the count.
    fn count(&mut self, spot: Spot) -> usize {
        let counted = self.take_to_count(spot);
        let (row, column) = self.lp.count(&counted.columns, (real(counted.range.least), real(counted.range.most)));
        counted.columns.iter().for_each(|column| self.entries[*column].push((row, 1)));
        self.right.push(0);
        self.free.push(true);
        self.counts.push(Counts::Strips);
        self.cost.push(0);
        self.entries.push(vec![(row, -1)]);
        self.spots.push((column, spot));
        self.counted.push((spot, counted));
        column
    }

    fn take_to_count(&mut self, spot: Spot) -> Counted {
        match spot {
            Spot::Strips(blank) => self.uncounted.remove(&blank).expect("no column counts it yet"),
            Spot::Sheets(blank, least) => {
                let of = self.givers.values().find(|givers| givers.blank == blank).expect("some sheet gives it");
                let columns = of.layouts.iter().filter(|(_, gives)| *gives >= least).map(|(column, _)| *column);
                Counted { columns: columns.collect(), range: Range { least: 0, most: self.most_sheets } }
            }
            Spot::Column(_) => unreachable!("a column counts it"),
        }
    }

    /// No longer counts what was counted last. Before anything else is done, a basis of before must be come back to.
    pub(in crate::solve) fn uncount(&mut self) {
        let (spot, counted) = self.counted.pop().expect("it was counted");
        self.lp.uncount(&counted.columns);
        for column in &counted.columns {
            self.entries[*column].pop();
        }
        self.right.pop();
        self.free.pop();
        self.counts.pop();
        self.cost.pop();
        self.entries.pop();
        self.spots.pop();
        if let Spot::Strips(blank) = spot {
            self.uncounted.insert(blank, counted);
        }
    }

    /// How many rows count something for a while.
    pub(in crate::solve) fn counted(&self) -> usize {
        self.counted.len()
    }

    /// The columns that the last of those rows counts.
    pub(in crate::solve) fn counted_last(&self) -> &[usize] {
        let (_, counted) = self.counted.last().expect("there is one");
        &counted.columns
    }

    /// The strips, or sheets that give some, that a column counts.
    fn spot_of(&self, column: usize) -> Option<Spot> {
        let at = self.spots.binary_search_by_key(&column, |(column, _)| *column).ok()?;
        Some(self.spots[at].1)
    }
}

#[cfg(test)]
mod tests {
    use super::super::super::generate::generate;
    use super::super::super::layout::{self, Board, Layout};
    use super::super::super::master::Made;
    use super::super::super::need::Need;
    use super::super::super::scope::{Count, Scope};
    use super::super::super::simplex::Outcome;
    use super::*;
    use crate::data::{File, Source, read};
    use crate::solve::Patient;

    /// By hand: where 2.5 strips are used of 2.75 given, either two at most are used or three at least; where they are used of
    /// three given, that is no reason to branch.
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
        let (&blank, of) = program.uncounted.iter().find(|(_, of)| !of.columns.is_empty()).expect("strips are used");
        let (pattern, spare) = (of.columns[0], program.spare[&blank]);
        let narrow = scope.narrowed(Count::Strips(blank), Range { least: 1, most: 9 });
        let narrowed = Program::new(&problem, &need, &narrow, (&pool, &[]), target);
        assert_eq!(narrowed.right.len(), program.right.len() + 1, "one row is the count");
        assert!(!narrowed.uncounted.contains_key(&blank));

        let others: Vec<usize> = of.columns[1..].to_vec();
        let mut is_open = |used: f64, left: f64| {
            let fixed = others.iter().map(|other| (*other, 0.0)).chain([(pattern, used), (spare, left)]);
            fixed.for_each(|(column, value)| program.lp.set_bounds(column, value, value));
            assert_eq!(program.lp.dual(f64::INFINITY), Outcome::Optimal);
            program.open().any(|(spot, ..)| spot == Spot::Strips(blank))
        };
        assert_eq!([is_open(2.5, 0.25), is_open(2.5, 0.5)], [true, false]);

        let before = (program.right.clone(), program.entries.clone(), program.counts.clone());
        let (column, counted) = program.column_of(Spot::Strips(blank));
        assert!(counted && program.spot_of(column) == Some(Spot::Strips(blank)));
        assert_eq!(program.column_of(Spot::Strips(blank)), (column, false), "it is counted now");
        assert_eq!(program.entries[pattern].last(), Some(&(before.0.len(), 1)));
        program.uncount();
        assert_eq!((program.right.clone(), program.entries.clone(), program.counts.clone()), before);
        assert!(program.uncounted.contains_key(&blank));
    }

    /// Layouts of one sheet that give 16 in. strips and others, by hand: of half a sheet with three, a quarter with two and
    /// one and a quarter with one, half give three, three quarters two and two one.
    #[test]
    fn sheets_are_counted_by_how_many_strips_they_give_at_least() {
        let text = "[[sheet]]\nlength = 96\nwidth = 96\nprice = 38.50\n\
                    [[panel]]\nsize = \"16 x 20\"\ncount = 90\ngrain = \"upright\"\n\
                    [[panel]]\nsize = \"24 x 30\"\ncount = 9\ngrain = \"upright\"\n[yard]\nrips = \"along\"\n";
        let job = read(&Source { job: File::of("batch", text), list: None, rack: None }).expect("it is sound");
        let problem = crate::model::build(&job).expect("they can be made");
        let need = Need::of(&problem);
        let (ripping, scope) = (&problem.rippings[0], Scope::all(&problem, &need, None));
        let ripped = |strips: Vec<(usize, u32)>| {
            let board = Board { length: ripping.board.raw(), strips };
            Made::Layout(Layout { ripping: 0, boards: vec![board] })
        };
        let mut pool = generate(&problem, &need, &[], &Patient).found;
        pool.retain(|made| matches!(made, Made::Pattern(_)));
        pool.extend([vec![(0, 3)], vec![(0, 2), (1, 2)], vec![(0, 1), (1, 3)], vec![(1, 3)]].map(ripped));
        let mut program = Program::new(&problem, &need, &scope, (&pool, &[]), 90 * problem.charges.sheets[0]);
        let layouts: Vec<usize> = program.layouts().map(|(_, column)| column).collect();
        let copies = [0.5, 0.25, 1.25, 1.0];
        for (column, copies) in layouts.iter().zip(copies) {
            program.lp.set_bounds(*column, copies, copies);
        }
        program.lp.begin_with(&[]);
        let blank = layout::blank(ripping, ripping.board.raw(), 0);
        let of = |open: &BTreeMap<Spot, f64>, least: i64| open.get(&Spot::Sheets(blank, least)).copied();
        let open = program.open_sheets(1);
        assert_eq!([1, 2, 3, 4].map(|least| of(&open, least)), [Some(2.0), Some(0.75), Some(0.5), None]);

        let before = (program.right.clone(), program.entries.clone(), program.counts.clone());
        let (column, counted) = program.column_of(Spot::Sheets(blank, 2));
        assert!(counted && program.spot_of(column) == Some(Spot::Sheets(blank, 2)));
        assert!((program.lp.value(column) - 0.75).abs() < 1e-9);
        assert_eq!(program.lp.bounds(column), (0.0, 99.0), "up to a sheet for each of the 90 and 9 panels");
        assert_eq!(program.counted_last(), &layouts[..2]);
        assert_eq!(of(&program.open_sheets(1), 2), None, "it is counted now");
        assert_eq!((program.open_sheets(ROOM).len(), program.open_sheets(ROOM - 1).len() > 1), (0, true));
        program.uncount();
        assert_eq!((program.right.clone(), program.entries.clone(), program.counts.clone()), before);
        assert!(of(&program.open_sheets(1), 2).is_some());
    }
}
