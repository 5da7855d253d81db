//! The sheets as they are drawn: every panel a rectangle where the plan puts it, inside the good wood of its sheet,
//! none on another, and a saw's kerf between any two. It looks at places only, and knows nothing of how they were cut.

use super::Rule;
use super::findings::Findings;
use super::sheets::blank;
use crate::data::Job;
use crate::length::Length;
use crate::plan::{Board, Piece, Plan, Rip, SheetGroup};

/// A panel's place on a sheet.
struct Spot {
    rip: (usize, usize),
    along: (Length, Length),
    across: (Length, Length),
}

/// Checks the drawing of each sheet group.
pub(super) fn check(job: &Job, plan: &Plan, found: &mut Findings) {
    for group in &plan.sheets {
        let place = format!("sheet {}", group.number);
        let spots = spots(plan, group);
        let blank = blank(job, group);
        let inside = |spot: &Spot| {
            let (near, far) = (blank.trim, blank.along - blank.trim);
            spot.along.0 >= near && spot.along.1 <= far && spot.across.0 >= near && spot.across.1 <= blank.across - near
        };
        found.hold(Rule::Edge, spots.iter().all(inside), &place, || "a panel lies beyond the good wood".into());
        apart(job, &spots, &place, found);
    }
}

fn spots(plan: &Plan, group: &SheetGroup) -> Vec<Spot> {
    let mut spots = Vec::new();
    for (at, board) in group.boards.iter().enumerate() {
        for (number, rip) in board.rips.iter().enumerate() {
            let pieces = plan.strips[rip.strip].pieces.iter();
            spots.extend(pieces.map(|piece| spot(board, rip, piece, (at, number))));
        }
    }
    spots
}

fn spot(board: &Board, rip: &Rip, piece: &Piece, number: (usize, usize)) -> Spot {
    let near = if board.from_far_end {
        board.start + board.length - piece.along - piece.length
    } else {
        board.start + piece.along
    };
    let across = (rip.across, rip.across + piece.width.max(rip.width));
    Spot { rip: number, along: (near, near + piece.length), across }
}

/// Along one strip the home saw passes between any two panels; between strips and boards the yard's saw does.
fn apart(job: &Job, spots: &[Spot], place: &str, found: &mut Findings) {
    for (at, one) in spots.iter().enumerate() {
        for other in &spots[at + 1..] {
            let kerf = if one.rip == other.rip { job.saw.kerf } else { job.yard.kerf };
            let clear = gap(one.along, other.along) >= kerf || gap(one.across, other.across) >= kerf;
            found.hold(Rule::Overlap, clear, place, || {
                let strip = |spot: &Spot| format!("board {}, rip {}", spot.rip.0 + 1, spot.rip.1 + 1);
                format!("a panel of {} lies on one of {}, or too close to it", strip(one), strip(other))
            });
        }
    }
}

/// How far two stretches are apart; below zero where they overlap.
fn gap(one: (Length, Length), other: (Length, Length)) -> Length {
    (other.0 - one.1).max(one.0 - other.1)
}
