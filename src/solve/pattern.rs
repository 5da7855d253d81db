//! Patterns: the panels crosscut from one strip. Finds the pattern that is worth most at given prices of the panels,
//! and every pattern worth at least so much, or of these the largest only.

use super::chain::{Chain, Link, chains};
use super::knapsack::{Choice, Knapsack, NEVER, Side, Step, Terms};
use super::tail::Tail;
use crate::model::{Laid, Problem};
use std::cell::Cell;

/// What a strip is cut from: all that patterns depend on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub(super) struct Blank {
    /// Index into `Problem::families`.
    pub family: usize,
    /// Index into the family's widths.
    pub width: usize,
    /// What the strip gives to panels, in raw units.
    pub usable: i64,
    /// What is lost at its far end, in raw units.
    pub stub: i64,
}

/// The panels cut from a strip: (index into the width's ways to lie, copies), ascending, copies above zero.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub(super) struct Pattern {
    /// What it is cut from.
    pub blank: Blank,
    /// Its panels.
    pub pieces: Vec<(usize, u32)>,
}

impl Pattern {
    /// Panels of each size, as (size, copies); a size that lies both ways comes twice.
    pub(super) fn yields<'a>(&'a self, problem: &'a Problem) -> impl Iterator<Item = (usize, u32)> + 'a {
        let laid = &problem.families[self.blank.family].widths[self.blank.width].laid;
        self.pieces.iter().map(|(at, copies)| (laid[*at].size, *copies))
    }
}

/// What the pieces of a pattern come to, in raw units.
#[derive(Clone, Copy)]
pub(super) struct Pieces {
    count: i64,
    /// Of all together.
    length: i64,
    longest: i64,
}

impl Pieces {
    /// The pieces of this pattern.
    pub(super) fn of(problem: &Problem, pattern: &Pattern) -> Pieces {
        Pieces::all(problem, pattern.blank, pattern.pieces.iter().copied())
    }

    fn all(problem: &Problem, blank: Blank, pieces: impl Iterator<Item = (usize, u32)>) -> Pieces {
        let laid = &problem.families[blank.family].widths[blank.width].laid;
        let none = Pieces { count: 0, length: 0, longest: 0 };
        pieces.fold(none, |pieces, (at, copies)| pieces.with(laid[at].along.raw(), copies))
    }

    /// So many more of this length.
    pub(super) fn with(self, along: i64, copies: u32) -> Pieces {
        let copies = i64::from(copies);
        Pieces { count: self.count + copies, length: self.length + copies * along, longest: self.longest.max(along) }
    }

    /// Whether they and their kerfs fit a strip, and the hand has something to hold.
    pub(super) fn fit(self, problem: &Problem, blank: Blank) -> bool {
        let kerf = problem.kerf.raw();
        let left = (blank.usable - self.length - self.count * kerf).max(0) + blank.stub;
        let held = self.count == 0 || self.longest.max(left) >= problem.shortest.raw();
        held && self.length + (self.count - 1).max(0) * kerf <= blank.usable
    }
}

/// A pattern as it is found, to be looked at before it is made.
pub(super) struct Found<'a> {
    blank: Blank,
    /// The ways to lie, indices into those of the width.
    laid: &'a [usize],
    /// Panels of each.
    copies: &'a [u32],
}

impl Found<'_> {
    /// Its panels: (index into the width's ways to lie, copies), copies above zero.
    pub(super) fn pieces(&self) -> impl Iterator<Item = (usize, u32)> + '_ {
        self.laid.iter().copied().zip(self.copies.iter().copied()).filter(|(_, copies)| *copies > 0)
    }

    /// The pattern itself.
    pub(super) fn pattern(&self) -> Pattern {
        let mut pieces = Vec::with_capacity(self.pieces().count());
        pieces.extend(self.pieces());
        pieces.sort_unstable();
        Pattern { blank: self.blank, pieces }
    }
}

/// What panels are worth, in fixed point, and how many of each may lie on one strip.
#[derive(Clone, Copy, Debug)]
pub(super) struct Worth<'a> {
    /// Of one panel of each size.
    pub price: &'a [i64],
    /// Most panels of each size on one strip.
    pub most: &'a [u32],
    /// What a cent of an offcut worth keeping is worth; 0 where offcuts do not count.
    pub keeping: i64,
}

