//! Patterns: the panels crosscut from one strip. Finds the pattern that is worth most at given prices of the panels,
//! and every pattern worth at least so much.

use super::chain::{Chain, Link, chains};
use super::knapsack::{Choice, Filling, Knapsack, NEVER, Step};
use super::tail::Tail;
use crate::model::Problem;

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
        let laid = &problem.families[pattern.blank.family].widths[pattern.blank.width].laid;
        let none = Pieces { count: 0, length: 0, longest: 0 };
        pattern.pieces.iter().fold(none, |pieces, (at, copies)| pieces.with(laid[*at].along.raw(), *copies))
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
                best = (filling.value, pattern(blank, &link, &filling));
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
        self.parts(blank).into_iter().all(|(knapsack, link, state, room)| {
            let mut floor = floor;
            knapsack.walk((link.len(), state, room), None, &mut floor, &mut |filling, _| {
                visit(pattern(blank, &link, filling), filling.value)
            })
        })
    }

    /// Patterns with a piece that the hand can hold to the last; and patterns of short pieces only, which must leave
    /// enough to hold.
    fn parts(&self, blank: Blank) -> Vec<(&Knapsack, Vec<usize>, usize, i64)> {
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

fn pattern(blank: Blank, laid: &[usize], filling: &Filling) -> Pattern {
    debug_assert!(filling.value > NEVER);
    let mut pieces: Vec<(usize, u32)> = laid.iter().copied().zip(filling.copies.iter().copied()).collect();
    pieces.retain(|(_, copies)| *copies > 0);
    pieces.sort_unstable();
    Pattern { blank, pieces }
}
