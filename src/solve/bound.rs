//! What prices prove. For *any* prices that are not below zero, every plan of a scope that has no strip to spare (and of
//! those that have, none is cheaper) costs at least
//!
//! - the panels wanted, at their prices,
//! - less what the strips on hand can give, and the free cuts, at theirs,
//! - plus, for each kind of sheet, as many sheets as the scope asks for (or as pay) times the least that a layout costs
//!   above what its strips are worth, of which a whole sheet gives no more than the scope crosscuts,
//! - plus, for each strip width whose number is narrowed, the cheapest number times what a strip costs above what its
//!   best pattern is worth,
//! - plus what the covers ask for, at their prices; a strip is worth to its layout what the covers count it for besides
//!   its best pattern ([`super::cover`]).
//!
//! This is the Lagrangian bound of the two-stage program; where no layout is worth more than it costs and nothing is
//! narrowed, it is the value of the dual solution, as in Gilmore and Gomory 1961, and where some is, the counts of the
//! scope keep the bound finite without the scaling of Farley 1990. All of it in whole numbers: prices are rounded once,
//! values are exact maxima of the knapsack, whose tables hold them in cells that keep whole numbers whole
//! ([`super::cell`]). So errors of the linear program can make the bound weak, never wrong.

use super::boards::{Boards, Strips, Toll};
use super::broken;
use super::layout::Layout;
use super::need::Need;
use super::pattern::{Blank, Pattern, Patterns, Worth};
use super::prices::Prices;
use super::scope::{Count, Scope};
use crate::model::{Problem, Ripping};
use std::collections::BTreeMap;

/// Prices judged for a scope.
#[derive(Clone, Debug)]
pub(super) struct Judged {
    /// No plan of the scope costs less, in fixed point; none where the scope holds no plan at all.
    pub total: Option<i128>,
    /// The best pattern of each strip that some board gives, and its value.
    pub strips: BTreeMap<Blank, (i64, Pattern)>,
    /// The best pattern of each strip on hand.
    pub on_hand: Vec<(i64, Pattern)>,
    /// For each way to rip, the layout that costs least above what it is worth, and that cost.
    pub layouts: Vec<Option<(Layout, i64)>>,
    /// For each way to rip, what the first sheet ripped so adds to the total, its least cost included.
    pub first: Vec<i128>,
}

/// Where the crosscut of a breakdown may lie.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Breaks {
    /// At every place that can matter.
    All,
    /// Where the program knows a strip of one of the boards: this is faster, and proves nothing.
    Known,
}

/// Judges prices for what is needed, over the plans of a scope.
pub(super) fn judge(problem: &Problem, need: &Need, scope: &Scope, prices: &Prices, breaks: Breaks) -> Judged {
    let shelf = Shelf::new(problem, need, prices);
    let (mut strips, on_hand) = (BTreeMap::new(), shelf.on_hand(problem));
    let mut layouts = vec![None; problem.rippings.len()];
    let mut known = prices.known.clone();
    for (index, ripping) in problem.rippings.iter().enumerate() {
        if scope.rippings[index].most > 0 && scope.kinds[ripping.sheet].most > 0 {
            let mut best = None;
            if ripping.whole {
                let whole = shelf.strips(problem, ripping, ripping.board.raw());
                best = Some(best_layout(problem, (need, scope), index, prices, &whole));
                strips.extend(whole.into_iter().map(|(value, pattern)| (pattern.blank, (value, pattern))));
            }
            if ripping.broken {
                let least = best.as_ref().map_or(charge(problem, prices, ripping.sheet, 0), |(_, least)| *least);
                best = broken::best_layout(problem, index, (prices, &shelf, breaks), least).or(best);
            }
            let best = best.unwrap_or_else(|| nothing_cut(problem, index, prices));
            known.extend(best.0.blanks(problem).map(|(blank, _)| blank));
            layouts[index] = Some(best);
        }
    }
    for blank in known {
        strips.entry(blank).or_insert_with(|| shelf.family(blank.family).best(blank));
    }
    let least: Vec<Option<i64>> = layouts.iter().map(|best| best.as_ref().map(|(_, cost)| *cost)).collect();
    let panels = panels(need, prices, &on_hand) + prices.covered + narrowed(problem, need, scope, prices, &strips);
    let sheets = sheets(problem, scope, &least);
    let first = (0..least.len()).map(|index| first(problem, scope, &least, index, sheets)).collect();
    // What was not looked at may cost less still.
    let total = if breaks == Breaks::All { sheets.map(|sheets| panels + sheets) } else { Some(0) };
    Judged { total, strips, on_hand, layouts, first }
}

