//! `yardslip recut`: plans the crosscuts again from the strips that the yard really cut.

use super::arguments::Recut;
use super::failure::Failure;
use yardslip::data::Fault;

/// Reads the plan and the strips, plans the crosscuts again and writes their papers.
pub(super) fn run(_request: &Recut) -> Result<(), Failure> {
    Err(Failure::undoable(vec![Fault::anywhere("crosscuts cannot be planned again yet", "")]))
}
