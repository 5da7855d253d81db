//! The pool of layouts and patterns that any plan of a scope within a target can be made of. The bound of a scope rises
//! by what a layout or a pattern costs above the best of its kind; so one that alone lifts it above the target is in no
//! such plan. Several prices may look at the same scope, and each may rule out what the others let pass. Of those left,
//! only the largest are listed: a pattern that another one contains, or a layout that one of the same cost contains, is
//! not needed, nor is one with a panel that takes more of its strip than it would if it were turned. Nor is a sheet with
//! more strips of a blank than the scope crosscuts.

use super::boards::{Boards, Strips};
use super::bound::{Shelf, charge, on_hand_blank, strip_value, toll};
use super::broken;
use super::generate::Bounded;
use super::layout::Layout;
use super::master::Made;
use super::need::Need;
use super::pattern::{Blank, Found};
use super::prices::Prices;
use super::scope::Scope;
use super::watch::Watch;
use crate::model::Problem;
use std::cell::Cell;
use std::collections::BTreeSet;
use std::mem::take;

/// Most layouts and patterns that are looked at for one that is listed.
const LOOKS: usize = 16;

/// Most kinds of strips that are searched through.
const MOST_STRIPS: usize = 300;

/// Prices for a scope, and what they leave up to a target.
struct Lens<'a> {
    problem: &'a Problem,
    scope: &'a Scope,
    bounded: &'a Bounded,
    shelf: Shelf<'a>,
    gap: i128,
}

/// Looks until it is asked again whether time is up.
const TURN: usize = 64;

/// What lists the pool.
struct Pool<'a> {
    problem: &'a Problem,
    need: &'a Need,
    lenses: Vec<Lens<'a>>,
    most: usize,
    /// Looks left.
    looks: Cell<usize>,
    listed: Vec<Made>,
    watch: &'a dyn Watch,
}

/// Lists the pool of all plans of a scope of at most `target` units; none where it would hold more than `most`, or time
/// is up.
pub(super) fn pool(
    problem: &Problem,
    need: &Need,
    scope: &Scope,
    prices: &[&Bounded],
    (target, most): (i64, usize),
    watch: &dyn Watch,
) -> Option<Vec<Made>> {
    let lens = |bounded| Lens::new(problem, need, scope, bounded, target);
    let lenses: Option<Vec<Lens>> = prices.iter().copied().map(lens).collect();
    let Some(lenses) = lenses else { return Some(Vec::new()) };
    let mut pool = Pool { problem, need, lenses, most, looks: Cell::new(most * LOOKS), listed: Vec::new(), watch };
    let complete = pool.list_layouts() && pool.list_patterns();
    if !complete {
        return None;
    }
    // Those of one strip come in a row.
    pool.listed.sort();
    pool.listed.dedup();
    Some(pool.listed)
}

impl<'a> Lens<'a> {
    /// None where no plan of the scope comes within the target.
    fn new(problem: &'a Problem, need: &Need, scope: &'a Scope, bounded: &'a Bounded, target: i64) -> Option<Lens<'a>> {
        let gap = i128::from(target) * i128::from(bounded.prices.scale) - bounded.judged.total?;
        let shelf = || Shelf::new(problem, need, &bounded.prices);
        (gap >= 0).then(|| Lens { problem, scope, bounded, shelf: shelf(), gap })
    }

    /// What the best pattern of a strip is worth.
    fn best(&self, blank: Blank) -> i64 {
        let known = self.bounded.judged.strips.get(&blank);
        known.map_or_else(|| self.shelf.family(blank.family).most(blank), |(best, _)| *best)
    }

    fn prices(&self) -> &'a Prices {
        &self.bounded.prices
    }

    /// The least value of a pattern of this blank that can be in the pool, beside the best one's.
    fn floor_of_pattern(&self, blank: Blank) -> i64 {
        let best = self.best(blank);
        let each = strip_value(self.prices(), blank, best) - self.prices().covering(blank) - best;
        let least = self.scope.strips.get(&blank).map_or(0, |range| range.least);
        let first = if least <= 0 { each.max(0) } else { 0 };
        narrow(i128::from(best) - self.gap + i128::from(first))
    }

