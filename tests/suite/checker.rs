//! The checker passes plans that were worked out by hand.

use crate::by_hand::{broken_down_job, broken_down_plan, mixed_job, mixed_plan};
use yardslip::plan::check;

#[test]
fn a_plan_worked_out_by_hand_passes() {
    assert_eq!(check(&mixed_job(), &mixed_plan()), Ok(()));
}

#[test]
fn a_plan_with_sheets_broken_down_and_edges_trimmed_passes() {
    assert_eq!(check(&broken_down_job(), &broken_down_plan()), Ok(()));
}
