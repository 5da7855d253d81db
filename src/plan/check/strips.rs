//! The strips as they come off the yard's saw or lie on hand: their sizes and numbers, what is lost at their ends,
//! where each panel lies on them, and what falls off.

use super::Rule;
use super::findings::Findings;
use super::sheets::Yard;
use crate::data::Job;
use crate::length::Length;
use crate::plan::{Origin, Plan, Strip};
use crate::solve::Direction;

/// What a strip loses at its ends before and after its panels.
#[derive(Clone, Copy)]
pub(super) struct Ends {
    /// At the first end: squared, and past the factory's edge trim.
    pub(super) first: Length,
    /// At the far end: a factory edge that is no good.
    pub(super) far: Length,
}

/// What a strip loses at its ends. A strip as long as its sheet has a factory end at both; one from a board that was
/// crosscut has a fresh cut at the far one.
pub(super) fn ends(job: &Job, strip: &Strip) -> Ends {
    let Origin::Sheet { sheet, grain_along } = strip.origin else {
        return Ends { first: job.saw.squaring, far: Length::ZERO };
    };
    let sheet = &job.sheets[sheet];
    let whole = strip.length == if grain_along { sheet.length } else { sheet.width };
    let far = if whole { sheet.edge_trim } else { Length::ZERO };
    Ends { first: job.saw.squaring.max(sheet.edge_trim), far }
}

/// A strip's name for a place.
pub(super) fn place(strip: &Strip) -> String {
    format!("strip {}", strip.letter)
}

/// Checks every strip.
pub(super) fn check(job: &Job, plan: &Plan, yard: &Yard, found: &mut Findings) {
    rips(plan, found);
    for (at, strip) in plan.strips.iter().enumerate() {
        let place = place(strip);
        match strip.origin {
            Origin::Sheet { .. } => {
                found.equal(Rule::Strip, &place, "strips ripped", u64::from(strip.count), yard.strips[at]);
            }
            Origin::OnHand { .. } => {
                found.equal(Rule::Strip, &place, "strips ripped", yard.strips[at], 0);
            }
        }
        found.hold(Rule::Strip, strip.count > 0, &place, || "there is no such strip".into());
        refused(job, strip, &place, found);
        pieces(job, strip, &place, found);
    }
    on_hand(job, plan, found);
}

/// Each rip gives the strip that the plan says it does.
fn rips(plan: &Plan, found: &mut Findings) {
    for group in &plan.sheets {
        let grain_along = group.direction == Direction::Along;
        for (board, rip) in group.boards.iter().flat_map(|board| board.rips.iter().map(move |rip| (board, rip))) {
            let strip = &plan.strips[rip.strip];
            let place = format!("sheet {}, strip {}", group.number, strip.letter);
            found.same(Rule::Strip, &place, "its width", strip.width, rip.width);
            found.same(Rule::Strip, &place, "its length", strip.length, board.length);
            let origin = Origin::Sheet { sheet: group.sheet, grain_along };
            found.hold(Rule::Strip, strip.origin == origin, &place, || "it does not come from this sheet".into());
        }
    }
}

/// What the slip refuses: the strip as asked must pass.
fn refused(job: &Job, strip: &Strip, place: &str, found: &mut Findings) {
    let passes = strip.narrowest <= strip.width && strip.width <= strip.widest;
    found.hold(Rule::Strip, passes, place, || "the slip would refuse the very strip it asks for".into());
    for piece in &strip.pieces {
        let line = &job.panels[piece.panel];
        let side = if piece.turned { line.height } else { line.width } - line.scant;
        found.hold(Rule::Strip, strip.narrowest >= side, place, || {
            format!("the slip would let a strip pass that is too narrow for {}", line.name)
        });
    }
}

/// The panels one after the other with a kerf between them, and what falls off.
fn pieces(job: &Job, strip: &Strip, place: &str, found: &mut Findings) {
    let ends = ends(job, strip);
    found.same(Rule::Squaring, place, "the squaring cut", strip.squaring, ends.first);
    found.hold(Rule::Strip, !strip.pieces.is_empty(), place, || "no panel is cut from it".into());
    let good = strip.length - ends.far;
    let mut at = ends.first;
    for (number, piece) in strip.pieces.iter().enumerate() {
        let place = format!("{place}, panel {}", number + 1);
        found.same(Rule::Position, &place, "its near end", piece.along, at);
        found.hold(Rule::PanelSize, piece.length.is_positive() && piece.width.is_positive(), &place, || {
            "nothing comes off".into()
        });
        found.hold(Rule::Edge, piece.along + piece.length <= good, &place, || {
            "it reaches beyond the good end of the strip".into()
        });
        at = at + piece.length + job.saw.kerf;
    }
    found.same(Rule::FallOff, place, "the fall-off", strip.fall_off, (good - at).max(Length::ZERO));
}

/// Strips on hand: as many as there are, as they were measured, not too wide for the saw nor too short for the hand.
fn on_hand(job: &Job, plan: &Plan, found: &mut Findings) {
    let mut used = vec![0_u64; job.strips.len()];
    for strip in &plan.strips {
        let Origin::OnHand { strip: index } = strip.origin else { continue };
        let (hand, place) = (&job.strips[index], place(strip));
        used[index] += u64::from(strip.count);
        found.same(Rule::OnHand, &place, "its width", strip.width, hand.width);
        found.same(Rule::OnHand, &place, "its length", strip.length, hand.length);
        let crossed = hand.width <= job.saw.crosses.unwrap_or(Length::MAX);
        found.hold(Rule::Crosses, crossed, &place, || "the saw cannot cross it".into());
        let started = strip.pieces.iter().any(|piece| !piece.extra);
        found.hold(Rule::Extra, started, &place, || "extra panels alone are cut from a strip on hand".into());
        found.hold(Rule::Hand, hand.length >= job.saw.shortest, &place, || "it is too short to hold".into());
    }
    for (hand, used) in job.strips.iter().zip(used) {
        let place = format!("strip on hand {}", hand.name);
        let holds = used <= u64::from(hand.count);
        found.hold(Rule::OnHand, holds, &place, || format!("{used} are used where {} are there", hand.count));
    }
}
