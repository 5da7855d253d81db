//! The sets of strips of one board: the one that is worth most at given values of its strips, and every one that is
//! worth nearly as much.
//!
//! Cuts that have to be counted make a row of a table for each number of strips. Mostly they need not be: where each
//! cut costs the same, that is taken off the value of each strip; and where the first ones are free, a board is worth
//! what it is worth without any toll or with the toll of every cut and the free ones given back, whichever is less. So
//! two tables without rows hold all that the many rows do (a Lagrangian relaxation of the count, and of its two prices
//! the one that decides).

use super::filled::{Filled, Piece};
use super::grid::Grid;
use super::knapsack::{Choice, Filling, Knapsack, Side, Step, Terms};
use super::layout::Board;
use super::tail::Tail;
use crate::length::Length;
use crate::model::{Problem, Ripping};
use std::cell::OnceCell;

/// The sets of strips of one board at given values of its strips.
pub(super) struct Boards {
    length: i64,
    /// Indices of the widths that are choices.
    widths: Vec<usize>,
    toll: Option<Toll>,
    /// At the values of the strips; where every cut has its toll, less that toll.
    tables: Tables,
    /// Where some cuts are free, the same less the toll of a cut.
    tolled: Option<Tables>,
    ways: Vec<Way>,
}

/// A way to count strips.
#[derive(Clone, Copy, Debug)]
struct Way {
    /// Their number; none where it does not matter.
    count: Option<usize>,
    /// The yard's cuts; none where they have their toll.
    cuts: u32,
    /// Whether nothing is left.
    used_up: bool,
    /// As many strips have no toll.
    free: i64,
}

/// What each cut beyond so many costs.
#[derive(Clone, Copy, Debug)]
pub(super) struct Toll {
    /// Of one cut.
    pub each: i64,
    /// Cuts that cost nothing.
    pub free: u32,
}

/// Which strips count as choices, and what is left over is worth.
#[derive(Clone, Copy, Debug)]
pub(super) struct Strips<'a> {
    /// The value of a strip of each of the family's widths.
    pub value: &'a [i64],
    /// Most strips of each width on a board; none where there may be any number.
    pub most: Option<&'a [u32]>,
    /// The least value that makes a width a choice.
    pub least: i64,
    /// What a cent of an offcut worth keeping is worth.
    pub keeping: i64,
    /// What cuts cost: then boards are worth what their strips are less that, and cuts need not be counted.
    pub toll: Option<Toll>,
}

impl Boards {
    /// Tables for a board of this length.
    pub(super) fn new(problem: &Problem, ripping: &Ripping, length: i64, strips: Strips) -> Boards {
        let family = &problem.families[ripping.family];
        let most_of = |width: usize| strips.most.map_or(u32::MAX, |most| most[width]);
        let fits = |width: &usize| {
            let fits = family.widths[*width].width <= ripping.room && strips.value[*width] >= strips.least;
            fits && most_of(*width) > 0
        };
        let widths: Vec<usize> = (0..family.widths.len()).filter(fits).collect();
        let size = |width: usize| (family.widths[width].width + ripping.kerf).raw();
        let room = (ripping.room + ripping.kerf).raw();
        let matter = problem.charges.cuts_matter();
        let counted = matter && strips.toll.is_none();
        let step = if counted { Step::Count } else { Step::Stay };
        let choices = |toll: i64| -> Vec<Choice> {
            let choice = |width: &usize| Choice {
                length: size(*width),
                most: most_of(*width),
                value: strips.value[*width] - toll,
                step,
            };
            widths.iter().map(choice).collect()
        };
        let most = widths.first().map_or(0, |width| u32::try_from(room / size(*width)).expect("strips are few"));
        // A board that is used up saves one cut.
        let most = problem.charges.most_cuts.map_or(most, |cuts| most.min(cuts.saturating_add(1)));
        let states = if counted { most as usize + 1 } else { 1 };
        let tail = Tail::of_board(problem, ripping, Length::from_raw(length), strips.keeping);
        let saves = matter && ripping.edge_trim.is_zero();
        let toll = strips.toll.filter(|_| matter);
        let gross = choices(0);
        let ways = if counted {
            counted_ways(problem, ripping, (&gross, saves), most)
        } else {
            ways(ripping, (&gross, saves), toll)
        };
        let tables = |choices| Tables::new(choices, room, states, tail.clone());
        // What is used up has a strip.
        let linear = ways.iter().all(|way| way.free <= i64::from(way.used_up));
        let (tables, tolled) = match toll {
            Some(toll) if linear => (tables(choices(toll.each)), None),
            Some(toll) => (tables(gross), Some(tables(choices(toll.each)))),
            None => (tables(gross), None),
        };
        Boards { length, widths, toll, tables, tolled, ways }
    }

