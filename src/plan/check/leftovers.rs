//! What is left over: fall-offs of boards and strips, the list of offcuts with their worth, and how the area is spent.

use super::Rule;
use super::findings::Findings;
use super::sheets::{Yard, blank};
use super::strips::ends;
use crate::data::{Cents, Job};
use crate::length::{Area, Length};
use crate::plan::{Origin, Plan, Strip};
use crate::solve::Direction;
use std::collections::BTreeMap;

/// A kind of piece that is left over.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Left {
    /// Across the strip or, of the yard's fall-off, across the board.
    pub(super) width: Length,
    /// Along the strips.
    pub(super) length: Length,
    /// The sheet kind it came from, where known.
    pub(super) sheet: Option<usize>,
    /// Whether its grain runs along.
    pub(super) grain_along: bool,
    /// Where it fell off.
    pub(super) fell: Fell,
}

/// Where a piece fell off.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Fell {
    /// Beside the strips of a board, at the yard.
    Board,
    /// A whole board of which nothing was ripped.
    Unripped,
    /// At the end of a strip from a sheet.
    Strip,
    /// At the end of a strip on hand.
    Hand,
}

/// Every piece left over, with how many there are.
pub(super) type Leftovers = BTreeMap<Left, u64>;

/// What an offcut of this size is worth: the best of the sizes worth keeping that goes into it, either way round.
pub(super) fn worth(job: &Job, width: Length, length: Length) -> Cents {
    let (short, long) = (width.min(length), width.max(length));
    let fits = |one: Length, other: Length| one.min(other) <= short && one.max(other) <= long;
    let worths = job.keepers.iter().filter(|keeper| fits(keeper.width, keeper.length)).map(|keeper| keeper.worth);
    worths.max().unwrap_or_default()
}

/// Checks fall-offs, offcuts and areas, and hands on what is left over.
pub(super) fn check(job: &Job, plan: &Plan, yard: &Yard, found: &mut Findings) -> Leftovers {
    let mut all = Leftovers::new();
    for (group, lefts) in plan.sheets.iter().zip(&yard.left) {
        for (board, left) in group.boards.iter().zip(lefts) {
            let place = format!("sheet {}", group.number);
            found.same(Rule::FallOff, &place, "the board's fall-off", board.fall_off, *left);
            let fell = if board.rips.is_empty() { Fell::Unripped } else { Fell::Board };
            let grain_along = group.direction == Direction::Along;
            let left = Left { width: *left, length: board.length, sheet: Some(group.sheet), grain_along, fell };
            *all.entry(left).or_default() += u64::from(group.count);
        }
    }
    for strip in &plan.strips {
        *all.entry(strip_end(job, strip)).or_default() += u64::from(strip.count);
    }
    all.retain(|left, _| left.width.is_positive() && left.length.is_positive());
    offcuts(job, plan, &all, found);
    areas(job, plan, &all, found);
    all
}

/// What falls off the end of a strip; its length may come out as zero.
fn strip_end(job: &Job, strip: &Strip) -> Left {
    let lost = ends(job, strip);
    let panels: Length = strip.pieces.iter().map(|piece| piece.length).sum();
    let mut length = strip.length - lost.first - lost.far - panels;
    for _ in &strip.pieces {
        length -= job.saw.kerf;
    }
    let (sheet, grain_along, fell) = match strip.origin {
        Origin::Sheet { sheet, grain_along } => (Some(sheet), grain_along, Fell::Strip),
        Origin::OnHand { strip } => (job.strips[strip].sheet, job.strips[strip].grain_along, Fell::Hand),
    };
    Left { width: strip.width, length, sheet, grain_along, fell }
}

/// An offcut as it is listed.
type Listed = (Length, Length, Option<usize>, bool, Cents);

fn offcuts(job: &Job, plan: &Plan, all: &Leftovers, found: &mut Findings) {
    let (mut due, mut listed) = (BTreeMap::<Listed, u64>::new(), BTreeMap::<Listed, u64>::new());
    for (left, count) in all {
        let worth = worth(job, left.width, left.length);
        *due.entry((left.width, left.length, left.sheet, left.grain_along, worth)).or_default() += count;
    }
    for offcut in &plan.offcuts {
        let key = (offcut.width, offcut.length, offcut.sheet, offcut.grain_along, offcut.worth);
        *listed.entry(key).or_default() += u64::from(offcut.count);
    }
    for key in due.keys().chain(listed.keys().filter(|key| !due.contains_key(key))) {
        let place = format!("offcut {} x {}", found.say(key.0), found.say(key.1));
        let count = |of: &BTreeMap<Listed, u64>| of.get(key).copied().unwrap_or_default();
        found.equal(Rule::Offcut, &place, &format!("pieces worth {}", key.4), count(&listed), count(&due));
    }
    let falling = plan.offcuts.is_sorted_by(|one, next| one.width * one.length >= next.width * next.length);
    found.hold(Rule::Offcut, falling, "offcuts", || "they do not stand largest first".into());
}

fn areas(job: &Job, plan: &Plan, all: &Leftovers, found: &mut Findings) {
    let sheets = plan.sheets.iter().map(|group| {
        let blank = blank(job, group);
        (blank.along * blank.across) * i64::from(group.count)
    });
    let hand = plan.strips.iter().filter(|strip| matches!(strip.origin, Origin::OnHand { .. }));
    let hand = hand.map(|strip| (strip.width * strip.length) * i64::from(strip.count));
    let panels = |strip: &Strip| strip.pieces.iter().map(|piece| piece.width * piece.length).sum::<Area>();
    let stock: Area = sheets.chain(hand).sum();
    let panels: Area = plan.strips.iter().map(|strip| panels(strip) * i64::from(strip.count)).sum();
    let kept = all.iter().filter(|(left, _)| worth(job, left.width, left.length).0 > 0);
    let kept: Area = kept.map(|(left, count)| (left.width * left.length) * (*count).cast_signed()).sum();
    for (name, says, is) in
        [("stock", plan.areas.stock, stock), ("panels", plan.areas.panels, panels), ("kept", plan.areas.kept, kept)]
    {
        let feet = Area::to_square_feet;
        found.hold(Rule::Area, says == is, "areas", || format!("{name} is {} sq ft, not {}", feet(is), feet(says)));
    }
}
