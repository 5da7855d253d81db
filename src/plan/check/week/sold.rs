//! What is bought of the roll: it holds the strips one after the other, is sold in such lengths and no longer than it
//! must be, and costs what it says; and the plan claims no more proof than its bound gives.

use super::super::Rule;
use super::super::findings::Findings;
use crate::data::week::Canvas;
use crate::length::Length;
use crate::plan::week::{CanvasPlan, RollStrip};

/// Checks the lengths bought, their price and the claim of proof.
pub(super) fn check(canvas: &Canvas, cut: &CanvasPlan, found: &mut Findings) {
    let mut cents = 0;
    for (at, length) in cut.lengths.iter().enumerate() {
        let place = format!("canvas, length {}", at + 1);
        let taken = follow_each_other(cut, at, &place, found);
        bought(canvas, *length, taken, &place, found);
        cents += price(canvas, *length);
    }
    found.equal(Rule::Price, "canvas", "cents in all", i128::from(cut.cost.0), cents);
    let needs: Length = cut.strips.iter().map(|strip| strip.depth).sum();
    found.same(Rule::Roll, "canvas", "what all strips take", cut.needs, needs);
    let longest = canvas.sold.longest.unwrap_or(Length::MAX);
    let whole = cut.bound.times(longest) + i64::from(cut.bound.round_down(longest) != cut.bound);
    found.equal(Rule::Roll, "canvas", "the fewest lengths", i64::from(cut.fewest), whole);
    let honest = cut.bound <= cut.needs && (!cut.proved || cut.bound == cut.needs);
    found.hold(Rule::Proof, honest, "canvas", || {
        format!("the bound of {:?} does not bear out what is claimed of {:?}", cut.bound, cut.needs)
    });
}

/// The strips of one length lie one after the other from its start; how much of it they take.
fn follow_each_other(cut: &CanvasPlan, length: usize, place: &str, found: &mut Findings) -> Length {
    let mut strips: Vec<&RollStrip> = cut.strips.iter().filter(|strip| strip.from == length).collect();
    strips.sort_by_key(|strip| strip.at);
    let mut end = Length::ZERO;
    for strip in strips {
        found.same(Rule::Roll, place, "where a strip begins", strip.at, end);
        end += strip.depth;
    }
    end
}

fn bought(canvas: &Canvas, length: Length, taken: Length, place: &str, found: &mut Findings) {
    let sold = &canvas.sold;
    let said = found.say(length);
    found.hold(Rule::Roll, length >= taken, place, || format!("{said} does not hold its strips"));
    let whole = Some(length) == sold.longest;
    let in_steps = length.round_down(sold.step) == length || length == sold.smallest || whole;
    let longest = sold.longest.unwrap_or(Length::MAX);
    let as_sold = in_steps && length >= sold.smallest && length <= longest;
    found.hold(Rule::Roll, as_sold, place, || format!("{said} is not sold"));
    let before = if whole { (length - Length::from_raw(1)).round_down(sold.step) } else { length - sold.step };
    let least = if taken <= sold.smallest { length == sold.smallest } else { before < taken };
    found.hold(Rule::Roll, least && taken.is_positive(), place, || format!("less than {said} would do"));
}

/// Cents for a length, to the nearest one.
fn price(canvas: &Canvas, length: Length) -> i128 {
    let (cents, per) = (i128::from(canvas.sold.price.0), i128::from(canvas.sold.per.raw()));
    (2 * cents * i128::from(length.raw()) + per).div_euclid(2 * per)
}