    /// The ways to count strips: (way, cuts).
    pub(super) fn ways(&self) -> impl Iterator<Item = (usize, u32)> + '_ {
        self.ways.iter().enumerate().map(|(at, way)| (at, way.cuts))
    }

    /// The most that a board of this way can be worth, or more where some cuts are free or widths have a most.
    pub(super) fn most(&self, way: usize) -> i64 {
        let way = self.ways[way];
        self.tolled.as_ref().unwrap_or(&self.tables).most(way) + self.given_back(way)
    }

    /// What the toll of the free strips comes to.
    fn given_back(&self, way: Way) -> i64 {
        self.toll.map_or(0, |toll| toll.each * way.free)
    }

    /// The best board of this way, if it is worth more than `floor`.
    pub(super) fn best(&self, way: usize, floor: i64) -> Option<(Board, i64)> {
        let way = self.ways[way];
        let given_back = self.given_back(way);
        let strips = |filling: &Filling| filling.copies.iter().map(|copies| i64::from(*copies)).sum::<i64>();
        let filling = self.tolled.as_ref().unwrap_or(&self.tables).best(way, floor - given_back)?;
        // The lesser worth of the two counts; so what is best for one and counts there is best of all.
        if self.tolled.is_none() || strips(&filling) >= way.free {
            return Some((self.board(&filling), filling.value + given_back));
        }
        let filling = self.tables.best(way, floor)?;
        if strips(&filling) <= way.free {
            return Some((self.board(&filling), filling.value));
        }
        let (mut floor, mut best) = (floor + 1, None);
        self.visit(way, Vec::new(), &mut floor, &mut |filling, floor| {
            *floor = filling.value + 1;
            best = Some((self.board(filling), filling.value));
            true
        });
        best
    }

    /// Visits every board of this way worth at least `floor`, and at other values of the same strips what those boards ask
    /// for; stops where the visitor returns false.
    pub(super) fn walk(
        &self,
        way: usize,
        floor: i64,
        others: &[(&Boards, i64)],
        visit: &mut dyn FnMut(Board, i64) -> bool,
    ) -> bool {
        let way = self.ways[way];
        assert!(others.iter().all(|(boards, _)| boards.widths == self.widths), "the choices are the same");
        let sides = others.iter().flat_map(|(boards, floor)| boards.sides(way, *floor)).collect();
        let given_back = if self.tolled.is_some() { 0 } else { self.given_back(way) };
        let mut floor = floor - given_back;
        let mut visit = |filling: &Filling, _: &mut i64| visit(self.board(filling), filling.value + given_back);
        self.visit(way, sides, &mut floor, &mut visit)
    }

    /// What boards of this way must be worth where these are not the ones walked over.
    fn sides<'b>(&'b self, way: Way, floor: i64) -> impl Iterator<Item = Side<'b>> {
        let given_back = self.given_back(way);
        let side =
            move |tables: &'b Tables, beside| Side { tables: tables.all(way.used_up), beside, floor: Some(floor) };
        let plain = if self.tolled.is_some() { 0 } else { given_back };
        let tolled = self.tolled.iter().map(move |tables| side(tables, given_back));
        std::iter::once(side(&self.tables, plain)).chain(tolled)
    }

    fn visit<'b>(
        &'b self,
        way: Way,
        mut sides: Vec<Side<'b>>,
        floor: &mut i64,
        visit: &mut dyn FnMut(&Filling, &mut i64) -> bool,
    ) -> bool {
        let tolled = self.tolled.iter();
        sides.extend(tolled.map(|tolled| Side {
            tables: tolled.all(way.used_up),
            beside: self.given_back(way),
            floor: None,
        }));
        let from = (self.widths.len(), way.count.unwrap_or(0), self.tables.room);
        self.tables.all(way.used_up).walk(from, Terms { sides, ..Terms::default() }, floor, visit)
    }

    fn board(&self, filling: &Filling) -> Board {
        let mut strips: Vec<(usize, u32)> = self.widths.iter().copied().zip(filling.copies.iter().copied()).collect();
        strips.retain(|(_, copies)| *copies > 0);
        Board { length: self.length, strips }
    }
}

