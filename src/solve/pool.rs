//! The pool of layouts and patterns that any plan within a target can be made of. At settled prices every layout and
//! pattern has a reduced cost that is not below zero, and the reduced costs of a plan are what it costs above the
//! bound: so one whose reduced cost alone is above `target - bound` is in no such plan. Of those left, only the largest
//! are listed: a pattern that another one contains, or a layout that one of the same cost contains, is not needed.

use super::bound::{Judged, Shelf, charge, on_hand_blank};
use super::draft::holds;
use super::layout::{Board, Boards, Layout, Strips};
use super::master::Made;
use super::need::Need;
use super::pattern::{Blank, Pattern};
use super::prices::Prices;
use crate::model::Problem;

/// What lists the pool.
pub(super) struct Pool<'a> {
    problem: &'a Problem,
    need: &'a Need,
    prices: &'a Prices,
    judged: &'a Judged,
    gap: i64,
    most: usize,
    listed: Vec<Made>,
}

/// Lists the pool of all plans of at most `target` units; none where it would hold more than `most`.
pub(super) fn pool(
    problem: &Problem,
    need: &Need,
    (prices, judged): (&Prices, &Judged),
    target: i64,
    most: usize,
) -> Option<Vec<Made>> {
    let gap = i128::from(target) * i128::from(prices.scale) - judged.total;
    let gap = i64::try_from(gap).unwrap_or(i64::MAX / 8);
    if gap < 0 {
        return Some(Vec::new());
    }
    let mut pool = Pool { problem, need, prices, judged, gap, most, listed: Vec::new() };
    let shelf = Shelf::new(problem, need, prices);
    let complete = pool.list_patterns(&shelf) && pool.list_layouts();
    pool.listed.sort_unstable();
    pool.listed.dedup();
    complete.then_some(pool.listed)
}

impl Pool<'_> {
    fn list_patterns(&mut self, shelf: &Shelf) -> bool {
        let judged = self.judged;
        let yard = judged.strips.iter().all(|(blank, (value, _))| {
            self.list_patterns_of(shelf, *blank, value - self.gap, &|pattern| Made::Pattern(pattern))
        });
        yard && judged.on_hand.iter().enumerate().all(|(strip, (value, _))| {
            let blank = on_hand_blank(&self.problem.on_hand[strip]);
            self.list_patterns_of(shelf, blank, value - self.gap, &|pattern| Made::OnHand(strip, pattern))
        })
    }

    fn list_patterns_of(&mut self, shelf: &Shelf, blank: Blank, floor: i64, made: &dyn Fn(Pattern) -> Made) -> bool {
        shelf.family(blank.family).walk(blank, floor, &mut |pattern, _| {
            if !pattern.pieces.is_empty() && self.fills_width(&pattern) && self.is_largest(&pattern) {
                self.listed.push(made(pattern));
            }
            self.listed.len() <= self.most
        })
    }

    /// Whether some panel needs the strip as wide as it is; if none does, a narrower strip serves, which costs no more
    /// unless the yard's cuts count and the last of the sheet was used up.
    fn fills_width(&self, pattern: &Pattern) -> bool {
        let widths = &self.problem.families[pattern.blank.family].widths;
        let Some(narrower) = pattern.blank.width.checked_sub(1) else { return true };
        let lies = |at: usize| {
            let laid = &widths[pattern.blank.width].laid[at];
            widths[narrower].laid.iter().any(|other| (other.size, other.turned) == (laid.size, laid.turned))
        };
        self.problem.charges.cuts_matter() || !pattern.pieces.iter().all(|(at, _)| lies(*at))
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
        let (problem, prices, judged) = (self.problem, self.prices, self.judged);
        let ripping = &problem.rippings[index];
        if self.need.stock[ripping.sheet] == Some(0) {
            return true;
        }
        let board = ripping.board.raw();
        let widths = &problem.families[ripping.family].widths;
        let useful = |width: usize| widths[width].laid.iter().any(|laid| self.need.count[laid.size] > 0);
        let value: Vec<i64> = (0..widths.len())
            .map(|width| match judged.strips.get(&super::layout::blank(ripping, board, width)) {
                Some((value, _)) if useful(width) => *value,
                _ => -1,
            })
            .collect();
        let boards = Boards::new(problem, ripping, board, Strips { value: &value, least: 0, keeping: 0 });
        boards.ways().collect::<Vec<_>>().into_iter().all(|(way, cuts)| {
            let floor = charge(problem, prices, ripping.sheet, cuts) - self.gap;
            boards.walk(way, floor.max(0), &mut |board, _| {
                let layout = Layout { ripping: index, boards: vec![board] };
                if layout.boards[0].strips.iter().any(|_| true) && self.is_fullest(&layout, &value) {
                    self.listed.push(Made::Layout(layout));
                }
                self.listed.len() <= self.most
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
