//! The press plan: glued panels in stacks of one size, face down, in pairs, under a board and weight; which stacks go
//! under it together, load by load. A canvas's overhang counts as part of the footprint.

use super::board::{Board, Fit, Spot};
use super::loading::{Rule, loads, per_stack};
use super::lots::Lot;
use crate::data::week::Press;
use crate::length::{Area, Length};

/// Which panels are pressed together.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct PressPlan {
    /// Loads in the order they are glued.
    pub loads: Vec<PressLoad>,
    /// No fewer loads can hold them.
    pub floor: u32,
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

/// Plans the press loads for the lots that get canvas, by the simple rule that needs the fewest; lots of unknown
/// thickness count as the padding alone.
pub fn press_plan(lots: &[Lot], press: &Press) -> PressPlan {
    let mut canvassed: Vec<&Lot> = lots.iter().filter(|lot| lot.canvas.is_some()).collect();
    canvassed.sort_by_key(|lot| {
        let (width, height) = lot.footprint();
        (std::cmp::Reverse(width.min(height)), std::cmp::Reverse(width.max(height)), lot.panel)
    });
    let misfits = canvassed.iter().filter_map(|lot| misfit(lot, press)).collect();
    canvassed.retain(|lot| misfit(lot, press).is_none());
    let rules = [Rule::Level, Rule::Full].into_iter().flat_map(|rule| Fit::ALL.map(|fit| (rule, fit)));
    let plans = rules.map(|(rule, fit)| loads(&canvassed, press, rule, fit));
    let loads = plans.min_by_key(Vec::len).unwrap_or_default();
    PressPlan { floor: floor(&canvassed, press), loads, misfits }
}

fn misfit(lot: &Lot, press: &Press) -> Option<PressMisfit> {
    let (width, height) = lot.footprint();
    let too_large = Board::new(press.length, press.width, press.gap, Fit::Snug).place(width, height).is_none();
    (too_large || per_stack(lot, press) == 0).then_some(PressMisfit { panel: lot.panel, too_large })
}

/// No fewer loads hold these lots: their stacks, each with its gap, cover so many boards, and the press takes so many
/// panels at once.
fn floor(lots: &[&Lot], press: &Press) -> u32 {
    let grown = |(width, height): (Length, Length)| (width + press.gap) * (height + press.gap);
    let covered = lots.iter().map(|lot| grown(lot.footprint()) * i64::from(lot.count.div_ceil(per_stack(lot, press))));
    let boards = covered.sum::<Area>().share_of(grown((press.length, press.width)));
    let panels: u32 = lots.iter().map(|lot| lot.count).sum();
    let by_number = press.most.map_or(u32::from(panels > 0), |most| panels.div_ceil(most));
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)] // boards are fewer than panels
    let by_room = (boards * (1.0 - 1e-9)).ceil() as u32;
    by_number.max(by_room)
}
