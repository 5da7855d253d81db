//! What is still to be made, and with what: the whole job at first, the rest of it while a plan grows.

use crate::model::Problem;

/// Panels still wanted and means still to be had.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Need {
    /// Panels of each size.
    pub count: Vec<u32>,
    /// Sheets of each kind; `None` for as many as needed.
    pub stock: Vec<Option<u32>>,
    /// Strips on hand of each kind.
    pub on_hand: Vec<u32>,
    /// Free cuts left of the order.
    pub free: u32,
}

impl Need {
    /// The whole job.
    pub(super) fn of(problem: &Problem) -> Need {
        Need {
            count: problem.sizes.iter().map(|size| size.count).collect(),
            stock: problem.stock.clone(),
            on_hand: problem.on_hand.iter().map(|strip| strip.count).collect(),
            free: problem.charges.free,
        }
    }

    /// Nothing is left to be made.
    pub(super) fn is_met(&self) -> bool {
        self.count.iter().all(|count| *count == 0)
    }

    /// Takes panels off what is wanted, as far as they are.
    pub(super) fn take(&mut self, size: usize, copies: u32) {
        self.count[size] = self.count[size].saturating_sub(copies);
    }
}
