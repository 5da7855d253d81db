//! One box, bag or bundle: its stacks stand inside, clear of each other; smaller panels lie on larger ones, wet ones on
//! their own size only; heights and weight are those of what lies in it, and within the limits.

use super::super::Rule;
use super::super::findings::Findings;
use super::made::Made;
use super::plane;
use crate::data::week::Pack;
use crate::length::Length;
use crate::plan::week::{PackedStack, Parcel, Spot};

/// Weights that differ by less than this share are the same: they are added up in floating point.
const SAME: f64 = 1e-9;

/// What a panel adds to a stack: itself, its canvas and what lies on it.
pub(super) fn rise(pack: &Pack, line: &Made) -> Length {
    line.thickness.unwrap_or_default() + line.cloth + pack.between
}

/// What a stack begins and ends with: its boards, and what lies on the lower one.
pub(super) fn ground(pack: &Pack) -> Length {
    pack.boards + pack.between + pack.boards
}

/// Kilograms of the two boards of a stack on this panel.
pub(super) fn boards(pack: &Pack, line: &Made) -> f64 {
    let litres = 2.0 * (line.width * line.height).to_square_metres() * pack.boards.to_mm();
    litres * pack.board_density / 1000.0
}

/// Whether a weight is over the limit; one that is not known is not.
pub(super) fn over(pack: &Pack, weight: Option<f64>) -> bool {
    pack.heaviest.zip(weight).is_some_and(|(heaviest, weight)| weight > heaviest * (1.0 + 1e-6))
}

/// Checks one of them.
pub(super) fn check(
    pack: &Pack,
    inside: Option<[Length; 3]>,
    parcel: &Parcel,
    made: &[Made],
    place: &str,
    found: &mut Findings,
) {
    let full =
        parcel.stacks.iter().all(|stack| stack.layers.iter().all(|layer| layer.1 > 0) && !stack.layers.is_empty());
    found.hold(Rule::Parcel, full && !parcel.stacks.is_empty(), place, || {
        "nothing lies in it, or in a stack of it".into()
    });
    if !full {
        return;
    }
    stands(pack, inside, parcel, place, found);
    for stack in &parcel.stacks {
        piled(pack, inside, stack, made, place, found);
    }
    weight(pack, parcel, made, place, found);
}

fn stands(pack: &Pack, inside: Option<[Length; 3]>, parcel: &Parcel, place: &str, found: &mut Findings) {
    let spots = || parcel.stacks.iter().map(|stack| &stack.spot);
    let holds = match inside {
        Some([length, width, _]) => spots().all(|spot| plane::inside(spot, length, width)),
        None => parcel.stacks.len() == 1 && spots().all(|spot| spot.along.is_zero() && spot.across.is_zero()),
    };
    found.hold(Rule::Edge, holds, place, || format!("a stack does not stand inside the {}", pack.kind.word()));
    let clear = plane::all_clear(spots(), Length::ZERO);
    found.hold(Rule::Overlap, clear, place, || "two stacks stand in each other".into());
}

/// Layers from the bottom, and the height they come to.
fn piled(
    pack: &Pack,
    inside: Option<[Length; 3]>,
    stack: &PackedStack,
    made: &[Made],
    place: &str,
    found: &mut Findings,
) {
    let mut below = sides(&stack.spot);
    let bottom = made[stack.layers[0].0].sides();
    found.hold(Rule::Parcel, below == bottom, place, || "a stack is not as large as its lowest panel".into());
    let mut height = ground(pack);
    for (panel, count) in &stack.layers {
        let line = &made[*panel];
        let (long, short) = line.sides();
        let rests = long <= below.0 && short <= below.1;
        found.hold(Rule::Parcel, rests, place, || format!("{} does not rest on what lies under it", line.name));
        below = (long, short);
        height += rise(pack, line) * i64::from(*count);
    }
    let alone = !pack.wet || stack.layers.len() == 1;
    found.hold(Rule::Parcel, alone, place, || "wet panels lie on another size".into());
    found.same(Rule::Parcel, place, "a stack's height", stack.height, height);
    let highest = inside.map(|[.., height]| height).or(pack.highest).unwrap_or(Length::MAX);
    let said = found.say(height);
    found
        .hold(Rule::Limit, height <= highest, place, || format!("a stack is {said} high, more than there is room for"));
}

fn sides(spot: &Spot) -> (Length, Length) {
    (spot.length.max(spot.width), spot.length.min(spot.width))
}

fn weight(pack: &Pack, parcel: &Parcel, made: &[Made], place: &str, found: &mut Findings) {
    let mut weight = pack.empty;
    for stack in &parcel.stacks {
        weight += boards(pack, &made[stack.layers[0].0]);
        for (panel, count) in &stack.layers {
            weight += made[*panel].weight.unwrap_or(0.0) * f64::from(*count);
        }
    }
    let says = parcel.weight;
    let same = (says - weight).abs() <= SAME * weight.max(1.0);
    found.hold(Rule::Weight, same, place, || format!("it weighs {weight} kg, not {says}"));
    found.hold(Rule::Limit, !over(pack, Some(weight)), place, || format!("{weight} kg is heavier than it may be"));
}
