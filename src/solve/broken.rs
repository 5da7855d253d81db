//! Layouts with a breakdown crosscut: two boards out of one sheet, each ripped into strips of its own. The place of the
//! crosscut is one of the few that can matter (see `model`); the best layout is the best pair of boards over all of
//! them, those with the most promise first.

use super::boards::{Boards, Strips};
use super::bound::{Breaks, Shelf, charge, strip_value};
use super::filled::{Filled, Piece};
use super::layout::{Board, Layout, blank};
use super::prices::Prices;
use super::tail::Tail;
use crate::length::Length;
use crate::model::{Problem, Ripping};
use std::collections::BTreeSet;

/// A board of a breakdown, with what can be ripped from it.
struct Half {
    length: i64,
    /// What a strip of each width is worth; nothing where the car does not take the board.
    value: Vec<i64>,
    /// No set of its strips is worth more.
    most: i64,
}

/// What the strips of a board are worth at the most, each rip costing so much.
type Worth = fn(&Problem, &Ripping, &Half, i64) -> i64;

/// Columns of a table that is good for a first look.
const ROUGH: i64 = 1 << 10;

/// One way to count the strips of a board: the way, or none for a board that is not ripped; its cuts; its value.
type Way = (Option<usize>, u32, i64);

/// The layout with a breakdown crosscut that costs least above what it is worth, if less than `least`.
pub(super) fn best_layout(
    problem: &Problem,
    index: usize,
    (prices, shelf, breaks): (&Prices, &Shelf, Breaks),
    mut least: i64,
) -> Option<(Layout, i64)> {
    let ripping = &problem.rippings[index];
    let usable: BTreeSet<i64> = prices.known.iter().filter(|b| b.family == ripping.family).map(|b| b.usable).collect();
    let rest = ripping.board - ripping.kerf;
    let is_known = |first: &&Length| {
        breaks == Breaks::All || [**first, rest - **first].iter().any(|at| usable.contains(&ripping.usable(*at).raw()))
    };
    let mut pairs: Vec<(i64, [Half; 2])> = ripping
        .breaks
        .iter()
        .filter(is_known)
        .map(|first| {
            let halves = halves(problem, ripping, first.raw(), |blank| {
                strip_value(prices, blank, shelf.family(blank.family).most(blank))
            });
            (halves[0].most + halves[1].most, halves)
        })
        .collect();
    pairs.sort_by_key(|(most, _)| std::cmp::Reverse(*most));
    let fewest = charge(problem, prices, ripping.sheet, 1);
    let mut best = None;
    for (most, halves) in &pairs {
        if fewest - most >= least {
            break;
        }
        let promised = |worth: Worth| promise(problem, prices, ripping, halves, worth) < least;
        if promised(roughly_worth)
            && promised(most_worth)
            && let Some((layout, cost)) = best_pair(problem, index, prices, halves, least)
        {
            (best, least) = (Some((layout, cost)), cost);
        }
    }
    best
}

/// The boards that a crosscut at `first` leaves.
fn halves(problem: &Problem, ripping: &Ripping, first: i64, value: impl Fn(super::pattern::Blank) -> i64) -> [Half; 2] {
    let half = |length: i64| {
        let widths = &problem.families[ripping.family].widths;
        let carried = length <= ripping.longest.raw();
        let value: Vec<i64> =
            (0..widths.len()).map(|at| if carried { value(blank(ripping, length, at)) } else { 0 }).collect();
        let room = i128::from((ripping.room + ripping.kerf).raw());
        let filled = |(at, value): (usize, &i64)| {
            let width = widths[at].width;
            let filled = i128::from(*value) * room / i128::from((width + ripping.kerf).raw());
            if width <= ripping.room { i64::try_from(filled).unwrap_or(i64::MAX / 8) + 1 } else { 0 }
        };
        let most = value.iter().enumerate().map(filled).max().unwrap_or(0).max(0);
        Half { length, value, most }
    };
    [half(first), half(ripping.board.raw() - ripping.kerf.raw() - first)]
}

