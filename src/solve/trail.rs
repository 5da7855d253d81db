//! Bounds of a linear program as they were, to be undone on the way back from a branch.

use super::simplex::{Moved, Simplex};

/// The bounds that were moved, in that order.
#[derive(Default)]
pub(super) struct Trail(Vec<Moved>);

impl Trail {
    /// Moves the bounds of a column.
    pub(super) fn set(&mut self, lp: &mut Simplex, (column, least, most): Moved) {
        let before = lp.bounds(column);
        self.0.push((column, before.0, before.1));
        lp.set_bounds(column, least, most);
    }

    /// Where it stands, to come back to.
    pub(super) fn mark(&self) -> usize {
        self.0.len()
    }

    /// Undoes all that was moved since the mark.
    pub(super) fn undo(&mut self, lp: &mut Simplex, mark: usize) {
        for (column, least, most) in self.0.drain(mark..).rev() {
            lp.set_bounds(column, least, most);
        }
    }
}