/// The tables of patterns of all families at given prices.
pub(super) struct Shelf<'a> {
    patterns: Vec<Patterns<'a>>,
}

impl<'a> Shelf<'a> {
    /// Tables that serve every strip of the problem.
    pub(super) fn new(problem: &'a Problem, need: &Need, prices: &Prices) -> Shelf<'a> {
        let worth = Worth { price: &prices.size, most: &need.count, keeping: prices.keeping };
        let longest = |family: usize| {
            let boards = problem.rippings.iter().filter(|ripping| ripping.family == family);
            let boards = boards.map(|ripping| ripping.usable(ripping.board).max(ripping.board - ripping.first).raw());
            let on_hand = problem.on_hand.iter().filter(|strip| strip.family == family);
            boards.chain(on_hand.map(|strip| strip.usable.raw())).max().unwrap_or(0)
        };
        let families = 0..problem.families.len();
        Shelf { patterns: families.map(|family| Patterns::new(problem, family, worth, longest(family))).collect() }
    }

    /// The best pattern of each width from a board.
    pub(super) fn strips(&self, problem: &Problem, ripping: &Ripping, board: i64) -> Vec<(i64, Pattern)> {
        let widths = 0..problem.families[ripping.family].widths.len();
        let best = |width| self.patterns[ripping.family].best(super::layout::blank(ripping, board, width));
        widths.map(best).collect()
    }

    /// The best pattern of each strip on hand.
    pub(super) fn on_hand(&self, problem: &Problem) -> Vec<(i64, Pattern)> {
        let blanks = problem.on_hand.iter().map(on_hand_blank);
        blanks.map(|blank| self.patterns[blank.family].best(blank)).collect()
    }

    /// The patterns of a family.
    pub(super) fn family(&self, family: usize) -> &Patterns<'a> {
        &self.patterns[family]
    }
}

/// The blank of a strip on hand.
pub(super) fn on_hand_blank(strip: &crate::model::OnHand) -> Blank {
    Blank { family: strip.family, width: 0, usable: strip.usable.raw(), stub: 0 }
}

/// What a layout with so many cuts costs at these prices, in fixed point.
pub(super) fn charge(problem: &Problem, prices: &Prices, sheet: usize, cuts: u32) -> i64 {
    let charges = &problem.charges;
    let money = prices.scale * (charges.sheets[sheet] + charges.of_cuts(cuts));
    money + prices.cut * i64::from(if charges.per_order { cuts } else { 0 })
}

/// What one more strip is worth to a layout.
pub(super) fn strip_value(prices: &Prices, blank: Blank, best: i64) -> i64 {
    prices.strip.get(&blank).copied().unwrap_or_else(|| best + prices.covering(blank))
}

/// The layout of this way to rip that costs least above what it is worth.
fn best_layout(
    problem: &Problem,
    (need, scope): (&Need, &Scope),
    index: usize,
    prices: &Prices,
    strips: &[(i64, Pattern)],
) -> (Layout, i64) {
    let ripping = &problem.rippings[index];
    let value: Vec<i64> = strips.iter().map(|(best, pattern)| strip_value(prices, pattern.blank, *best)).collect();
    let most: Vec<u32> =
        strips.iter().map(|(_, pattern)| scope.most_on_a_sheet(problem, need, pattern.blank)).collect();
    let strips =
        Strips { value: &value, most: Some(&most), least: 1, keeping: prices.keeping, toll: toll(problem, prices) };
    let boards = Boards::new(problem, ripping, ripping.board.raw(), strips);
    let (mut best, mut least) = nothing_cut(problem, index, prices);
    for (way, cuts) in boards.ways() {
        let cost = charge(problem, prices, ripping.sheet, cuts);
        if boards.most(way) > cost - least
            && let Some((board, value)) = boards.best(way, cost - least)
        {
            (best, least) = (Layout { ripping: index, boards: vec![board] }, cost - value);
        }
    }
    (best, least)
}

/// What cuts cost at these prices, where a sheet may have any number of them.
pub(super) fn toll(problem: &Problem, prices: &Prices) -> Option<Toll> {
    let charges = &problem.charges;
    let toll = if charges.per_order {
        Toll { each: prices.cut, free: 0 }
    } else {
        Toll { each: prices.scale * charges.cut, free: charges.free }
    };
    charges.most_cuts.is_none().then_some(toll)
}