    fn floor_on_hand(&self, strip: usize) -> i64 {
        narrow(i128::from(self.bounded.judged.on_hand[strip].0) - self.gap)
    }

    /// The least value of a layout ripped so, with so many cuts, that can be in the pool.
    fn floor_of_layout(&self, ripping: usize, cuts: u32) -> i64 {
        let Some((_, least)) = &self.bounded.judged.layouts[ripping] else { return i64::MAX / 8 };
        let charge = charge(self.problem, self.prices(), self.problem.rippings[ripping].sheet, cuts);
        let spare = self.gap - self.bounded.judged.first[ripping] + i128::from(*least);
        narrow(i128::from(charge) - spare)
    }

    fn value_of_strip(&self, blank: Blank) -> i64 {
        strip_value(self.prices(), blank, self.best(blank))
    }

    fn layout_value(&self, layout: &Layout) -> i64 {
        let strips = layout.blanks(self.problem);
        strips.map(|(blank, copies)| self.value_of_strip(blank) * i64::from(copies)).sum()
    }
}

fn narrow(value: i128) -> i64 {
    i64::try_from(value.clamp(i128::from(i64::MIN / 8), i128::from(i64::MAX / 8))).expect("clamped")
}

impl Pool<'_> {
    fn list_patterns(&mut self) -> bool {
        let blanks = self.blanks();
        if blanks.len() > MOST_STRIPS {
            return false;
        }
        let yard = blanks.into_iter().map(|blank| (blank, None));
        let on_hand = self.problem.on_hand.iter().enumerate().map(|(strip, at)| (on_hand_blank(at), Some(strip)));
        let strips: Vec<(Blank, Option<usize>)> = yard.chain(on_hand).collect();
        // Counted before any is made, as there may be too many.
        let mut many = self.listed.len();
        let few = strips.iter().all(|strip| {
            walk_patterns(&self.lenses, *strip, &self.looks, &mut |_, needed| {
                many += usize::from(needed);
                self.goes_on(many)
            })
        });
        few && strips.into_iter().all(|(blank, on_hand)| {
            let listed = &mut self.listed;
            walk_patterns(&self.lenses, (blank, on_hand), &Cell::new(usize::MAX), &mut |found, needed| {
                if needed {
                    listed.push(match on_hand {
                        Some(strip) => Made::OnHand(strip, found.pattern()),
                        None => Made::Pattern(found.pattern()),
                    });
                }
                true
            })
        })
    }

    /// All strips that the layouts listed give.
    fn blanks(&self) -> BTreeSet<Blank> {
        let layouts = self.listed.iter().filter_map(|made| match made {
            Made::Layout(layout) => Some(layout),
            Made::Pattern(_) | Made::OnHand(..) => None,
        });
        layouts.flat_map(|layout| layout.blanks(self.problem)).map(|(blank, _)| blank).collect()
    }

    /// Whether to look at more, where there are so many by now.
    fn goes_on(&self, many: usize) -> bool {
        let left = self.looks.get().saturating_sub(1);
        self.looks.set(left);
        let stopped = left.is_multiple_of(TURN) && self.watch.stop();
        left > 0 && many <= self.most && !stopped
    }

    fn list_layouts(&mut self) -> bool {
        (0..self.problem.rippings.len()).all(|index| self.list_layouts_of(index))
    }

    fn list_layouts_of(&mut self, index: usize) -> bool {
        let ripping = &self.problem.rippings[index];
        if self.lenses[0].bounded.judged.layouts[index].is_none() {
            return true;
        }
        let lenses = take(&mut self.lenses);
        let complete = (!ripping.whole || self.list_whole(index, &lenses))
            && (!ripping.broken || self.list_broken(index, &lenses));
        self.lenses = lenses;
        complete
    }

    fn list_whole(&mut self, index: usize, lenses: &[Lens]) -> bool {
        let (problem, scope) = (self.problem, lenses[0].scope);
        let ripping = &problem.rippings[index];
        let board = ripping.board.raw();
        let blanks: Vec<Blank> = (0..problem.families[ripping.family].widths.len())
            .map(|at| super::layout::blank(ripping, board, at))
            .collect();
        let most: Vec<u32> = blanks.iter().map(|blank| scope.most_on_a_sheet(problem, self.need, *blank)).collect();
        let counts = |lens| blanks.iter().map(|blank| counts_for(problem, self.need, lens, *blank)).collect();
        let value: Vec<i64> = counts(&lenses[0]);
        let boards = |lens: &Lens, value: &[i64]| {
            let toll = toll(problem, lens.prices());
            Boards::new(problem, ripping, board, Strips { value, most: Some(&most), least: 0, keeping: 0, toll })
        };
        let first = boards(&lenses[0], &value);
        // The same strips for all; what one counts for below zero is left to the look at each layout.
        let same = |(first, value): (&i64, i64)| if *first < 0 { -1 } else { value.max(0) };
        let others: Vec<(&Lens, Boards)> = lenses[1..]
            .iter()
            .map(|lens| {
                let values: Vec<i64> = counts(lens);
                let values: Vec<i64> = value.iter().zip(values).map(same).collect();
                (lens, boards(lens, &values))
            })
            .collect();
        first.ways().collect::<Vec<_>>().into_iter().all(|(way, cuts)| {
            let floors = others.iter().map(|(lens, boards)| (boards, lens.floor_of_layout(index, cuts)));
            first.walk(way, lenses[0].floor_of_layout(index, cuts), &floors.collect::<Vec<_>>(), &mut |board, _| {
                self.list_layout(Layout { ripping: index, boards: vec![board] }, lenses)
            })
        })
    }

    fn list_broken(&mut self, index: usize, lenses: &[Lens]) -> bool {
        let (problem, need, lens) = (self.problem, self.need, &lenses[0]);
        let value = |blank| counts_for(problem, need, lens, blank);
        let floor = |cuts: u32| lens.floor_of_layout(index, cuts);
        broken::walk(problem, index, &value, &floor, &mut |layout| self.list_layout(layout, lenses))
    }

    /// Lists a layout that all lenses let pass, if it is needed.
    fn list_layout(&mut self, layout: Layout, lenses: &[Lens]) -> bool {
        let cuts = layout.cuts(self.problem);
        let seen =
            lenses.iter().skip(1).all(|lens| lens.layout_value(&layout) >= lens.floor_of_layout(layout.ripping, cuts));
        let some = layout.boards.iter().any(|board| !board.strips.is_empty());
        if seen && some && self.is_fullest(&layout, lenses[0].scope) {
            self.listed.push(Made::Layout(layout));
        }
        self.goes_on(self.listed.len())
    }

    /// Whether no useful strip can be added at the same cost and with the same cuts, as far as a sheet gives more.
    fn is_fullest(&self, layout: &Layout, scope: &Scope) -> bool {
        let ripping = &self.problem.rippings[layout.ripping];
        let widths = &self.problem.families[ripping.family].widths;
        let cuts = layout.cuts(self.problem);
        let useful = |width: &usize| widths[*width].laid.iter().any(|laid| self.need.count[laid.size] > 0);
        let carried = layout.boards.iter().filter(|board| board.length <= ripping.longest.raw());
        carried.into_iter().all(|board| {
            let spare = board.spare(self.problem, ripping);
            let may_be_more = |width: &usize| {
                let copies = board.strips.iter().find(|(at, _)| at == width).map_or(0, |(_, copies)| *copies);
                let blank = super::layout::blank(ripping, board.length, *width);
                layout.is_broken() || copies < scope.most_on_a_sheet(self.problem, self.need, blank)
            };
            (0..widths.len()).all(|width| {
                let left = spare - (widths[width].width + ripping.kerf).raw();
                let more = || cuts - board.cuts(self.problem, ripping) + board.cuts_with_one_more(ripping, left);
                let dearer = || self.problem.charges.cuts_matter() && self.are_dearer(more(), cuts);
                left < 0 || !useful(&width) || dearer() || !may_be_more(&width)
            })
        })
    }

    /// Whether so many cuts on a sheet cost more than so many before, or are too many.
    fn are_dearer(&self, cuts: u32, before: u32) -> bool {
        let charges = &self.problem.charges;
        let past = charges.most_cuts.is_some_and(|most| cuts > most);
        cuts > before && (past || charges.per_order || charges.of_cuts(cuts) > charges.of_cuts(before))
    }
}