/// No pair of these boards costs less above what it is worth: each cut counts at its price or, where the first ones are
/// free, at nothing, whichever tells more.
fn promise(problem: &Problem, prices: &Prices, ripping: &Ripping, halves: &[Half; 2], worth: Worth) -> i64 {
    let charges = &problem.charges;
    let (paid, free) = if charges.per_order { (prices.cut, 0) } else { (charges.cut * prices.scale, charges.free) };
    let at = |cut: i64| {
        let boards = halves.iter().map(|half| worth(problem, ripping, half, cut).max(0));
        charges.sheets[ripping.sheet] * prices.scale + cut * (1 - i64::from(free)) - boards.sum::<i64>()
    };
    let exact = charges.per_order || free == 0;
    if exact { at(paid) } else { at(0).max(at(paid)) }
}

/// The most that the strips of a board are worth, each rip costing so much.
fn most_worth(problem: &Problem, ripping: &Ripping, half: &Half, cut: i64) -> i64 {
    let room = (ripping.room + ripping.kerf).raw();
    let pieces = pieces(problem, ripping, half, cut);
    let Some(filled) = Filled::new(&pieces, room, None, &Tail::Nothing) else {
        return roughly_worth(problem, ripping, half, cut);
    };
    let most = |tail: Tail| filled.most(None, &tail);
    if !ripping.edge_trim.is_zero() {
        return most(Tail::Nothing) - cut;
    }
    // Strips that use the board up need no last cut.
    if cut == 0 { most(Tail::Nothing) } else { most(Tail::Nothing).max(most(Tail::UsedUp) + cut) }
}

/// No less than [`most_worth`], from a table of few columns, which rounds the strips' widths down.
fn roughly_worth(problem: &Problem, ripping: &Ripping, half: &Half, cut: i64) -> i64 {
    let room = (ripping.room + ripping.kerf).raw();
    let unit = room / ROUGH + 1;
    let pieces = pieces(problem, ripping, half, cut);
    if pieces.iter().any(|(length, _)| *length < unit) {
        return i64::MAX / 8;
    }
    let saved = if ripping.edge_trim.is_zero() { cut } else { -cut };
    Filled::rounded(&pieces, unit, room).most(None, &Tail::Nothing) + saved
}

/// The strips of a board that are worth something, and what is left of that beside a rip.
fn pieces(problem: &Problem, ripping: &Ripping, half: &Half, cut: i64) -> Vec<Piece> {
    let strips = problem.families[ripping.family].widths.iter().zip(&half.value);
    let strips = strips.filter(|(strip, value)| strip.width <= ripping.room && **value > 0);
    strips.map(|(strip, value)| ((strip.width + ripping.kerf).raw(), value - cut)).collect()
}

/// The best pair of these boards, if it costs less than `least` above what it is worth.
fn best_pair(
    problem: &Problem,
    index: usize,
    prices: &Prices,
    halves: &[Half; 2],
    least: i64,
) -> Option<(Layout, i64)> {
    let ripping = &problem.rippings[index];
    let boards = halves.each_ref().map(|half| tables(problem, ripping, half, 1));
    let ways = boards.each_ref().map(ways);
    let mut best: Option<(i64, [Way; 2])> = None;
    for one in &ways[0] {
        for other in &ways[1] {
            let Some(charge) = charge_of(problem, prices, ripping, one.1 + other.1) else { continue };
            let cost = charge - one.2 - other.2;
            if cost < best.map_or(least, |(least, _)| least) {
                best = Some((cost, [*one, *other]));
            }
        }
    }
    let (_, ways) = best?;
    let board = |at: usize| match ways[at].0 {
        Some(way) => boards[at].best(way, i64::MIN / 8),
        None => Some((Board { length: halves[at].length, strips: Vec::new() }, 0)),
    };
    let ((one, value), (other, more)) = (board(0)?, board(1)?);
    let charge = charge_of(problem, prices, ripping, ways[0].1 + ways[1].1)?;
    Some((Layout { ripping: index, boards: vec![one, other] }, charge - value - more))
}

fn tables(problem: &Problem, ripping: &Ripping, half: &Half, least: i64) -> Boards {
    Boards::new(problem, ripping, half.length, Strips { value: &half.value, most: None, least, keeping: 0, toll: None })
}

/// The ways to count the strips of a board, not to rip it among them.
fn ways(boards: &Boards) -> Vec<Way> {
    let ripped = boards.ways().map(|(way, cuts)| (Some(way), cuts, boards.most(way)));
    std::iter::once((None, 0, 0)).chain(ripped.filter(|(_, _, value)| *value > 0)).collect()
}

