//! The pool of layouts and patterns that any plan of a scope within a target can be made of. The bound of a scope rises
//! by what a layout or a pattern costs above the best of its kind; so one that alone lifts it above the target is in no
//! such plan. Several prices may look at the same scope, and each may rule out what the others let pass. Of those left,
//! only the largest are listed: a pattern that another one contains, or a layout that one of the same cost contains, is
//! not needed.

use super::bound::{Shelf, charge, on_hand_blank, strip_value};
use super::draft::holds;
use super::generate::Bounded;
use super::layout::{Board, Boards, Layout, Strips};
use super::master::Made;
use super::need::Need;
use super::pattern::{Blank, Pattern};
use super::prices::Prices;
use super::scope::Scope;
use crate::model::Problem;

/// Most layouts and patterns that are looked at for one that is listed.
const LOOKS: usize = 16;

/// Prices for a scope, and what they leave up to a target.
struct Lens<'a> {
    problem: &'a Problem,
    scope: &'a Scope,
    bounded: &'a Bounded,
    gap: i128,
}

/// What lists the pool.
struct Pool<'a> {
    problem: &'a Problem,
    need: &'a Need,
    lenses: Vec<Lens<'a>>,
    most: usize,
    looks: usize,
    listed: Vec<Made>,
}

/// Lists the pool of all plans of a scope of at most `target` units; none where it would hold more than `most`.
pub(super) fn pool(
    problem: &Problem,
    need: &Need,
    scope: &Scope,
    prices: &[&Bounded],
    target: i64,
    most: usize,
) -> Option<Vec<Made>> {
    let lens = |bounded| Lens::new(problem, scope, bounded, target);
    let lenses: Option<Vec<Lens>> = prices.iter().copied().map(lens).collect();
    let Some(lenses) = lenses else { return Some(Vec::new()) };
    let mut pool = Pool { problem, need, lenses, most, looks: most * LOOKS, listed: Vec::new() };
    let complete = pool.list_patterns() && pool.list_layouts();
    pool.listed.sort_unstable();
    pool.listed.dedup();
    complete.then_some(pool.listed)
}

impl<'a> Lens<'a> {
    /// None where no plan of the scope comes within the target.
    fn new(problem: &'a Problem, scope: &'a Scope, bounded: &'a Bounded, target: i64) -> Option<Lens<'a>> {
        let gap = i128::from(target) * i128::from(bounded.prices.scale) - bounded.judged.total?;
        (gap >= 0).then_some(Lens { problem, scope, bounded, gap })
    }

    fn prices(&self) -> &'a Prices {
        &self.bounded.prices
    }