/// Visits the largest patterns of a strip of the yard, or of one on hand, that all lenses let pass, and says whether they
/// are needed; as long as no more than so many others are passed over.
fn walk_patterns(
    lenses: &[Lens],
    (blank, on_hand): (Blank, Option<usize>),
    passed: &Cell<usize>,
    visit: &mut dyn FnMut(&Found, bool) -> bool,
) -> bool {
    let floor = |lens: &Lens| on_hand.map_or_else(|| lens.floor_of_pattern(blank), |strip| lens.floor_on_hand(strip));
    let patterns: Vec<_> = lenses.iter().map(|lens| (lens.shelf.family(blank.family), floor(lens))).collect();
    let narrower = lie_narrower(&lenses[0], blank);
    let (first, floor) = patterns[0];
    first.walk_largest((blank, floor), &patterns[1..], passed, &mut |found| {
        let mut pieces = found.pieces();
        let needed = match &narrower {
            Some(narrower) => pieces.any(|(at, _)| !narrower[at]),
            None => pieces.next().is_some(),
        };
        visit(found, needed)
    })
}

/// Which panels lie on a narrower strip too. Where all of a pattern do, that strip serves, which costs no more; so some
/// panel must need the strip as wide as it is. None where it may be as wide as it is all the same: where the yard's cuts
/// count and the last of the sheet was used up, or the strips of a width are counted.
fn lie_narrower(lens: &Lens, blank: Blank) -> Option<Vec<bool>> {
    let problem = lens.problem;
    let widths = &problem.families[blank.family].widths;
    let narrower = &widths[blank.width.checked_sub(1)?].laid;
    if problem.charges.cuts_matter() || !lens.scope.strips.is_empty() {
        return None;
    }
    let lies =
        |laid: &crate::model::Laid| narrower.iter().any(|other| (other.size, other.turned) == (laid.size, laid.turned));
    Some(widths[blank.width].laid.iter().map(lies).collect())
}

