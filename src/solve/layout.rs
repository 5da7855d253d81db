//! Layouts: the strips ripped from one sheet. Finds the layout that is worth most above its cost at given values of
//! the strips, and every layout that is worth nearly as much.

use super::filled::Filled;
use super::knapsack::{Choice, Filling, Knapsack, NEVER, Step, unit_of};
use super::pattern::Blank;
use super::tail::Tail;
use crate::length::Length;
use crate::model::{Problem, Ripping};
use std::cell::OnceCell;

/// One board and its strips: (index into the family's widths, copies), ascending, copies above zero.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub(super) struct Board {
    /// Its extent along its strips, in raw units.
    pub length: i64,
    /// Its strips.
    pub strips: Vec<(usize, u32)>,
}

/// The strips ripped from one sheet.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub(super) struct Layout {
    /// Index into `Problem::rippings`.
    pub ripping: usize,
    /// The whole sheet, or the two boards of a breakdown.
    pub boards: Vec<Board>,
}

impl Layout {
    /// The strips that it gives, with their copies.
    pub(super) fn blanks<'a>(&'a self, problem: &'a Problem) -> impl Iterator<Item = (Blank, u32)> + 'a {
        let ripping = &problem.rippings[self.ripping];
        self.boards.iter().flat_map(move |board| {
            board.strips.iter().map(move |(width, copies)| (blank(ripping, board.length, *width), *copies))
        })
    }

    /// The same layout with one strip fewer; none where it gives no such strip.
    pub(super) fn without(&self, problem: &Problem, spare: Blank) -> Option<Layout> {
        let ripping = &problem.rippings[self.ripping];
        let mut leaner = self.clone();
        for board in &mut leaner.boards {
            let length = board.length;
            let strip = board.strips.iter_mut().find(|(width, _)| blank(ripping, length, *width) == spare);
            if let Some(strip) = strip {
                strip.1 -= 1;
                board.strips.retain(|(_, copies)| *copies > 0);
                return Some(leaner);
            }
        }
        None
    }

    /// The yard's cuts on the sheet.
    pub(super) fn cuts(&self, problem: &Problem) -> u32 {
        let ripping = &problem.rippings[self.ripping];
        let breakdown = u32::from(self.boards.len() > 1);
        breakdown + self.boards.iter().map(|board| board.cuts(problem, ripping)).sum::<u32>()
    }

    /// What it costs in units: the sheet, and its cuts where free cuts are counted by the sheet.
    pub(super) fn cost(&self, problem: &Problem) -> i64 {
        let sheet = problem.rippings[self.ripping].sheet;
        problem.charges.sheets[sheet] + problem.charges.of_cuts(self.cuts(problem))
    }
}

impl Board {
    fn strips(&self) -> u32 {
        self.strips.iter().map(|(_, copies)| copies).sum()
    }

    /// The room beside its strips and the kerfs between them, in raw units.
    pub(super) fn spare(&self, problem: &Problem, ripping: &Ripping) -> i64 {
        let widths = &problem.families[ripping.family].widths;
        let used = |(width, copies): &(usize, u32)| (widths[*width].width + ripping.kerf).raw() * i64::from(*copies);
        (ripping.room + ripping.kerf).raw() - self.strips.iter().map(used).sum::<i64>()
    }

    fn cuts(&self, problem: &Problem, ripping: &Ripping) -> u32 {
        ripping.cuts(self.strips(), Length::from_raw(self.spare(problem, ripping)))
    }
}

/// The blank of a strip of this width ripped from a board of this length.
pub(super) fn blank(ripping: &Ripping, board: i64, width: usize) -> Blank {
    let length = Length::from_raw(board);
    let (usable, stub) = (ripping.usable(length).raw(), ripping.stub(length).raw());
    Blank { family: ripping.family, width, usable, stub }
}

/// The sets of strips of one board at given values of its strips.
pub(super) struct Boards {
    length: i64,
    /// Indices of the widths that are choices.
    widths: Vec<usize>,
    room: i64,
    loose: Rows,
    /// Strips that use the room up, where that saves a cut that matters.
    tight: Option<Rows>,
    /// (number of strips or 0 where it does not matter, cuts, whether nothing is left).
    ways: Vec<(usize, u32, bool)>,
    /// What is added to the worth of a board that leaves something and of one that leaves nothing: for the cuts that it has
    /// fewer or more than strips.
    beside: [i64; 2],
}

