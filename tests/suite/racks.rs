//! The offcut rack: what a plan takes from it and what it puts there.

use crate::papers_in::shop;
use crate::solved_by_hand::{board, len, piece, sheets, solved, strip};
use yardslip::data::{Job, StripOnHand};
use yardslip::plan::{Plan, check, lay_out, rack_after, used};
use yardslip::solve::{Direction, StripUse};

fn racked() -> Job {
    shop(
        r#"
[[panel]]
size = "12 x 16"
count = 7
[[strip]]
name = "spring"
width = 12
length = 40
count = 3
sheet = "birch"
[[keep]]
size = "11 x 60"
worth = 4
"#,
    )
}

/// Five panels from a new strip, two from one strip on hand.
fn plan(job: &Job) -> Plan {
    let sheet = sheets(0, Direction::Along, vec![board("96", vec![strip("12", vec![piece(0, false); 5])])], 1);
    let on_hand = vec![StripUse { strip: 0, count: 1, pieces: vec![piece(0, false); 2] }];
    let plan = lay_out(job, &yardslip::solve::Solved { on_hand, ..solved(vec![sheet], 4000) });
    assert_eq!(check(job, &plan), Ok(()));
    plan
}

fn on_rack(name: &str, width: &str, length: &str, count: u32) -> StripOnHand {
    let (width, length) = (len(width), len(length));
    StripOnHand { name: name.into(), width, length, count, sheet: Some(0), grain_along: true }
}

#[test]
fn the_rack_loses_what_is_used_and_gains_what_is_worth_keeping() {
    let job = racked();
    let plan = plan(&job);
    assert_eq!(used(&plan, 0), 1);
    // The sheet's fall-off is 48 - 12 - 1/8 = 35 7/8 wide; what falls off the strips is too short to keep.
    let after = rack_after(&job, &plan, 0);
    assert_eq!(after, [on_rack("spring", "12", "40", 2), on_rack("sheet 1", "35 7/8", "96", 1)]);
}

#[test]
fn strips_of_the_job_file_are_not_put_on_the_rack() {
    let job = racked();
    let after = rack_after(&job, &plan(&job), 1);
    assert_eq!(after, [on_rack("sheet 1", "35 7/8", "96", 1)]);
}

#[test]
fn where_no_size_is_named_an_offcut_that_holds_a_panel_is_kept() {
    let mut job = racked();
    job.keepers.clear();
    let names: Vec<String> = rack_after(&job, &plan(&job), 1).into_iter().map(|strip| strip.name).collect();
    // Strip A leaves 15 3/8 of 12 in.: no panel of 16; strip B leaves 7 3/4.
    assert_eq!(names, ["sheet 1"]);
}

#[test]
fn an_offcut_lies_on_the_rack_with_its_longer_side_along() {
    let mut job = racked();
    job.keepers.clear();
    job.panels[0].count = 4;
    let sheet = sheets(0, Direction::Across, vec![board("48", vec![strip("12", vec![piece(0, false); 2]); 2])], 1);
    let plan = lay_out(&job, &solved(vec![sheet], 4000));
    let after = rack_after(&job, &plan, 1);
    // 96 - 2 x 12 1/8 = 71 3/4 along the face grain, 48 across it.
    assert_eq!(after[0], on_rack("sheet 1", "48", "71 3/4", 1));
}