/// What a strip counts for; below zero where nothing wanted can be cut from it.
fn counts_for(problem: &Problem, need: &Need, lens: &Lens, blank: Blank) -> i64 {
    let laid = &problem.families[blank.family].widths[blank.width].laid;
    if laid.iter().any(|laid| need.count[laid.size] > 0) { lens.value_of_strip(blank) } else { -1 }
}

#[cfg(test)]
mod tests {
    use super::super::generate::{bounded, generate, relax};
    use super::super::master::Master;
    use super::super::money::least;
    use super::super::program::Program;
    use super::super::scope::{Count, Range};
    use super::super::search::{Search, Verdict};
    use super::super::watch::Progress;
    use super::*;
    use crate::data::{File, Source, read};
    use crate::solve::Patient;
    use proptest::prelude::*;
    use std::collections::BTreeMap;

    struct TimeIsUp;

    impl Watch for TimeIsUp {
        fn stop(&self) -> bool {
            true
        }
        fn seconds(&self) -> f64 {
            1.0
        }
        fn allowed(&self) -> f64 {
            1.0
        }
        fn report(&self, _: Progress) {}
    }

    /// A list is searched through to prove that nothing is cheaper, so half of one must not pass for all of it.
    #[test]
    fn a_list_cut_short_by_the_time_is_none() {
        let text = "[[sheet]]\nlength = 96\nwidth = 48\nprice = 38.50\n[[panel]]\nsize = \"5 x 7\"\ncount = 18\n\
                    [[panel]]\nsize = \"9 x 12\"\ncount = 22\n[[panel]]\nsize = \"11 x 14\"\ncount = 16\n";
        let job = read(&Source { job: File::of("batch", text), list: None, rack: None }).expect("it is sound");
        let problem = crate::model::build(&job).expect("they can be made");
        let need = Need::of(&problem);
        let scope = Scope::all(&problem, &need, None);
        let lens = bounded(&problem, &need, &scope, generate(&problem, &need, &[], &Patient).prices);
        let reach = (lens.bound.expect("a bound") + 3850, 100_000);
        let list = |watch: &dyn Watch| pool(&problem, &need, &scope, &[&lens], reach, watch);
        assert!(list(&Patient).expect("a list").len() > TURN);
        assert_eq!(list(&TimeIsUp), None);
    }