/// Tables of sets of strips: the best of them are at hand, all of them are worked out when first asked for.
struct Rows {
    choices: Vec<Choice>,
    room: i64,
    states: usize,
    tail: Tail,
    /// None where lengths are too fine for it.
    best: Option<Filled>,
    all: OnceCell<Knapsack>,
}

impl Rows {
    fn new(choices: Vec<Choice>, room: i64, states: usize, tail: Tail) -> Rows {
        let (unit, exact) = unit_of(choices.iter().map(|choice| choice.length), room);
        let pieces = || choices.iter().map(|choice| (choice.length, choice.value)).collect();
        let most = (states > 1).then(|| states - 1);
        let best = (exact && !choices.is_empty()).then(|| Filled::new(pieces(), unit, room, most, &tail));
        Rows { choices, room, states, tail, best, all: OnceCell::new() }
    }

    fn all(&self) -> &Knapsack {
        self.all.get_or_init(|| Knapsack::new(self.choices.clone(), self.room, self.states, self.tail.clone()))
    }

    fn most(&self, state: usize) -> i64 {
        self.best.as_ref().map_or_else(
            || self.all().most(self.choices.len(), state, self.room),
            |filled| filled.most(state, self.room),
        )
    }

    fn best(&self, state: usize, floor: i64) -> Option<Filling> {
        let Some(filled) = &self.best else { return self.all().best(self.choices.len(), state, self.room, floor) };
        let value = filled.most(state, self.room);
        (value > NEVER && value > floor).then(|| Filling { copies: filled.best(state, self.room), value })
    }
}

/// Which strips count as choices, and what is left over is worth.
#[derive(Clone, Copy, Debug)]
pub(super) struct Strips<'a> {
    /// The value of a strip of each of the family's widths.
    pub value: &'a [i64],
    /// The least value that makes a width a choice.
    pub least: i64,
    /// What a cent of an offcut worth keeping is worth.
    pub keeping: i64,
    /// What each cut costs, where that is the same for every cut: then boards are worth what their strips are less their
    /// cuts, and their cuts need not be counted.
    pub cut: Option<i64>,
}

impl Boards {
    /// Tables for a board of this length.
    pub(super) fn new(problem: &Problem, ripping: &Ripping, length: i64, strips: Strips) -> Boards {
        let family = &problem.families[ripping.family];
        let fits = |width: &usize| family.widths[*width].width <= ripping.room && strips.value[*width] >= strips.least;
        let widths: Vec<usize> = (0..family.widths.len()).filter(fits).collect();
        let size = |width: usize| (family.widths[width].width + ripping.kerf).raw();
        let room = (ripping.room + ripping.kerf).raw();
        let matter = problem.charges.cuts_matter();
        let counted = matter && strips.cut.is_none();
        let step = if counted { Step::Count } else { Step::Stay };
        let cut = strips.cut.unwrap_or(0);
        let value = |width: usize| strips.value[width] - cut;
        let choice = |width: &usize| Choice { length: size(*width), most: u32::MAX, value: value(*width), step };
        let choices: Vec<Choice> = widths.iter().map(choice).collect();
        let most = widths.first().map_or(0, |width| u32::try_from(room / size(*width)).expect("strips are few"));
        // A board that is used up saves one cut.
        let most = problem.charges.most_cuts.map_or(most, |cuts| most.min(cuts.saturating_add(1)));
        let states = if counted { most as usize + 1 } else { 1 };
        let (unit, exact) = unit_of(choices.iter().map(|choice| choice.length), room);
        let saves = matter && exact && room % unit == 0 && ripping.edge_trim.is_zero();
        let tight = saves.then(|| Rows::new(choices.clone(), room, states, Tail::UsedUp));
        let tail = Tail::of_board(problem, ripping, Length::from_raw(length), strips.keeping);
        let loose = Rows::new(choices, room, states, tail);
        let ways = ways(problem, ripping, most, tight.is_some(), counted);
        let more = |spare: i64| i64::from(ripping.cuts(1, Length::from_raw(spare))) - 1;
        let beside = [1, 0].map(|spare| -cut * more(spare));
        Boards { length, widths, room, loose, tight, ways, beside }
    }