/// The patterns of one family at given prices.
pub(super) struct Patterns<'a> {
    problem: &'a Problem,
    links: Vec<Link>,
    /// For each chain all lies, and the lies that the hand cannot hold as a last piece.
    tables: Vec<Tables>,
}

/// Tables of patterns, the ways to lie that their choices stand for, a state and the room of a strip.
type Part<'a> = (&'a Knapsack, Vec<usize>, usize, i64);

struct Tables {
    held: Knapsack,
    /// Only pieces too short to hold, and for each its index in the chain.
    short: Option<(Knapsack, Vec<usize>)>,
}

impl<'a> Patterns<'a> {
    /// Tables for strips up to `usable` raw units.
    pub(super) fn new(problem: &'a Problem, family: usize, worth: Worth, usable: i64) -> Patterns<'a> {
        let family = &problem.families[family];
        let (chains, links) = chains(family, worth.keeping == 0);
        let room = (usable + problem.kerf.raw()).max(0);
        let width_of = |chain| links.iter().position(|link: &Link| link.chain == chain).expect("a chain has a width");
        let tables = chains
            .iter()
            .enumerate()
            .map(|(at, chain)| {
                let tail = Tail::of_strip(problem, family.widths[width_of(at)].width, worth.keeping);
                tables(problem, chain, worth, room, tail)
            })
            .collect();
        Patterns { problem, links, tables }
    }

    /// The value of the best pattern, 0 for none; and the pattern.
    pub(super) fn best(&self, blank: Blank) -> (i64, Pattern) {
        let mut best = (0, Pattern { blank, pieces: Vec::new() });
        for (knapsack, link, state, room) in self.parts(blank) {
            if let Some(filling) = knapsack.best(link.len(), state, room, best.0) {
                debug_assert!(filling.value > NEVER);
                best = (filling.value, Found { blank, laid: &link, copies: &filling.copies }.pattern());
            }
        }
        best
    }

    /// The value of the best pattern, 0 for none; where lengths are too fine for a table, no less.
    pub(super) fn most(&self, blank: Blank) -> i64 {
        let most =
            |(knapsack, link, state, room): (&Knapsack, Vec<usize>, usize, i64)| knapsack.most(link.len(), state, room);
        self.parts(blank).into_iter().map(most).max().unwrap_or(0).max(0)
    }

    /// Visits every pattern worth at least `floor`; stops where the visitor returns false.
    pub(super) fn walk(&self, blank: Blank, floor: i64, visit: &mut dyn FnMut(Pattern, i64) -> bool) -> bool {
        self.walk_on_terms((blank, floor), &[], None, &mut |found, value| visit(found.pattern(), value))
    }

    /// Visits every pattern worth at least `floor`, and at the other prices of the same panels what those patterns ask for,
    /// that leaves no room for one more panel; stops where the visitor returns false, or no more that do may be passed over.
    pub(super) fn walk_largest(
        &self,
        (blank, floor): (Blank, i64),
        others: &[(&Patterns, i64)],
        passed: &Cell<usize>,
        visit: &mut dyn FnMut(&Found) -> bool,
    ) -> bool {
        self.walk_on_terms((blank, floor), others, Some(passed), &mut |found, _| {
            !self.is_largest(found) || visit(found)
        })
    }

    fn walk_on_terms(
        &self,
        (blank, floor): (Blank, i64),
        others: &[(&Patterns, i64)],
        largest: Option<&Cell<usize>>,
        visit: &mut dyn FnMut(&Found, i64) -> bool,
    ) -> bool {
        let others: Vec<_> = others.iter().map(|(other, floor)| (other.parts(blank), *floor)).collect();
        let longer = if largest.is_some() { self.longer_ways(blank) } else { Vec::new() };
        self.parts(blank).into_iter().enumerate().all(|(at, (knapsack, laid, state, room))| {
            let sides = others.iter().map(|(parts, floor)| {
                assert!(parts[at].1 == laid, "the choices are the same");
                Side { tables: parts[at].0, beside: 0, floor: Some(*floor) }
            });
            let left_out = laid.iter().map(|at| longer.get(*at).is_some_and(|longer| *longer)).collect();
            let terms = Terms { sides: sides.collect(), largest, left_out };
            let mut floor = floor;
            knapsack.walk((laid.len(), state, room), terms, &mut floor, &mut |filling, _| {
                visit(&Found { blank, laid: &laid, copies: &filling.copies }, filling.value)
            })
        })
    }

    /// Of the width's ways to lie, those that take more of the strip than another one of the same panel does: nothing is
    /// lost without them, as long as the hand has something to hold.
    fn longer_ways(&self, blank: Blank) -> Vec<bool> {
        let laid = &self.problem.families[blank.family].widths[blank.width].laid;
        let is_held = |laid: &Laid| laid.along >= self.problem.shortest;
        let serves = |(at, one): (usize, &Laid), (than, other): (usize, &Laid)| {
            let shorter = (one.along, at) < (other.along, than);
            one.size == other.size && shorter && (is_held(one) || !is_held(other))
        };
        laid.iter().enumerate().map(|way| laid.iter().enumerate().any(|other| serves(other, way))).collect()
    }

    /// Whether no panel can be added to what the tables of its choices left no room in: where they are all too short to
    /// hold, a longer one may be.
    fn is_largest(&self, found: &Found) -> bool {
        let all = &self.links[found.blank.width];
        if found.laid.len() == all.laid.len() {
            return true;
        }
        let tables = &self.tables[all.chain];
        let laid = &self.problem.families[found.blank.family].widths[found.blank.width].laid;
        let pieces = Pieces::all(self.problem, found.blank, found.pieces());
        let others = all.laid.iter().enumerate().filter(|(_, at)| !found.laid.contains(at));
        let longer = self.longer_ways(found.blank);
        let mut wanted = others.filter(|(choice, at)| tables.held.most_of(*choice) > 0 && !longer[**at]);
        !wanted.any(|(_, at)| pieces.with(laid[*at].along.raw(), 1).fit(self.problem, found.blank))
    }

    /// Patterns with a piece that the hand can hold to the last; and patterns of short pieces only, which must leave
    /// enough to hold.
    fn parts(&self, blank: Blank) -> Vec<Part<'_>> {
        let (link, problem) = (&self.links[blank.width], self.problem);
        let tables = &self.tables[link.chain];
        let room = blank.usable + problem.kerf.raw();
        let Some((short, at)) = &tables.short else {
            return vec![(&tables.held, link.laid.clone(), 0, room)];
        };
        let left = problem.shortest.raw() - blank.stub;
        let short_room = if left > 0 { blank.usable - left } else { room };
        let laid = at.iter().take_while(|at| **at < link.laid.len()).map(|at| link.laid[*at]).collect();
        vec![(&tables.held, link.laid.clone(), 1, room), (short, laid, 0, short_room)]
    }
}