    proptest! {
        #![proptest_config(ProptestConfig { cases: 48, failure_persistence: None, ..ProptestConfig::default() })]

        #[test]
        fn where_no_more_is_crosscut_than_in_a_cheapest_plan_one_is_bound_and_listed(
            counts in prop::collection::vec(1..12_u32, 3..5),
            yard in prop::sample::select(vec![
                "", "cut_price = 0.50\n", "cut_price = 0.75\nfree_cuts = 2\n",
                "cut_price = 0.75\nfree_cuts = 3\nfree_per = \"order\"\n", "cut_price = 0.50\nmost_cuts = 4\n",
            ]),
        ) {
            let sizes = ["8 x 10", "12 x 16", "16 x 20", "5 x 7"];
            let panel = |(size, count): (&&str, &u32)| format!("[[panel]]\nsize = \"{size}\"\ncount = {count}\n");
            let panels: String = sizes.iter().zip(&counts).map(panel).collect();
            let text = format!(
                "[[sheet]]\nname = \"whole\"\nlength = 96\nwidth = 48\nprice = 38.50\n\
                 [[sheet]]\nname = \"half\"\nlength = 48\nwidth = 48\nprice = 22.00\n{panels}\
                 [yard]\nrips = \"either\"\n{yard}"
            );
            let job = read(&Source { job: File::of("batch", text), list: None, rack: None }).expect("it is sound");
            let problem = crate::model::build(&job).expect("they can be made");
            let need = Need::of(&problem);
            let Ok(money) = least(&problem, &Patient) else { panic!("the job can be done") };
            let mut crosscut: BTreeMap<Blank, i64> = BTreeMap::new();
            for (pattern, copies) in &money.draft.patterns {
                *crosscut.entry(pattern.blank).or_default() += i64::from(*copies);
            }
            // No strip but those of the plan, and no more of them.
            let mut scope = Scope::all(&problem, &need, None);
            let relaxed = generate(&problem, &need, &[], &Patient);
            let all = bounded(&problem, &need, &scope, relaxed.prices.clone());
            for blank in all.judged.strips.keys().chain(crosscut.keys()) {
                let most = crosscut.get(blank).copied().unwrap_or(0);
                scope = scope.narrowed(Count::Strips(*blank), Range { least: 0, most });
            }
            let mut master = Master::new(&problem, &need, &scope);
            relaxed.found.iter().for_each(|made| { master.add(made.clone()); });
            let found = relax(&problem, &need, &scope, &mut master, None, &Patient);
            let bound = found.bound.expect("the plan is of the scope");
            prop_assert!(all.bound.is_some_and(|all| all <= bound) && bound <= money.cost, "{bound} for {}", money.cost);
            // And a list for that plan's cost holds all that some such plan is made of.
            let listed = pool(&problem, &need, &scope, &[&found], (money.cost, 1_000_000), &Patient).expect("a list");
            let program = Program::new(&problem, &need, &scope, (&listed, &[]), money.cost);
            let (verdict, _) = Search::new(&problem, &need, program, money.cost, 100_000, &Patient).run();
            let Verdict::Found(draft) = verdict else { panic!("{verdict:?} of {}", money.cost) };
            prop_assert_eq!(draft.cost(&problem), money.cost);
            // What two prices let pass is what each of them does, of the strips that are left.
            let other = bounded(&problem, &need, &scope, relaxed.prices.clone());
            let reach = (money.cost + problem.charges.sheets[1] / 2, 1_000_000);
            let list = |prices: &[&Bounded]| pool(&problem, &need, &scope, prices, reach, &Patient).expect("a list");
            let [both, one, another] = [&[&found, &other][..], &[&found], &[&other]].map(list);
            let mut each: BTreeSet<Made> = one.into_iter().filter(|made| another.contains(made)).collect();
            let layouts = |made: &Made| match made {
                Made::Layout(layout) => layout.blanks(&problem).map(|(blank, _)| blank).collect(),
                Made::Pattern(_) | Made::OnHand(..) => Vec::new(),
            };
            let given: BTreeSet<Blank> = each.iter().flat_map(layouts).collect();
            each.retain(|made| !matches!(made, Made::Pattern(pattern) if !given.contains(&pattern.blank)));
            prop_assert_eq!(both, each.into_iter().collect::<Vec<_>>());
        }
    }
}
