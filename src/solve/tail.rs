//! What is left over at the end of a strip or beside the strips of a board, and what it is worth to those who keep
//! offcuts. The room left is what pieces and the kerfs between them leave; the last cut still takes its kerf from it.

use super::knapsack::NEVER;
use crate::data::Keeper;
use crate::length::Length;
use crate::model::{Problem, Ripping};

/// The value of the room left by a filling, in fixed point.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(super) enum Tail {
    /// Whatever is left is worth nothing.
    #[default]
    Nothing,
    /// Nothing may be left.
    UsedUp,
    /// What is left, less `lost` raw units, is worth the value of the last step that it reaches.
    Kept {
        /// Raw units that the last cut takes, edge trims given back.
        lost: i64,
        /// Ascending lengths in raw units with the value from there on.
        steps: Vec<(i64, i64)>,
    },
}

impl Tail {
    /// The worth of so much room.
    pub(super) fn worth(&self, room: i64) -> i64 {
        match self {
            Tail::Nothing => 0,
            Tail::UsedUp => {
                if room == 0 {
                    0
                } else {
                    NEVER
                }
            }
            Tail::Kept { lost, steps } => {
                steps.iter().rev().find(|(least, _)| room - lost >= *least).map_or(0, |step| step.1)
            }
        }
    }

    /// What is left at the end of a strip of this width, each cent of it worth `keeping`.
    pub(super) fn of_strip(problem: &Problem, width: Length, keeping: i64) -> Tail {
        kept(&problem.keepers, width, problem.kerf.raw(), keeping)
    }

    /// What is left beside the strips of a board of this length.
    pub(super) fn of_board(problem: &Problem, ripping: &Ripping, board: Length, keeping: i64) -> Tail {
        kept(&problem.keepers, board, (ripping.kerf - ripping.edge_trim).raw(), keeping)
    }
}

/// The steps of worth of an offcut with one side fixed.
fn kept(keepers: &[Keeper], side: Length, lost: i64, keeping: i64) -> Tail {
    if keeping == 0 || keepers.is_empty() {
        return Tail::Nothing;
    }
    let mut steps: Vec<(i64, i64)> = Vec::new();
    for keeper in keepers {
        for (across, along) in [(keeper.width, keeper.length), (keeper.length, keeper.width)] {
            if across <= side {
                steps.push((along.raw(), keeper.worth.0 * keeping));
            }
        }
    }
    steps.sort_unstable();
    let mut best = 0;
    steps.retain(|(_, value)| {
        let better = *value > best;
        best = best.max(*value);
        better
    });
    if steps.is_empty() { Tail::Nothing } else { Tail::Kept { lost, steps } }
}
