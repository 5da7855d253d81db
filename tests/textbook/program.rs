//! The integer program: variables, what they cost, rows.

use super::graph::Arc;
use super::sheets;
use super::strips;
use good_lp::{Constraint, Expression, ProblemVariables, Variable, variable};
use std::collections::BTreeMap;
use yardslip::length::Length;
use yardslip::model::{OnHand, Problem, Ripping};

/// Strips that are alike: width, and the extent along them that panels can have.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Strip {
    /// Index into `Problem::families`.
    pub(super) family: usize,
    /// Index into the family's widths.
    pub(super) width: usize,
    /// For panels and the kerfs between them.
    pub(super) usable: Length,
    /// Lost at the far end, which the hand may hold.
    pub(super) stub: Length,
}

/// What a flow goes through.
#[derive(Clone, Copy)]
pub(super) enum Through {
    /// The width of sheets, by index into `Problem::rippings`.
    Sheets(usize),
    /// The length of strips.
    Strips(Strip),
}

/// How often each arc is taken.
pub(super) struct Flow {
    pub(super) through: Through,
    pub(super) arcs: Vec<(Arc, Variable)>,
}

/// The program of a problem.
pub(super) struct Program {
    pub(super) variables: ProblemVariables,
    /// What one of each costs; others cost nothing.
    pub(super) costs: Vec<(Variable, i64)>,
    pub(super) rows: Vec<Constraint>,
    pub(super) flows: Vec<Flow>,
    /// Strips there are to crosscut.
    pub(super) supply: BTreeMap<Strip, Expression>,
}

impl Program {
    pub(super) fn of(problem: &Problem) -> Program {
        let mut program = Program {
            variables: ProblemVariables::new(),
            costs: Vec::new(),
            rows: Vec::new(),
            flows: Vec::new(),
            supply: BTreeMap::new(),
        };
        sheets::post(&mut program, problem);
        strips::post(&mut program, problem);
        program
    }

    /// A strip of one of the widths of a family that a whole sheet is ripped into.
    pub(super) fn strip(ripping: &Ripping, width: usize) -> Strip {
        let (usable, stub) = (ripping.usable(ripping.board), ripping.stub(ripping.board));
        Strip { family: ripping.family, width, usable, stub }
    }

    pub(super) fn strip_on_hand(on_hand: &OnHand) -> Strip {
        Strip { family: on_hand.family, width: 0, usable: on_hand.usable, stub: Length::ZERO }
    }

    /// A number of things, none or more.
    pub(super) fn number(&mut self, most: u32) -> Variable {
        self.variables.add(variable().integer().min(0).max(most))
    }

    /// The sum to be made least.
    #[allow(clippy::cast_precision_loss)] // money of an order is far below 2^52 units
    pub(super) fn cost(&self) -> Expression {
        self.costs.iter().map(|(variable, each)| *variable * *each as f64).sum()
    }
}

/// Panels wanted, all sizes together: more strips or sheets than that are never needed.
pub(super) fn panels(problem: &Problem) -> u32 {
    problem.sizes.iter().map(|size| size.count).sum()
}