/// Tables of sets of strips: the best of them are at hand, all of them are worked out when first asked for.
struct Tables {
    choices: Vec<Choice>,
    room: i64,
    states: usize,
    /// What may be left over, and nothing.
    tails: [Tail; 2],
    /// None where lengths are too fine for it.
    best: OnceCell<Option<Filled>>,
    /// Of sets that may leave something, and of those that leave nothing.
    all: [OnceCell<Knapsack>; 2],
}

impl Tables {
    fn new(choices: Vec<Choice>, room: i64, states: usize, tail: Tail) -> Tables {
        let tails = [tail, Tail::UsedUp];
        Tables { choices, room, states, tails, best: OnceCell::new(), all: Default::default() }
    }

    fn filled(&self) -> Option<&Filled> {
        let filled = || {
            let pieces: Vec<Piece> = self.choices.iter().map(|choice| (choice.length, choice.value)).collect();
            Filled::new(&pieces, self.room, (self.states > 1).then(|| self.states - 1), &self.tails[0])
        };
        self.best.get_or_init(filled).as_ref()
    }

    fn all(&self, used_up: bool) -> &Knapsack {
        let at = usize::from(used_up);
        let knapsack = || Knapsack::new(self.choices.clone(), self.room, self.states, self.tails[at].clone());
        self.all[at].get_or_init(knapsack)
    }

    fn most(&self, way: Way) -> i64 {
        match self.filled() {
            Some(filled) => filled.most(way.count, &self.tails[usize::from(way.used_up)]),
            None => self.all(way.used_up).most(self.choices.len(), way.count.unwrap_or(0), self.room),
        }
    }

    fn best(&self, way: Way, floor: i64) -> Option<Filling> {
        // The quick table knows of no most; where its best keeps to that, it is the best all the same.
        if let Some(filled) = self.filled() {
            let best = filled.best(way.count, &self.tails[usize::from(way.used_up)], floor)?;
            let within = best.copies.iter().zip(&self.choices).all(|(copies, choice)| *copies <= choice.most);
            if within {
                return Some(best);
            }
        }
        self.all(way.used_up).best(self.choices.len(), way.count.unwrap_or(0), self.room, floor)
    }
}

/// The ways to leave something and nothing, the latter only where that saves a cut, with any number of strips at a toll
/// for their cuts.
fn ways(ripping: &Ripping, (choices, saves): (&[Choice], bool), toll: Option<Toll>) -> Vec<Way> {
    let room = (ripping.room + ripping.kerf).raw();
    let tight = saves && Grid::plain(choices.iter().map(|choice| choice.length), room).fits(room, 0);
    let free = |used_up: bool| {
        toll.map_or(0, |toll| i64::from(toll.free) + 1 - i64::from(ripping.cuts(1, left_over(used_up))))
    };
    let way = |used_up| Way { count: None, cuts: 0, used_up, free: free(used_up) };
    [false, true].into_iter().filter(|used_up| tight || !used_up).map(way).collect()
}

/// The same for each number of strips up to the most, within the most cuts.
fn counted_ways(problem: &Problem, ripping: &Ripping, (choices, saves): (&[Choice], bool), most: u32) -> Vec<Way> {
    let room = (ripping.room + ripping.kerf).raw();
    let grid = Grid::counted(choices.iter().map(|choice| choice.length), room);
    let loose = (1..=most).map(|strips| (strips, false));
    let tight = (1..=most).filter(|strips| saves && grid.fits(room, *strips as usize)).map(|strips| (strips, true));
    let ways = loose.chain(tight).map(|(strips, used_up)| {
        let cuts = ripping.cuts(strips, left_over(used_up));
        Way { count: Some(strips as usize), cuts, used_up, free: 0 }
    });
    ways.filter(|way| problem.charges.most_cuts.is_none_or(|limit| way.cuts <= limit)).collect()
}