/// Where no strip is worth anything, a sheet costs what it costs.
fn nothing_cut(problem: &Problem, index: usize, prices: &Prices) -> (Layout, i64) {
    let ripping = &problem.rippings[index];
    let board = super::layout::Board { length: ripping.board.raw(), strips: Vec::new() };
    (Layout { ripping: index, boards: vec![board] }, charge(problem, prices, ripping.sheet, 0))
}

/// What the panels wanted are worth, less what strips on hand and free cuts are.
fn panels(need: &Need, prices: &Prices, on_hand: &[(i64, Pattern)]) -> i128 {
    let times = |count: u32, price: i64| i128::from(count) * i128::from(price);
    let panels: i128 = need.count.iter().zip(&prices.size).map(|(count, price)| times(*count, *price)).sum();
    let strips: i128 = need.on_hand.iter().zip(on_hand).map(|(count, best)| times(*count, best.0)).sum();
    panels - strips - times(need.free, prices.cut)
}

/// What strips that have a price of their own cost above what they are worth.
fn narrowed(
    problem: &Problem,
    need: &Need,
    scope: &Scope,
    prices: &Prices,
    strips: &BTreeMap<Blank, (i64, Pattern)>,
) -> i128 {
    let cheapest = |(blank, price): (&Blank, &i64)| {
        let best = strips.get(blank).map_or(0, |(best, _)| *best);
        let each = i128::from(price - prices.covering(*blank) - best);
        let range = scope.range(problem, need, Count::Strips(*blank));
        (each * i128::from(range.least)).min(each * i128::from(range.most))
    };
    prices.strip.iter().map(cheapest).sum()
}

/// The least that the sheets of a scope cost above what they are worth; none where its counts leave no choice.
fn sheets(problem: &Problem, scope: &Scope, least: &[Option<i64>]) -> Option<i128> {
    (0..scope.kinds.len()).map(|kind| sheets_of(problem, scope, least, kind)).sum()
}

/// The same of one kind: first what each way to rip must have, then the cheapest ways up to what the kind must have,
/// then those that pay up to what it may have.
fn sheets_of(problem: &Problem, scope: &Scope, least: &[Option<i64>], kind: usize) -> Option<i128> {
    let range = scope.kinds[kind];
    let mut ways: Vec<(i64, i64)> = Vec::new();
    let (mut count, mut total) = (0, 0_i128);
    for (index, _) in problem.rippings.iter().enumerate().filter(|(_, ripping)| ripping.sheet == kind) {
        let ripped = scope.rippings[index];
        if ripped.least > ripped.most {
            return None;
        }
        match least[index] {
            Some(cost) => {
                count += ripped.least;
                total += i128::from(cost) * i128::from(ripped.least);
                ways.push((cost, ripped.most - ripped.least));
            }
            None if ripped.least > 0 => return None,
            None => {}
        }
    }
    ways.sort_unstable();
    for (cost, more) in ways {
        let must = (range.least - count).max(0);
        let may = if cost < 0 { (range.most - count).max(0) } else { must };
        let more = more.min(may);
        count += more;
        total += i128::from(cost) * i128::from(more);
    }
    (range.least <= count && count <= range.most).then_some(total)
}

/// What the total rises by where at least one sheet is ripped this way.
fn first(problem: &Problem, scope: &Scope, least: &[Option<i64>], index: usize, sheets: Option<i128>) -> i128 {
    let mut forced = scope.clone();
    forced.rippings[index].least = forced.rippings[index].least.max(1);
    let forced = self::sheets(problem, &forced, least);
    match (forced, sheets) {
        (Some(forced), Some(sheets)) => forced - sheets,
        _ => i128::MAX / 4,
    }
}

#[cfg(test)]
mod tests {
    use super::super::generate::{bounded, generate};
    use super::super::scope::Range;
    use super::*;
    use crate::data::{File, Source, read};
    use crate::solve::Patient;
    use proptest::prelude::*;

