//! The plan's own sheets, strips and panels under the rules of another way: where the plan can be cut so too, the other
//! way need not cost more than the plan.

use super::super::sizes::Sizes;
use super::super::{Board, Origin, Piece, Plan, SheetGroup, check, lay_out_at};
use crate::data::{Cents, Job};
use crate::solve::{BoardUse, PieceCut, Proof, SheetUse, Solved, StripCut, StripUse};

/// The plan cut by the rules of this job; nothing where they do not let it through.
pub(super) fn under(job: &Job, plan: &Plan) -> Option<Plan> {
    let sizes = Sizes {
        widths: plan.panels.iter().map(|line| line.cut_width).collect(),
        heights: plan.panels.iter().map(|line| line.cut_height).collect(),
    };
    let same = lay_out_at(job, &cuts(plan), &sizes);
    check(job, &same).is_ok().then_some(same)
}

/// What is cut from what; nothing is said of its worth, nor proved: what the plan's cuts cost may change with the
/// rules.
fn cuts(plan: &Plan) -> Solved {
    let on_hand = plan.strips.iter().filter_map(|strip| match strip.origin {
        Origin::OnHand { strip: from } => {
            Some(StripUse { strip: from, count: strip.count, pieces: pieces(&strip.pieces) })
        }
        Origin::Sheet { .. } => None,
    });
    Solved {
        sheets: plan.sheets.iter().map(|group| sheet(plan, group)).collect(),
        on_hand: on_hand.collect(),
        cost: plan.cost.total,
        proof: Proof { proved: false, bound: Cents::ZERO },
        levels: Vec::new(),
    }
}

fn sheet(plan: &Plan, group: &SheetGroup) -> SheetUse {
    let strips = |board: &Board| {
        let cut =
            board.rips.iter().map(|rip| StripCut { width: rip.width, pieces: pieces(&plan.strips[rip.strip].pieces) });
        cut.collect()
    };
    let boards = group.boards.iter().map(|board| BoardUse { length: board.length, strips: strips(board) });
    SheetUse { sheet: group.sheet, direction: group.direction, boards: boards.collect(), count: group.count }
}

fn pieces(pieces: &[Piece]) -> Vec<PieceCut> {
    let cut = |piece: &Piece| PieceCut {
        panel: piece.panel,
        turned: piece.turned,
        trimmed: piece.trimmed,
        extra: piece.extra,
    };
    pieces.iter().map(cut).collect()
}