/// Some room that strips leave, or none.
fn left_over(used_up: bool) -> Length {
    if used_up { Length::ZERO } else { Length::from_raw(1) }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::data::{File, Source, read};
    use proptest::prelude::*;
    use std::collections::BTreeSet;

    fn problem(trim: &str) -> Problem {
        let text = format!(
            "[[sheet]]\nlength = 96\nwidth = 48\nprice = 38.50\nedge_trim = {trim}\n\
             [[panel]]\nsize = \"12 x 16\"\ncount = 4\n[[panel]]\nsize = \"10 x 12\"\ncount = 4\n\
             [yard]\nrips = \"either\"\ncut_price = 0.50\n"
        );
        let job = read(&Source { job: File::of("one kind", text), list: None, rack: None }).expect("it is sound");
        crate::model::build(&job).expect("they can be made")
    }

    proptest! {
        #![proptest_config(ProptestConfig { cases: 400, failure_persistence: None, ..ProptestConfig::default() })]

        #[test]
        fn cuts_come_to_the_same_counted_or_at_a_toll(
            trim in prop::sample::select(vec!["0", "0.5"]),
            values in prop::collection::vec(10..100_i64, 3),
            most in prop::sample::select(vec![None, Some([1, 2, 1]), Some([0, 1, 3])]),
            (each, free) in (0..30_i64, 0..5_u32),
            gap in 0..60_i64,
            (others, more) in (prop::collection::vec(0..100_i64, 3), -40..40_i64),
        ) {
            let problem = problem(trim);
            let cost = |cuts: u32| each * i64::from(cuts.saturating_sub(free));
            for ripping in &problem.rippings {
                let widths = problem.families[ripping.family].widths.len();
                let value: Vec<i64> = values.iter().copied().cycle().take(widths).collect();
                let most: Option<Vec<u32>> = most.map(|most| most.into_iter().cycle().take(widths).collect());
                let boards = |value: &[i64], toll: Option<Toll>| {
                    let strips = Strips { value, most: most.as_deref(), least: 0, keeping: 0, toll };
                    Boards::new(&problem, ripping, ripping.board.raw(), strips)
                };
                let toll = Toll { each, free };
                let (counted, tolled) = (boards(&value, None), boards(&value, Some(toll)));
                let other: Vec<i64> = others.iter().copied().cycle().take(widths).collect();
                let (other_counted, other_tolled) = (boards(&other, None), boards(&other, Some(toll)));
                let worth_at = |value: &[i64], board: &Board| {
                    let strips = board.strips.iter().map(|(at, copies)| value[*at] * i64::from(*copies));
                    strips.sum::<i64>() - cost(board.cuts(&problem, ripping))
                };
                let worth = |board: &Board| worth_at(&value, board);
                let best = |boards: &Boards| {
                    let best = boards.ways().filter_map(|(way, cuts)| {
                        let toll = if boards.toll.is_some() { 0 } else { cost(cuts) };
                        let (board, value) = boards.best(way, i64::MIN / 8)?;
                        assert!(worth(&board) >= value - toll, "{board:?} is not worth {value} less {toll}");
                        assert!(boards.most(way) >= value);
                        assert!(boards.best(way, value).is_none());
                        Some(value - toll)
                    });
                    // A board need not be ripped.
                    best.max().expect("some strip fits").max(0)
                };
                prop_assert_eq!(best(&counted), best(&tolled));
                let floor = best(&counted) - gap;
                let all_beside = |boards: &Boards, other: Option<(&Boards, i64)>| {
                    let mut all = BTreeSet::new();
                    for (way, cuts) in boards.ways() {
                        let toll = if boards.toll.is_some() { 0 } else { cost(cuts) };
                        let other: Vec<_> = other.into_iter().map(|(other, floor)| (other, floor + toll)).collect();
                        assert!(boards.walk(way, floor + toll, &other, &mut |board, value| {
                            assert!(board.strips.is_empty() || worth(&board) >= value - toll && value - toll >= floor);
                            all.insert(board);
                            true
                        }));
                    }
                    all
                };
                let all = |boards: &Boards| all_beside(boards, None);
                let (one, another) = (all(&counted), all(&tolled));
                prop_assert!(one.iter().all(|board| worth(board) >= floor));
                let few = |(at, copies): &(usize, u32)| most.as_ref().is_none_or(|most| *copies <= most[*at]);
                prop_assert!(one.iter().flat_map(|board| &board.strips).all(few));
                // A board that nothing is ripped from is no way to count strips.
                let ripped = |all: BTreeSet<Board>| -> BTreeSet<Board> {
                    all.into_iter().filter(|board| !board.strips.is_empty()).collect()
                };
                prop_assert_eq!(&one, &ripped(another));
                // Those that are worth enough at other values too.
                let other_floor = floor + more;
                let both: BTreeSet<Board> =
                    one.into_iter().filter(|board| worth_at(&other, board) >= other_floor).collect();
                prop_assert_eq!(&both, &all_beside(&counted, Some((&other_counted, other_floor))));
                prop_assert_eq!(&both, &ripped(all_beside(&tolled, Some((&other_tolled, other_floor)))));
            }
        }
    }
}
