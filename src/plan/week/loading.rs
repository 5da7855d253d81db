//! Press loads from lots, by simple rules: stacks as level as pairs allow, put where there is room first; or each load
//! filled up before the next one. Neither is proved to need the fewest loads; who plans takes the better.

use super::board::{Board, Fit};
use super::lots::Lot;
use super::press::{PressLoad, PressStack};
use crate::data::week::Press;
use crate::length::Length;

/// How loads are filled.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Rule {
    /// A lot in as few stacks as the height allows, as level as pairs allow.
    Level,
    /// As much as goes into a load before the next one.
    Full,
}

/// What one panel adds to its stack.
pub(super) fn rise(lot: &Lot, press: &Press) -> Length {
    lot.thickness.unwrap_or(Length::ZERO) + press.padding
}

/// Most panels in a stack: in pairs where there is room for a pair.
pub(super) fn per_stack(lot: &Lot, press: &Press) -> u32 {
    let rise = rise(lot, press);
    let by_height = if rise.is_positive() { press.height.times(rise) } else { i64::from(u32::MAX) };
    let most = u32::try_from(by_height.max(0)).unwrap_or(u32::MAX).min(press.most.unwrap_or(u32::MAX));
    if most > 1 { most - most % 2 } else { most }
}

/// The loads for lots that each fit under the press.
pub(super) fn loads(lots: &[&Lot], press: &Press, rule: Rule, fit: Fit) -> Vec<PressLoad> {
    let loading = Loading { press, fit, loads: Vec::new(), boards: Vec::new() };
    match rule {
        Rule::Level => loading.level(lots),
        Rule::Full => loading.full(lots),
    }
}

struct Loading<'a> {
    press: &'a Press,
    fit: Fit,
    loads: Vec<PressLoad>,
    boards: Vec<Board>,
}

impl Loading<'_> {
    fn level(mut self, lots: &[&Lot]) -> Vec<PressLoad> {
        for lot in lots {
            for count in level_stacks(lot, self.press) {
                let into = (0..self.loads.len()).find(|at| self.put(*at, lot, count));
                if into.is_none() {
                    self.open();
                    self.put(self.loads.len() - 1, lot, count);
                }
            }
        }
        self.loads
    }

    fn full(mut self, lots: &[&Lot]) -> Vec<PressLoad> {
        let mut left: Vec<u32> = lots.iter().map(|lot| lot.count).collect();
        while left.iter().any(|left| *left > 0) {
            self.open();
            let load = self.loads.len() - 1;
            for (lot, left) in lots.iter().zip(&mut left) {
                while self.fill(load, lot, left) {}
            }
        }
        self.loads
    }

    /// One more stack of what is left of a lot, as high as it can be; false where none goes in.
    fn fill(&mut self, load: usize, lot: &Lot, left: &mut u32) -> bool {
        let room = self.press.most.map_or(u32::MAX, |most| most - self.loads[load].panels);
        let stack = per_stack(lot, self.press);
        let count = stack.min(*left).min(room);
        let paired = if count == *left || stack == 1 { count } else { count - count % 2 };
        let done = paired > 0 && self.put(load, lot, paired);
        *left -= if done { paired } else { 0 };
        done
    }

    fn open(&mut self) {
        self.boards.push(Board::new(self.press.length, self.press.width, self.press.gap, self.fit));
        self.loads.push(PressLoad::default());
    }

    /// Puts a stack into a load, if there is room for it.
    fn put(&mut self, at: usize, lot: &Lot, count: u32) -> bool {
        let load = &mut self.loads[at];
        if self.press.most.is_some_and(|most| load.panels + count > most) {
            return false;
        }
        let (width, height) = lot.footprint();
        let Some(spot) = self.boards[at].place(width, height) else { return false };
        let height = rise(lot, self.press) * i64::from(count);
        load.stacks.push(PressStack { panel: lot.panel, count, height, spot });
        load.panels += count;
        true
    }
}

/// The lot in as few stacks as the height allows, as level as pairs allow.
fn level_stacks(lot: &Lot, press: &Press) -> Vec<u32> {
    let most = per_stack(lot, press);
    let mut stacks = lot.count.div_ceil(most);
    let mut left = lot.count;
    let mut counts = Vec::new();
    while left > 0 {
        let level = left.div_ceil(stacks);
        let count = (level + level % 2).min(most).min(left);
        counts.push(count);
        left -= count;
        stacks = stacks.saturating_sub(1).max(1);
    }
    counts
}