/// What a sheet with so many rips and the crosscut costs; none where the yard makes no so many cuts.
fn charge_of(problem: &Problem, prices: &Prices, ripping: &Ripping, rips: u32) -> Option<i64> {
    let within = problem.charges.most_cuts.is_none_or(|most| rips < most);
    within.then(|| charge(problem, prices, ripping.sheet, rips + 1))
}

/// Visits every layout with a breakdown crosscut that is worth at least what `floor` says for its number of cuts;
/// stops where the visitor returns false. A strip that nothing wanted can be cut from has a value below zero.
pub(super) fn walk(
    problem: &Problem,
    index: usize,
    value: &dyn Fn(super::pattern::Blank) -> i64,
    floor: &dyn Fn(u32) -> i64,
    visit: &mut dyn FnMut(Layout) -> bool,
) -> bool {
    let ripping = &problem.rippings[index];
    ripping.breaks.iter().all(|first| {
        let halves = halves(problem, ripping, first.raw(), value);
        if halves[0].most + halves[1].most < floor(1) {
            return true;
        }
        let carried = |half: &Half| half.length <= ripping.longest.raw();
        let boards = halves.each_ref().map(|half| carried(half).then(|| tables(problem, ripping, half, 0)));
        let all = |at: usize| -> Vec<Way> {
            let ripped = boards[at].iter().flat_map(|boards| {
                boards.ways().map(|(way, cuts)| (Some(way), cuts, boards.most(way))).collect::<Vec<_>>()
            });
            std::iter::once((None, 0, 0)).chain(ripped).collect()
        };
        let (left, right) = (all(0), all(1));
        let most_cuts = problem.charges.most_cuts;
        left.iter().all(|one| {
            right.iter().all(|other| {
                let cuts = one.1 + other.1 + 1;
                if most_cuts.is_some_and(|most| cuts > most) {
                    return true;
                }
                let floor = floor(cuts);
                each(boards[0].as_ref(), &halves[0], *one, floor - other.2, &mut |first, value| {
                    each(boards[1].as_ref(), &halves[1], *other, floor - value, &mut |second, _| {
                        visit(Layout { ripping: index, boards: vec![first.clone(), second] })
                    })
                })
            })
        })
    })
}

/// Visits the boards of one way that are worth at least `floor`.
fn each(boards: Option<&Boards>, half: &Half, way: Way, floor: i64, visit: &mut dyn FnMut(Board, i64) -> bool) -> bool {
    match (way.0, boards) {
        (Some(way), Some(boards)) => boards.walk(way, floor.max(0), &[], visit),
        _ => floor > 0 || visit(Board { length: half.length, strips: Vec::new() }, 0),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::data::{File, Source, read};
    use proptest::prelude::*;

    /// A 48 x 96 sheet that may be broken down, trimmed at its edges or not, with widths that no coarse unit divides.
    fn problem(edge_trim: &str) -> Problem {
        let sheet = format!("[[sheet]]\nlength = 96\nwidth = 48\nprice = 40\nedge_trim = \"{edge_trim}\"\n");
        let panel = |size: &str| format!("[[panel]]\nsize = \"{size}\"\ncount = 9\ngrain = \"upright\"\n");
        let panels = ["12 x 16", "8 1/3 x 10", "5 7/64 x 7", "9 x 12"].map(panel).concat();
        let text = format!("{sheet}{panels}[yard]\nbreakdown = \"allowed\"\n");
        let job = read(&Source { job: File::of("job", text), list: None, rack: None }).expect("the job is sound");
        crate::model::build(&job).expect("its panels can be made")
    }

    proptest! {
        #![proptest_config(ProptestConfig { cases: 200, failure_persistence: None, ..ProptestConfig::default() })]

        #[test]
        fn a_first_look_promises_no_less_than_a_close_one(
            value in prop::collection::vec(0..1_000_000_i64, 4),
            cut in 0..200_000_i64,
            edge_trim in prop::sample::select(vec!["0", "1/8"]),
        ) {
            let problem = problem(edge_trim);
            let ripping = &problem.rippings[0];
            prop_assert_eq!(problem.families[ripping.family].widths.len(), value.len());
            let half = Half { length: ripping.board.raw() / 2, value, most: 0 };
            let (rough, close) = (roughly_worth(&problem, ripping, &half, cut), most_worth(&problem, ripping, &half, cut));
            prop_assert!(rough >= close, "{} is under {}", rough, close);
        }
    }
}
