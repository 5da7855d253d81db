//! One row of the comparison: another way to do the same job, solved to its end beside the plan.

use super::Areas;
use crate::data::Cents;
use crate::length::Length;

/// Another way to do the job.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Alternative {
    /// What is different, such as `at nominal size`; `this plan` for the plan itself.
    pub name: String,
    /// What comes of it.
    pub outcome: Outcome,
}

/// What comes of an alternative.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Outcome {
    /// It can be done.
    Done(Figures),
    /// It cannot be done: the reason, as a fault's cause.
    Not(String),
    /// Whether it can be done was not found out in the time.
    Late,
}

/// The figures that alternatives are compared by.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Figures {
    /// Sheets bought.
    pub sheets: u32,
    /// Money for sheets and yard cuts.
    pub cost: Cents,
    /// How the area is spent.
    pub areas: Areas,
    /// Different sheet layouts at the yard.
    pub layouts: u32,
    /// Width and height that each panel line comes out at, in the job's order.
    pub sizes: Vec<(Length, Length)>,
    /// Whether nothing cheaper exists for this alternative.
    pub proved: bool,
}

impl Figures {
    /// Share of the stock's area that becomes no panel, from 0 to 1.
    pub fn waste(&self) -> f64 {
        (self.areas.stock - self.areas.panels).share_of(self.areas.stock)
    }
}
