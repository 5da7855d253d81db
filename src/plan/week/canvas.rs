//! Canvas from the roll: strips across it, each as deep as its deepest piece, and the pieces within; the least length
//! of roll. A strip across a roll is to that roll what a rip is to a sheet, so the cutting solver finds it and proves
//! it: each depth is a kind of sheet as long as the roll is wide, which costs its depth.

use super::first_fit;
use super::lots::Lot;
use super::roll_job::{Pieces, fits, pieces, roll_job, step};
use super::strips::{onto_lengths, strips};
use crate::data::Cents;
use crate::data::week::Canvas;
use crate::length::Length;
use crate::solve::{self, Watch};

/// The cut plan of the roll.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct CanvasPlan {
    /// Strips across the roll in cutting order, one after the other; alike ones together.
    pub strips: Vec<RollStrip>,
    /// Length of roll that all strips take together.
    pub needs: Length,
    /// No cut plan of strips across the roll needs less than this.
    pub bound: Length,
    /// True only where the bound meets the plan.
    pub proved: bool,
    /// Lengths to buy; more than one where one would be longer than what is sold.
    pub lengths: Vec<Length>,
    /// No fewer lengths hold what the strips take at least.
    pub fewest: u32,
    /// Price of those.
    pub cost: Cents,
    /// Lines whose piece is wider than the roll, as indices into `Plan::panels`.
    pub misfits: Vec<usize>,
}

/// One strip across the roll.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RollStrip {
    /// Which of the lengths bought it is cut from.
    pub from: usize,
    /// Where it begins on that length.
    pub at: Length,
    /// How deep it is: the setting of the cut across.
    pub depth: Length,
    /// Its pieces from the left.
    pub pieces: Vec<RollPiece>,
}

/// One piece of canvas.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct RollPiece {
    /// Index into `Plan::panels`.
    pub panel: usize,
    /// From the roll's left edge, selvedge included.
    pub left: Length,
    /// Extent across the roll.
    pub across: Length,
    /// Extent along the roll; where less than the strip's depth, it is trimmed.
    pub along: Length,
    /// True where the panel's height lies across the roll.
    pub turned: bool,
}

/// Plans the roll; `None` where no lot gets canvas.
pub fn canvas_plan(lots: &[Lot], canvas: &Canvas, watch: &dyn Watch) -> Option<CanvasPlan> {
    let covered: Vec<&Lot> = lots.iter().filter(|lot| lot.canvas.is_some()).collect();
    covered.first()?;
    let misfits = covered.iter().filter(|lot| lot.canvas.is_some_and(|size| !fits(size, canvas)));
    let mut plan = CanvasPlan { misfits: misfits.map(|lot| lot.panel).collect(), ..CanvasPlan::default() };
    let pieces = pieces(lots, canvas);
    if !pieces.is_empty() {
        cut(&mut plan, &pieces, lots, canvas, watch);
    }
    Some(plan)
}

/// Solves the roll and fills the plan in; where the search was stopped before it found anything, simple strips do.
fn cut(plan: &mut CanvasPlan, pieces: &[Pieces], lots: &[Lot], canvas: &Canvas, watch: &dyn Watch) {
    let least = first_fit::bound(pieces, canvas);
    let (strips, bound) = match solve::solve(&roll_job(pieces, canvas), watch) {
        Ok(solved) => (strips(&solved, pieces, lots, canvas), step(pieces, canvas) * solved.proof.bound.0),
        Err(_) => (first_fit::strips(pieces, lots, canvas), least),
    };
    plan.strips = strips;
    plan.needs = plan.strips.iter().map(|strip| strip.depth).sum();
    plan.bound = bound.max(least);
    plan.proved = plan.bound == plan.needs;
    plan.lengths = onto_lengths(&mut plan.strips, canvas).into_iter().map(|length| sold(canvas, length)).collect();
    plan.fewest = fewest(canvas, plan.bound);
    plan.cost = plan.lengths.iter().map(|length| price(canvas, *length)).sum();
}

/// How many lengths it takes at least to have so much of a roll.
fn fewest(canvas: &Canvas, length: Length) -> u32 {
    let longest = canvas.sold.longest.unwrap_or(Length::MAX);
    u32::try_from(-(-length.raw()).div_euclid(longest.raw())).unwrap_or(u32::MAX)
}

/// The least length sold that holds `length`.
pub fn sold(canvas: &Canvas, length: Length) -> Length {
    let sold = &canvas.sold;
    if length <= sold.smallest {
        return sold.smallest;
    }
    let up = -((-length).round_down(sold.step));
    sold.longest.map_or(up, |longest| up.min(longest).max(length))
}

/// What a length costs, to the nearest cent.
pub fn price(canvas: &Canvas, length: Length) -> Cents {
    let per = i128::from(canvas.sold.per.raw());
    let cents = (i128::from(canvas.sold.price.0) * i128::from(length.raw()) * 2 + per) / (per * 2);
    Cents(i64::try_from(cents).unwrap_or(i64::MAX))
}