    /// The least value of a pattern of this blank that can be in the pool, beside the best one's.
    fn floor_of_pattern(&self, blank: Blank) -> i64 {
        let Some((best, _)) = self.bounded.judged.strips.get(&blank) else { return i64::MAX / 8 };
        let each = strip_value(self.prices(), blank, *best) - best;
        let least = self.scope.strips.get(&blank).map_or(0, |range| range.least);
        let first = if least <= 0 { each.max(0) } else { 0 };
        narrow(i128::from(*best) - self.gap + i128::from(first))
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

    fn pattern_value(&self, pattern: &Pattern) -> i64 {
        pattern.yields(self.problem).map(|(size, copies)| self.prices().size[size] * i64::from(copies)).sum()
    }

    fn value_of_strip(&self, blank: Blank) -> i64 {
        let best = self.bounded.judged.strips.get(&blank).map_or(0, |(best, _)| *best);
        strip_value(self.prices(), blank, best)
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
        let bounded = self.lenses[0].bounded;
        let shelf = Shelf::new(self.problem, self.need, &bounded.prices);
        let yard = bounded.judged.strips.keys().all(|blank| {
            let floors: Vec<i64> = self.lenses.iter().map(|lens| lens.floor_of_pattern(*blank)).collect();
            self.list_patterns_of(&shelf, *blank, &floors, &|pattern| Made::Pattern(pattern))
        });
        yard && (0..self.problem.on_hand.len()).all(|strip| {
            let blank = on_hand_blank(&self.problem.on_hand[strip]);
            let floors: Vec<i64> = self.lenses.iter().map(|lens| lens.floor_on_hand(strip)).collect();
            self.list_patterns_of(&shelf, blank, &floors, &|pattern| Made::OnHand(strip, pattern))
        })
    }

    fn list_patterns_of(
        &mut self,
        shelf: &Shelf,
        blank: Blank,
        floors: &[i64],
        made: &dyn Fn(Pattern) -> Made,
    ) -> bool {
        shelf.family(blank.family).walk(blank, floors[0], &mut |pattern, _| {
            let seen =
                self.lenses.iter().zip(floors).skip(1).all(|(lens, floor)| lens.pattern_value(&pattern) >= *floor);
            if seen && !pattern.pieces.is_empty() && self.fills_width(&pattern) && self.is_largest(&pattern) {
                self.listed.push(made(pattern));
            }
            self.goes_on()
        })
    }

    fn goes_on(&mut self) -> bool {
        self.looks = self.looks.saturating_sub(1);
        self.looks > 0 && self.listed.len() <= self.most
    }

    /// Whether some panel needs the strip as wide as it is; if none does, a narrower strip serves, which costs no more
    /// unless the yard's cuts count and the last of the sheet was used up, or the strips of a width are counted.
    fn fills_width(&self, pattern: &Pattern) -> bool {
        let counted = self.problem.charges.cuts_matter() || !self.lenses[0].scope.strips.is_empty();
        let widths = &self.problem.families[pattern.blank.family].widths;
        let Some(narrower) = pattern.blank.width.checked_sub(1) else { return true };
        let lies = |at: usize| {
            let laid = &widths[pattern.blank.width].laid[at];
            widths[narrower].laid.iter().any(|other| (other.size, other.turned) == (laid.size, laid.turned))
        };
        counted || !pattern.pieces.iter().all(|(at, _)| lies(*at))
    }

    /// Whether no wanted panel can be added.
    fn is_largest(&self, pattern: &Pattern) -> bool {
        let laid = &self.problem.families[pattern.blank.family].widths[pattern.blank.width].laid;
        (0..laid.len()).all(|at| {
            let mut larger = pattern.clone();
            match larger.pieces.iter_mut().find(|piece| piece.0 == at) {
                Some(piece) => piece.1 += 1,
                None => larger.pieces.push((at, 1)),
            }
            let copies = larger.pieces.iter().find(|piece| piece.0 == at).map_or(0, |piece| piece.1);
            copies > self.need.count[laid[at].size] || !holds(self.problem, &larger)
        })
    }

    fn list_layouts(&mut self) -> bool {
        (0..self.problem.rippings.len()).all(|index| self.list_layouts_of(index))
    }

    fn list_layouts_of(&mut self, index: usize) -> bool {
        let problem = self.problem;
        let (ripping, bounded) = (&problem.rippings[index], self.lenses[0].bounded);
        if bounded.judged.layouts[index].is_none() {
            return true;
        }
        let board = ripping.board.raw();
        let widths = &problem.families[ripping.family].widths;
        let useful = |width: usize| widths[width].laid.iter().any(|laid| self.need.count[laid.size] > 0);
        let value_of = |width: usize| self.lenses[0].value_of_strip(super::layout::blank(ripping, board, width));
        let value: Vec<i64> = (0..widths.len()).map(|at| if useful(at) { value_of(at) } else { -1 }).collect();
        let boards = Boards::new(problem, ripping, board, Strips { value: &value, least: 0, keeping: 0 });
        boards.ways().collect::<Vec<_>>().into_iter().all(|(way, cuts)| {
            let floors: Vec<i64> = self.lenses.iter().map(|lens| lens.floor_of_layout(index, cuts)).collect();
            boards.walk(way, floors[0].max(0), &mut |board, _| {
                let layout = Layout { ripping: index, boards: vec![board] };
                let lenses = self.lenses.iter().zip(&floors).skip(1);
                let seen = lenses.into_iter().all(|(lens, floor)| lens.layout_value(&layout) >= *floor);
                if seen && !layout.boards[0].strips.is_empty() && self.is_fullest(&layout, &value) {
                    self.listed.push(Made::Layout(layout));
                }
                self.goes_on()
            })
        })
    }

    /// Whether no useful strip can be added at the same cost and with the same cuts.
    fn is_fullest(&self, layout: &Layout, value: &[i64]) -> bool {
        let ripping = &self.problem.rippings[layout.ripping];
        let widths = &self.problem.families[ripping.family].widths;
        let spare = layout.boards[0].spare(self.problem, ripping);
        let cuts = layout.cuts(self.problem);
        (0..widths.len()).filter(|width| value[*width] >= 0).all(|width| {
            (widths[width].width + ripping.kerf).raw() > spare || {
                let larger = with(&layout.boards[0], width);
                let larger = Layout { boards: vec![larger], ..layout.clone() };
                self.problem.charges.cuts_matter() && larger.cuts(self.problem) > cuts && self.dearer(&larger, layout)
            }
        })
    }

    fn dearer(&self, larger: &Layout, layout: &Layout) -> bool {
        let charges = &self.problem.charges;
        let past = charges.most_cuts.is_some_and(|most| larger.cuts(self.problem) > most);
        past || charges.per_order || larger.cost(self.problem) > layout.cost(self.problem)
    }
}

/// The board with one more strip.
fn with(board: &Board, width: usize) -> Board {
    let mut larger = board.clone();
    match larger.strips.iter_mut().find(|strip| strip.0 == width) {
        Some(strip) => strip.1 += 1,
        None => larger.strips.push((width, 1)),
    }
    larger.strips.sort_unstable();
    larger
}
