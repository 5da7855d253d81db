//! The press plan: glued panels in stacks of one size, face down, in pairs, under a board and weight; which stacks go
//! under it together, load by load. A canvas's overhang counts as part of the footprint.

use super::lots::Lot;
use super::shelf::{Shelves, Spot};
use crate::data::week::Press;
use crate::length::Length;

/// Which panels are pressed together.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct PressPlan {
    /// Loads in the order they are glued.
    pub loads: Vec<PressLoad>,
    /// Lines that do not fit under the press at all.
    pub misfits: Vec<PressMisfit>,
}

/// What lies under the press at one time.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct PressLoad {
    /// Its stacks.
    pub stacks: Vec<PressStack>,
    /// Panels in all.
    pub panels: u32,
}

/// Panels of one size on each other.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PressStack {
    /// Index into `Plan::panels`.
    pub panel: usize,
    /// How many; an even number except for the last of an odd count.
    pub count: u32,
    /// Height of the stack without the board on top.
    pub height: Length,
    /// Where it lies.
    pub spot: Spot,
}

/// A line that the press cannot take.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct PressMisfit {
    /// Index into `Plan::panels`.
    pub panel: usize,
    /// True where its footprint is too large; false where two of it are too high.
    pub too_large: bool,
}

/// Plans the press loads for the lots that get canvas; lots of unknown thickness count as the padding alone.
pub fn press_plan(lots: &[Lot], press: &Press) -> PressPlan {
    let mut canvassed: Vec<&Lot> = lots.iter().filter(|lot| lot.canvas.is_some()).collect();
    canvassed.sort_by_key(|lot| {
        let (width, height) = lot.footprint();
        (std::cmp::Reverse(width.min(height)), std::cmp::Reverse(width.max(height)), lot.panel)
    });
    let mut plan = PressPlan::default();
    let mut boards: Vec<Shelves> = Vec::new();
    for lot in canvassed {
        if let Some(misfit) = misfit(lot, press) {
            plan.misfits.push(misfit);
            continue;
        }
        for count in stacks(lot, press) {
            put(&mut plan, &mut boards, lot, count, press);
        }
    }
    plan
}

/// What one panel adds to its stack.
fn rise(lot: &Lot, press: &Press) -> Length {
    lot.thickness.unwrap_or(Length::ZERO) + press.padding
}

fn misfit(lot: &Lot, press: &Press) -> Option<PressMisfit> {
    let (width, height) = lot.footprint();
    let too_large = Shelves::new(press.length, press.width, press.gap).place(width, height).is_none();
    (too_large || per_stack(lot, press) == 0).then_some(PressMisfit { panel: lot.panel, too_large })
}

/// Most panels in a stack: in pairs where there is room for a pair.
fn per_stack(lot: &Lot, press: &Press) -> u32 {
    let rise = rise(lot, press);
    let by_height = if rise.is_positive() { press.height.times(rise) } else { i64::from(u32::MAX) };
    let most = u32::try_from(by_height.max(0)).unwrap_or(u32::MAX).min(press.most.unwrap_or(u32::MAX));
    if most > 1 { most - most % 2 } else { most }
}

/// The lot in as few stacks as the height allows, as level as pairs allow.
fn stacks(lot: &Lot, press: &Press) -> Vec<u32> {
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

/// Puts a stack under the first load with room for it, or opens a new one.
fn put(plan: &mut PressPlan, boards: &mut Vec<Shelves>, lot: &Lot, count: u32, press: &Press) {
    let (width, height) = lot.footprint();
    for index in 0.. {
        if index == boards.len() {
            boards.push(Shelves::new(press.length, press.width, press.gap));
            plan.loads.push(PressLoad::default());
        }
        let load = &mut plan.loads[index];
        if press.most.is_some_and(|most| load.panels + count > most) {
            continue;
        }
        if let Some(spot) = boards[index].place(width, height) {
            let height = rise(lot, press) * i64::from(count);
            load.stacks.push(PressStack { panel: lot.panel, count, height, spot });
            load.panels += count;
            return;
        }
    }
}