    /// The ways to count strips: (way, cuts).
    pub(super) fn ways(&self) -> impl Iterator<Item = (usize, u32)> + '_ {
        self.ways.iter().enumerate().map(|(way, (_, cuts, _))| (way, *cuts))
    }

    /// The most that a board of this way can be worth.
    pub(super) fn most(&self, way: usize) -> i64 {
        let (rows, state) = self.rows(way);
        rows.most(state) + self.beside(way)
    }

    fn beside(&self, way: usize) -> i64 {
        self.beside[usize::from(self.ways[way].2)]
    }

    /// The best board of this way, if it is worth more than `floor`.
    pub(super) fn best(&self, way: usize, floor: i64) -> Option<(Board, i64)> {
        let (rows, state) = self.rows(way);
        let filling = rows.best(state, floor - self.beside(way))?;
        Some((self.board(&filling), filling.value + self.beside(way)))
    }

    /// Visits every board of this way worth at least `floor`; stops where the visitor returns false.
    pub(super) fn walk(&self, way: usize, floor: i64, visit: &mut dyn FnMut(Board, i64) -> bool) -> bool {
        let (rows, state) = self.rows(way);
        let (mut floor, beside) = (floor - self.beside(way), self.beside(way));
        rows.all().walk(self.widths.len(), state, self.room, &mut floor, &mut |filling, _| {
            visit(self.board(filling), filling.value + beside)
        })
    }

    fn rows(&self, way: usize) -> (&Rows, usize) {
        let (state, _, used_up) = self.ways[way];
        (if used_up { self.tight.as_ref().unwrap_or(&self.loose) } else { &self.loose }, state)
    }

    fn board(&self, filling: &Filling) -> Board {
        let mut strips: Vec<(usize, u32)> = self.widths.iter().copied().zip(filling.copies.iter().copied()).collect();
        strips.retain(|(_, copies)| *copies > 0);
        Board { length: self.length, strips }
    }
}

/// All ways to count strips within the most cuts.
fn ways(problem: &Problem, ripping: &Ripping, most: u32, tight: bool, counted: bool) -> Vec<(usize, u32, bool)> {
    if !counted {
        return [(0, 0, false), (0, 0, true)].into_iter().filter(|(_, _, used_up)| tight || !used_up).collect();
    }
    let some_left = Length::from_raw(1);
    let loose = (1..=most).map(|strips| (strips as usize, ripping.cuts(strips, some_left), false));
    let used_up = (1..=most).filter(|_| tight).map(|n| (n as usize, ripping.cuts(n, Length::ZERO), true));
    loose.chain(used_up).filter(|(_, cuts, _)| problem.charges.most_cuts.is_none_or(|limit| *cuts <= limit)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::data::{File, Source, read};
    use proptest::prelude::*;

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
        #![proptest_config(ProptestConfig { cases: 200, failure_persistence: None, ..ProptestConfig::default() })]

        #[test]
        fn cuts_at_one_price_come_to_the_same_counted_or_not(
            trim in prop::sample::select(vec!["0", "0.5"]),
            values in prop::collection::vec(10..100_i64, 3),
            cut in 0..10_i64,
        ) {
            let problem = problem(trim);
            for ripping in &problem.rippings {
                let widths = problem.families[ripping.family].widths.len();
                let value: Vec<i64> = values.iter().copied().cycle().take(widths).collect();
                let most = |cut_price: Option<i64>| {
                    let strips = Strips { value: &value, least: 1, keeping: 0, cut: cut_price };
                    let boards = Boards::new(&problem, ripping, ripping.board.raw(), strips);
                    let each = if cut_price.is_some() { 0 } else { cut };
                    for (way, _) in boards.ways() {
                        if let Some((board, worth)) = boards.best(way, -1) {
                            let gross: i64 = board.strips.iter().map(|(at, copies)| value[*at] * i64::from(*copies)).sum();
                            let cuts = i64::from(board.cuts(&problem, ripping)) * cut_price.unwrap_or(0);
                            assert!(worth <= gross - cuts, "{worth} for {gross} less {cuts}");
                        }
                    }
                    boards.ways().map(|(way, cuts)| boards.most(way) - each * i64::from(cuts)).max()
                };
                prop_assert_eq!(most(Some(cut)), most(None));
            }
        }
    }
}
