//! One box, bag or bundle as it fills: stacks on its base, each of one size or (dry) of smaller ones on larger.
//! A wooden board above and below each stack, if the job asks for them; something between every two faces.

use super::board::{Board, Fit, Spot};
use super::lots::Lot;
use crate::data::week::Pack;
use crate::length::Length;

/// A filled box, bag or bundle.
#[derive(Clone, Debug, PartialEq)]
pub struct Parcel {
    /// Its stacks.
    pub stacks: Vec<PackedStack>,
    /// Weight in kilograms, its own included, as far as weights are known.
    pub weight: f64,
}

/// Panels on each other in a parcel.
#[derive(Clone, Debug, PartialEq)]
pub struct PackedStack {
    /// Where it stands on the base, and its footprint.
    pub spot: Spot,
    /// Panels from the bottom: index into `Plan::panels`, and how many.
    pub layers: Vec<(usize, u32)>,
    /// Height, boards and spacers included.
    pub height: Length,
}

/// Why a panel is not packed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Refusal {
    /// It is larger than the base, however it lies.
    TooLarge,
    /// One panel with its boards is higher than the container.
    TooHigh,
    /// One panel is heavier than the limit leaves room for.
    TooHeavy,
}

/// A parcel that still takes panels.
pub(super) struct Filling {
    base: Option<Board>,
    highest: Option<Length>,
    stacks: Vec<Stack>,
    weight: f64,
}

struct Stack {
    spot: Spot,
    /// Sides of the topmost panel, the longer one first.
    top: (Length, Length),
    layers: Vec<(usize, u32)>,
    height: Length,
}

impl Filling {
    pub(super) fn new(inside: Option<[Length; 3]>, pack: &Pack, fit: Fit) -> Self {
        let base = inside.map(|[length, width, _]| Board::new(length, width, Length::ZERO, fit));
        let highest = inside.map_or(pack.highest, |[.., height]| Some(height));
        Filling { base, highest, stacks: Vec::new(), weight: pack.empty }
    }

    /// Takes as many of `left` panels as it can; says how many.
    pub(super) fn take(&mut self, lot: &Lot, left: u32, pack: &Pack) -> u32 {
        let mut taken = 0;
        for stack in 0..self.stacks.len() {
            taken += self.on_top(stack, lot, left - taken, pack);
        }
        while taken < left {
            let more = self.new_stack(lot, left - taken, pack);
            if more == 0 {
                break;
            }
            taken += more;
        }
        taken
    }

    fn on_top(&mut self, stack: usize, lot: &Lot, left: u32, pack: &Pack) -> u32 {
        let sides = sides(lot);
        let (top, top_line) = (self.stacks[stack].top, self.stacks[stack].layers.last().map(|layer| layer.0));
        let rests = sides.0 <= top.0 && sides.1 <= top.1;
        if !rests || (pack.wet && top_line != Some(lot.panel)) {
            return 0;
        }
        let count = left.min(self.by_weight(lot, 0.0, pack)).min(self.by_height(self.stacks[stack].height, lot, pack));
        if count > 0 {
            self.weight += lot.weight.unwrap_or(0.0) * f64::from(count);
            let stack = &mut self.stacks[stack];
            stack.height += rise(lot, pack) * i64::from(count);
            stack.top = sides;
            match stack.layers.last_mut() {
                Some(layer) if layer.0 == lot.panel => layer.1 += count,
                _ => stack.layers.push((lot.panel, count)),
            }
        }
        count
    }

    fn new_stack(&mut self, lot: &Lot, left: u32, pack: &Pack) -> u32 {
        let (boards, ground) = (board_weight(lot, pack), ground(pack));
        let count = left.min(self.by_weight(lot, boards, pack)).min(self.by_height(ground, lot, pack));
        if count == 0 {
            return 0;
        }
        let Some(spot) = self.spot(lot) else { return 0 };
        self.weight += boards + lot.weight.unwrap_or(0.0) * f64::from(count);
        let height = ground + rise(lot, pack) * i64::from(count);
        self.stacks.push(Stack { spot, top: sides(lot), layers: vec![(lot.panel, count)], height });
        count
    }

    /// A place on the base; a plain bundle has room for one stack.
    fn spot(&mut self, lot: &Lot) -> Option<Spot> {
        let (length, width) = sides(lot);
        match &mut self.base {
            Some(base) => base.place(length, width),
            None if self.stacks.is_empty() => Some(Spot { along: Length::ZERO, across: Length::ZERO, length, width }),
            None => None,
        }
    }

    /// How many more the weight limit lets in.
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)] // clamped to the range first
    fn by_weight(&self, lot: &Lot, boards: f64, pack: &Pack) -> u32 {
        let (Some(heaviest), Some(weight)) = (pack.heaviest, lot.weight) else { return u32::MAX };
        let room = heaviest - self.weight - boards;
        if weight <= 0.0 { u32::MAX } else { (room / weight + 1e-9).floor().clamp(0.0, f64::from(u32::MAX)) as u32 }
    }

    /// How many more a stack of this height takes.
    fn by_height(&self, height: Length, lot: &Lot, pack: &Pack) -> u32 {
        let rise = rise(lot, pack);
        let Some(highest) = self.highest.filter(|_| rise.is_positive()) else { return u32::MAX };
        u32::try_from((highest - height).times(rise).max(0)).unwrap_or(u32::MAX)
    }

    /// Why this empty parcel took none.
    pub(super) fn refusal(&mut self, lot: &Lot, pack: &Pack) -> Refusal {
        if self.spot(lot).is_none() {
            Refusal::TooLarge
        } else if self.by_height(ground(pack), lot, pack) == 0 {
            Refusal::TooHigh
        } else {
            Refusal::TooHeavy
        }
    }

    pub(super) fn close(self) -> Parcel {
        let stacks = self.stacks.into_iter().map(|stack| {
            let Stack { spot, layers, height, .. } = stack;
            PackedStack { spot, layers, height }
        });
        Parcel { stacks: stacks.collect(), weight: self.weight }
    }
}

/// The longer side, then the shorter one.
fn sides(lot: &Lot) -> (Length, Length) {
    (lot.width.max(lot.height), lot.width.min(lot.height))
}

/// What a panel adds to a stack: itself, its canvas and what lies on it.
pub(super) fn rise(lot: &Lot, pack: &Pack) -> Length {
    lot.thickness.unwrap_or(Length::ZERO) + lot.cloth + pack.between
}

/// Height of an empty stack: its two boards and what lies on the lower one.
pub(super) fn ground(pack: &Pack) -> Length {
    pack.boards * 2 + pack.between
}

/// The two boards of a stack, as large as its largest panel.
fn board_weight(lot: &Lot, pack: &Pack) -> f64 {
    (lot.width * lot.height).to_square_metres() * pack.boards.to_mm() * 2.0 / 1000.0 * pack.board_density
}
