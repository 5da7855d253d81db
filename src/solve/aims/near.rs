//! Layouts and patterns that come near to paying at given prices. The reduced costs of a plan add up to what its worth
//! falls short of the bound; so a plan that reaches a goal uses none whose own reduced cost is more than the bound is
//! above the goal. Where that gap lists too many, a part of it lists those that a good plan is likely to use.

use super::super::boards::{Boards, Strips};
use super::super::bound::{Shelf, on_hand_blank};
use super::super::layout::{Layout, blank};
use super::super::master::Made;
use super::super::pattern::{Blank, Pattern};
use super::judge::{Judged, charge, judge, keeping, shelf};
use super::prices::Prices;
use super::program::Means;
use crate::model::Problem;
use std::collections::BTreeSet;

/// Most layouts and patterns that are listed.
const MOST: usize = 200;
/// How often the gap is halved until few enough are near.
const HALVINGS: u32 = 12;

/// Those near enough for a plan worth `goal`, or for as large a part of the gap as can be listed.
pub(super) fn near(problem: &Problem, means: Means, prices: &Prices, goal: i64) -> BTreeSet<Made> {
    let judged = judge(problem, means, prices);
    let gap = judged.above(problem, goal);
    let near = Near { problem, means, prices, judged: &judged, shelf: shelf(problem, prices) };
    (0..HALVINGS).find_map(|halvings| near.within(gap >> halvings)).unwrap_or_default()
}

struct Near<'a> {
    problem: &'a Problem,
    means: Means<'a>,
    prices: &'a Prices,
    judged: &'a Judged,
    shelf: Shelf<'a>,
}

impl Near<'_> {
    /// All whose reduced cost is no more than the gap; none where they are too many.
    fn within(&self, gap: i64) -> Option<BTreeSet<Made>> {
        let mut listed = BTreeSet::new();
        let strips = self.judged.strips.iter();
        let listed_all =
            strips.clone().all(|(blank, (value, _))| self.patterns(*blank, value - gap, &mut listed, &Made::Pattern))
                && self.judged.on_hand.iter().enumerate().all(|(strip, (value, _))| {
                    let blank = on_hand_blank(&self.problem.on_hand[strip]);
                    self.patterns(blank, value - gap, &mut listed, &|pattern| Made::OnHand(strip, pattern))
                })
                && (0..self.problem.rippings.len()).all(|index| self.layouts(index, gap, &mut listed));
        listed_all.then_some(listed)
    }

    fn patterns(&self, blank: Blank, floor: i64, listed: &mut BTreeSet<Made>, of: &dyn Fn(Pattern) -> Made) -> bool {
        let mut looks = MOST * 20;
        self.shelf.family(blank.family).walk(blank, floor.max(1), &mut |pattern, _| {
            if !pattern.pieces.is_empty() {
                listed.insert(of(pattern));
            }
            looks -= 1;
            listed.len() <= MOST && looks > 0
        })
    }

    fn layouts(&self, index: usize, gap: i64, listed: &mut BTreeSet<Made>) -> bool {
        let (problem, ripping) = (self.problem, &self.problem.rippings[index]);
        if !ripping.whole {
            return true;
        }
        let board = ripping.board.raw();
        let strip = |width| self.judged.strips.get(&blank(ripping, board, width)).map_or(0, |(value, _)| *value);
        let value: Vec<i64> = (0..problem.families[ripping.family].widths.len()).map(strip).collect();
        let strips = Strips { value: &value, most: None, least: 1, keeping: keeping(problem), toll: None };
        let boards = Boards::new(problem, ripping, board, strips);
        let mut looks = MOST * 20;
        boards.ways().collect::<Vec<_>>().into_iter().all(|(way, cuts)| {
            let Some(charge) = charge(problem, self.means, (self.prices, self.judged.rate), ripping, cuts) else {
                return true;
            };
            boards.walk(way, charge.saturating_sub(gap).max(1), &[], &mut |board, _| {
                if !board.strips.is_empty() {
                    listed.insert(Made::Layout(Layout { ripping: index, boards: vec![board] }));
                }
                looks -= 1;
                listed.len() <= MOST && looks > 0
            })
        })
    }
}
