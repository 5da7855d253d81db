//! What the search branches on. The strips used of a blank have a row and a column that count them only where the scope
//! narrows that or as long as something is branched on it: most of those rows would ask for nothing.

use super::super::pattern::Blank;
use super::super::scope::Range;
use super::super::simplex::Place;
use super::{Counts, Program, WHOLE, real};

/// A count that can be branched on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(in crate::solve) enum Spot {
    /// Strips of one blank.
    Strips(Blank),
    /// What a column counts, if not strips.
    Column(usize),
}

/// The strips used of a blank.
pub(super) struct Used {
    /// The columns of their patterns.
    pub patterns: Vec<usize>,
    /// How many there may be.
    pub range: Range,
}

impl Program {
    /// The counts that may not be whole, what they count, and their values.
    pub(in crate::solve) fn open(&self) -> impl Iterator<Item = (Spot, Counts, f64)> {
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
    pub(in crate::solve) fn column_of(&mut self, spot: Spot) -> (usize, bool) {
        match spot {
            Spot::Column(column) => (column, false),
            Spot::Strips(blank) => {
                let counted = self.strips.iter().find(|(_, of)| *of == blank).map(|(column, _)| (*column, false));
                counted.unwrap_or_else(|| (self.count(blank), true))
            }
        }
    }

    /// Something done while all of these have columns, and all is as it was again.
    pub(in crate::solve) fn counting<T>(
        &mut self,
        spots: &[Spot],
        then: impl FnOnce(&mut Program, &[usize]) -> T,
    ) -> T {
        let counted = self.counted.len();
        let lacks = |spot: &Spot| matches!(spot, Spot::Strips(blank) if self.uncounted.contains_key(blank));
        let basis = spots.iter().any(lacks).then(|| self.lp.standing());
        let columns: Vec<usize> = spots.iter().map(|spot| self.column_of(*spot).0).collect();
        let done = then(self, &columns);
        if let Some(basis) = basis {
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
    pub(in crate::solve) fn uncount(&mut self) {
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

    /// How many rows count strips for a while.
    pub(in crate::solve) fn counted(&self) -> usize {
        self.counted.len()
    }

    /// The columns of the patterns that the last of those rows counts.
    pub(in crate::solve) fn counted_last(&self) -> &[usize] {
        let (_, counted) = self.counted.last().expect("there is one");
        &counted.patterns
    }

    /// The blank whose strips a column counts.
    fn blank_of(&self, column: usize) -> Option<Blank> {
        let at = self.strips.binary_search_by_key(&column, |(column, _)| *column).ok()?;
        Some(self.strips[at].1)
    }
}

#[cfg(test)]
mod tests {
    use super::super::super::generate::generate;
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