fn tables(problem: &Problem, chain: &Chain, worth: Worth, room: i64, tail: Tail) -> Tables {
    let kerf = problem.kerf.raw();
    let long = |along: i64| along >= problem.shortest.raw();
    let choice = |(size, _, along): (usize, bool, i64)| Choice {
        length: along + kerf,
        most: worth.most[size],
        value: worth.price[size],
        step: if long(along) { Step::Meet } else { Step::Stay },
    };
    let short: Vec<usize> = (0..chain.lies.len()).filter(|at| !long(chain.lies[*at].2)).collect();
    let all: Vec<Choice> = chain.lies.iter().copied().map(choice).collect();
    if short.is_empty() {
        let all = all.into_iter().map(|choice| Choice { step: Step::Stay, ..choice }).collect();
        return Tables { held: Knapsack::new(all, room, 1, tail), short: None };
    }
    let only: Vec<Choice> = short.iter().map(|at| all[*at]).collect();
    let short = Some((Knapsack::new(only, room, 1, tail.clone()), short));
    Tables { held: Knapsack::new(all, room, 2, tail), short }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::data::{File, Source, read};
    use proptest::prelude::*;

    proptest! {
        #![proptest_config(ProptestConfig { cases: 200, failure_persistence: None, ..ProptestConfig::default() })]

        /// Of all patterns those that are worth enough at both prices, and that no wanted panel can be added to, as the
        /// lengths and the hand have it; without panels that take more of the strip than they would if they were turned.
        /// And whatever a pattern gives, one of them gives.
        #[test]
        fn the_largest_patterns_are_those_that_nothing_can_be_added_to(
            (prices, others) in (prop::collection::vec(0..60_i64, 3), prop::collection::vec(0..60_i64, 3)),
            most in prop::collection::vec(0..6_u32, 3),
            (usable, stub) in (10..60_i64, 0..12_i64),
            (floor, other_floor) in (0..150_i64, 0..150_i64),
            width in 0..6_usize,
        ) {
            // What is shorter than 8 in cannot be held.
            let text = "[[sheet]]\nlength = 96\nwidth = 48\nprice = 38.50\n[[panel]]\nsize = \"5 x 7\"\ncount = 9\n\
                        [[panel]]\nsize = \"6 x 9\"\ncount = 9\n[[panel]]\nsize = \"11 x 14\"\ncount = 9\n\
                        [saw]\nshortest = 8\ntrims = true\n";
            let job = read(&Source { job: File::of("job", text), list: None, rack: None }).expect("it is sound");
            let problem = crate::model::build(&job).expect("they can be made");
            let inch = problem.sizes[0].sides.width.least.raw() / 5;
            let family = problem.rippings[0].family;
            let blank = Blank { family, width, usable: usable * inch, stub: stub * inch };
            let patterns = |price: &[i64]| {
                Patterns::new(&problem, family, Worth { price, most: &most, keeping: 0 }, blank.usable)
            };
            let (one, other) = (patterns(&prices), patterns(&others));
            let laid = &problem.families[family].widths[width].laid;
            let worth = |pattern: &Pattern, price: &[i64]| -> i64 {
                pattern.yields(&problem).map(|(size, copies)| price[size] * i64::from(copies)).sum()
            };
            let along = |at: usize| laid[at].along;
            let turned_back = |at: usize, other: usize| {
                let shorter = (along(other), other) < (along(at), at) && laid[other].size == laid[at].size;
                shorter && (along(other).raw() >= 8 * inch || along(at).raw() < 8 * inch)
            };
            let ways: Vec<usize> = (0..laid.len()).filter(|at| !(0..laid.len()).any(|other| turned_back(*at, other))).collect();
            let grows = |pattern: &Pattern| {
                ways.iter().any(|at| {
                    let here = pattern.pieces.iter().find(|piece| piece.0 == *at).map_or(0, |piece| piece.1);
                    let more = Pieces::of(&problem, pattern).with(along(*at).raw(), 1);
                    here < most[laid[*at].size] && more.fit(&problem, blank)
                })
            };
            let (mut all, mut every, mut gives) = (Vec::new(), Vec::new(), Vec::new());
            let given = |pattern: &Pattern| -> Vec<u32> {
                let mut given = [0; 3];
                pattern.yields(&problem).for_each(|(size, copies)| given[size] += copies);
                given.iter().zip(&most).map(|(given, most)| *given.min(most)).collect()
            };
            one.walk(blank, 0, &mut |pattern, value| {
                assert_eq!(value, worth(&pattern, &prices));
                every.push(given(&pattern));
                let good = value >= floor && worth(&pattern, &others) >= other_floor;
                let short = pattern.pieces.iter().all(|(at, _)| ways.contains(at));
                all.extend((good && short && !grows(&pattern)).then_some(pattern));
                true
            });
            let largest_of = |floor: i64, others: &[(&Patterns, i64)]| {
                let mut largest = Vec::new();
                one.walk_largest((blank, floor), others, &Cell::new(usize::MAX), &mut |found| {
                    largest.push(found.pattern());
                    true
                });
                largest
            };
            gives.extend(largest_of(0, &[]).iter().map(given));
            for every in every {
                let serves = |gives: &Vec<u32>| gives.iter().zip(&every).all(|(gives, every)| gives >= every);
                prop_assert!(gives.iter().any(serves), "{every:?} of {gives:?}");
            }
            let mut largest = largest_of(floor, &[(&other, other_floor)]);
            all.sort();
            largest.sort();
            prop_assert_eq!(largest, all);
        }
    }
}
