//! The part of all plans that one node of the search looks at: how many sheets of each kind, how many ripped each way,
//! how many strips of a width are crosscut. Branching narrows these counts and never single layouts or patterns, which
//! are far too many and too alike.

use super::need::Need;
use super::pattern::Blank;
use crate::model::Problem;
use std::collections::BTreeMap;

/// From `least` to `most`, both included; empty where `least` is above `most`.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Range {
    /// No fewer.
    pub least: i64,
    /// No more.
    pub most: i64,
}

impl Range {
    /// Just one number.
    pub(super) fn is_fixed(self) -> bool {
        self.least == self.most
    }
}

/// A count that branching narrows.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Count {
    /// Sheets of a kind.
    Kind(usize),
    /// Sheets of one kind ripped one way.
    Ripping(usize),
    /// Strips crosscut from a blank.
    Strips(Blank),
}

/// Counts and the numbers they may have.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Scope {
    /// Sheets of each kind.
    pub kinds: Vec<Range>,
    /// Sheets ripped each way.
    pub rippings: Vec<Range>,
    /// Strips crosscut from a blank, of those that are narrowed.
    pub strips: BTreeMap<Blank, Range>,
    /// Whether sheets may give strips to spare. No plan needs any; but where plans are rounded from a linear program,
    /// leaving such sheets out misses the best ones more often than it helps.
    pub spare: bool,
}

impl Scope {
    /// All plans of at most `cost` units, if given: no plan needs a sheet that gives no panel wanted.
    pub(super) fn all(problem: &Problem, need: &Need, cost: Option<i64>) -> Scope {
        let panels: i64 = need.count.iter().map(|count| i64::from(*count)).sum();
        let kind = |(stock, price): (&Option<u32>, &i64)| {
            let stocked = stock.map_or(panels, |stock| panels.min(i64::from(stock)));
            Range { least: 0, most: cost.map_or(stocked, |cost| stocked.min(cost / price)) }
        };
        let kinds: Vec<Range> = need.stock.iter().zip(&problem.charges.sheets).map(kind).collect();
        let rippings = problem.rippings.iter().map(|ripping| kinds[ripping.sheet]).collect();
        Scope { kinds, rippings, strips: BTreeMap::new(), spare: false }
    }

    /// The same scope, where sheets may give strips to spare.
    pub(super) fn with_spare(self) -> Scope {
        Scope { spare: true, ..self }
    }

    /// The numbers that a count may have; strips that are not narrowed have at most one for each panel wanted.
    pub(super) fn range(&self, problem: &Problem, need: &Need, count: Count) -> Range {
        match count {
            Count::Kind(kind) => self.kinds[kind],
            Count::Ripping(ripping) => self.rippings[ripping],
            Count::Strips(blank) => {
                let most = || most_strips(problem, need, blank);
                self.strips.get(&blank).copied().unwrap_or_else(|| Range { least: 0, most: most() })
            }
        }
    }

    /// The most strips of a blank that a sheet gives: where none may be spare, as many as are crosscut
    /// (proper columns, Vanderbeck and Savelsbergh 2006, from memory).
    pub(super) fn most_on_a_sheet(&self, problem: &Problem, need: &Need, blank: Blank) -> u32 {
        if self.spare {
            return u32::MAX;
        }
        u32::try_from(self.range(problem, need, Count::Strips(blank)).most.max(0)).unwrap_or(u32::MAX)
    }

    /// The same scope with one count narrowed.
    pub(super) fn narrowed(&self, count: Count, range: Range) -> Scope {
        let mut scope = self.clone();
        match count {
            Count::Kind(kind) => scope.kinds[kind] = range,
            Count::Ripping(ripping) => scope.rippings[ripping] = range,
            Count::Strips(blank) => {
                scope.strips.insert(blank, range);
            }
        }
        scope
    }

    /// Whether the sheets to buy are settled.
    pub(super) fn is_bought(&self) -> bool {
        self.kinds.iter().all(|range| range.is_fixed())
    }

    /// The same scope where fewer sheets would be welcome, to see how close they come to doing. Those that must be
    /// ripped one way still leave no more than the rest of their kind to the other ways.
    pub(super) fn with_fewer(&self, problem: &Problem) -> Scope {
        let mut scope = self.clone();
        scope.kinds.iter_mut().for_each(|range| range.least = 0);
        for (at, ripping) in problem.rippings.iter().enumerate() {
            let ways = problem.rippings.iter().zip(&self.rippings).enumerate();
            let others = ways.filter(|(other, (way, _))| *other != at && way.sheet == ripping.sheet);
            let taken: i64 = others.map(|(_, (_, range))| range.least).sum();
            let most = self.rippings[at].most.min(self.kinds[ripping.sheet].most - taken).max(0);
            scope.rippings[at] = Range { least: 0, most };
        }
        scope
    }
}

/// Each strip that is crosscut gives some panel that is wanted.
pub(super) fn most_strips(problem: &Problem, need: &Need, blank: Blank) -> i64 {
    let mut sizes: Vec<usize> =
        problem.families[blank.family].widths[blank.width].laid.iter().map(|laid| laid.size).collect();
    sizes.sort_unstable();
    sizes.dedup();
    sizes.iter().map(|size| i64::from(need.count[*size])).sum()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::data::{File, Source, read};

    /// Of five sheets at least three are ripped along, at least one across.
    #[test]
    fn fewer_sheets_leave_the_other_way_no_more_than_before() {
        let text = "[[sheet]]\nlength = 96\nwidth = 48\nprice = 38.50\n\
                    [[panel]]\nsize = \"12 x 16\"\ncount = 100\n[yard]\nrips = \"either\"\n";
        let job = read(&Source { job: File::of("two ways", text), list: None, rack: None }).expect("it is sound");
        let problem = crate::model::build(&job).expect("they can be made");
        let all = Scope::all(&problem, &Need::of(&problem), None);
        let scope = all
            .narrowed(Count::Kind(0), Range { least: 5, most: 5 })
            .narrowed(Count::Ripping(0), Range { least: 3, most: 5 })
            .narrowed(Count::Ripping(1), Range { least: 1, most: 5 });
        let fewer = scope.with_fewer(&problem);
        assert_eq!(fewer.kinds, [Range { least: 0, most: 5 }]);
        assert_eq!(fewer.rippings, [Range { least: 0, most: 4 }, Range { least: 0, most: 2 }]);
    }

    #[test]
    fn a_sheet_gives_as_many_strips_as_are_crosscut_unless_some_may_be_spare() {
        let text = "[[sheet]]\nlength = 96\nwidth = 48\nprice = 38.50\n[[panel]]\nsize = \"12 x 16\"\ncount = 3\n";
        let job = read(&Source { job: File::of("three", text), list: None, rack: None }).expect("it is sound");
        let problem = crate::model::build(&job).expect("they can be made");
        let need = Need::of(&problem);
        let (ripping, all) = (&problem.rippings[0], Scope::all(&problem, &need, None));
        let blank = super::super::layout::blank(ripping, ripping.board.raw(), 0);
        let two = all.narrowed(Count::Strips(blank), Range { least: 0, most: 2 });
        let most = |scope: &Scope| scope.most_on_a_sheet(&problem, &need, blank);
        assert_eq!([most(&all), most(&two)], [3, 2], "one for each panel, or as many as the scope says");
        assert_eq!(most(&two.with_spare()), u32::MAX);
    }
}