    /// Twenty-five panels of 12 x 16 and nine of 9 x 12, upright, with two kinds of sheets and paid cuts: 1.02 sheets'
    /// worth and more of wood. Cheapest by hand: one sheet cannot do (24 are the most, see the tests of known cases).
    fn problem(breakdown: &str) -> Problem {
        let text = format!(
            "[[sheet]]\nname = \"whole\"\nlength = 96\nwidth = 48\nprice = 38.50\n\
             [[sheet]]\nname = \"half\"\nlength = 48\nwidth = 48\nprice = 22.00\n\
             [[panel]]\nsize = \"12 x 16\"\ncount = 25\nscant = \"1/8\"\n\
             [[panel]]\nsize = \"9 x 12\"\ncount = 9\ngrain = \"upright\"\n\
             [yard]\nrips = \"either\"\ncut_price = 0.50\nfree_cuts = 2\nbreakdown = {breakdown:?}\n[car]\nlongest = 75\n"
        );
        let job = read(&Source { job: File::of("two kinds", text), list: None, rack: None }).expect("the job is sound");
        crate::model::build(&job).expect("its panels can be made")
    }

    /// What a plan costs, in units.
    fn cost(problem: &Problem) -> i64 {
        let Ok(money) = super::super::money::least(problem, &Patient) else { panic!("the job can be done") };
        assert!(money.proved());
        money.cost
    }

    /// Every price times so many sixteenths, and a little more or less.
    fn wrong(prices: &Prices, by: &[(i64, i64)]) -> Prices {
        let mut wrong = prices.clone();
        let strips = wrong.strip.values_mut();
        let all = wrong.size.iter_mut().chain([&mut wrong.cut]).chain(strips);
        all.zip(by.iter().cycle()).for_each(|(price, (times, more))| *price = (*price / 16 * times + more).max(0));
        wrong
    }

    proptest! {
        #![proptest_config(ProptestConfig { cases: 200, failure_persistence: None, ..ProptestConfig::default() })]

        #[test]
        fn a_bound_holds_at_any_prices(
            by in prop::collection::vec((0..40_i64, -1_000_000_000..1_000_000_000_i64), 1..8),
            breakdown in prop::sample::select(vec!["never", "if needed"]),
        ) {
            let problem = problem(breakdown);
            let (need, least) = (Need::of(&problem), cost(&problem));
            let relaxed = generate(&problem, &need, &[], &Patient);
            let scope = Scope::all(&problem, &need, None);
            let found = bounded(&problem, &need, &scope, wrong(&relaxed.prices, &by));
            prop_assert!(found.bound.is_none_or(|bound| bound <= least), "{:?} is above {least}", found.bound);
            // The same where strips are counted and have prices of their own, all counts being possible.
            let mut counted = scope.clone();
            let mut prices = relaxed.prices.clone();
            for (blank, (best, _)) in &found.judged.strips {
                counted.strips.insert(*blank, Range { least: 0, most: scope.range(&problem, &need, Count::Strips(*blank)).most });
                prices.strip.insert(*blank, *best);
            }
            let found = bounded(&problem, &need, &counted, wrong(&prices, &by));
            prop_assert!(found.bound.is_none_or(|bound| bound <= least), "{:?} is above {least}", found.bound);
        }
    }

    /// Two rips and one more for the trimmed edges cost more than strips worth next to nothing bring in.
    #[test]
    fn a_sheet_need_not_be_ripped() {
        let text = "[[sheet]]\nlength = 96\nwidth = 48\nprice = 38.50\nedge_trim = 0.5\n\
                    [[panel]]\nsize = \"12 x 16\"\ncount = 4\n[yard]\ncut_price = 0.50\n";
        for most_cuts in ["", "most_cuts = 9\n"] {
            let job = read(&Source { job: File::of("trimmed", text.to_owned() + most_cuts), list: None, rack: None });
            let problem = crate::model::build(&job.expect("it is sound")).expect("they can be made");
            let need = Need::of(&problem);
            let mut prices = generate(&problem, &need, &[], &Patient).prices;
            prices.size.fill(1);
            let judged = judge(&problem, &need, &Scope::all(&problem, &need, None), &prices, Breaks::All);
            for (layout, cost) in judged.layouts.iter().flatten() {
                assert_eq!(*cost, 3850 * prices.scale, "{layout:?}");
            }
        }
    }

    #[test]
    fn the_prices_of_the_linear_program_come_close() {
        let problem = problem("never");
        let need = Need::of(&problem);
        let relaxed = generate(&problem, &need, &[], &Patient);
        let found = bounded(&problem, &need, &Scope::all(&problem, &need, None), relaxed.prices);
        let bound = found.bound.expect("there are plans");
        assert!(bound <= cost(&problem) && 2 * bound > cost(&problem), "{bound} of {}", cost(&problem));
    }
}
