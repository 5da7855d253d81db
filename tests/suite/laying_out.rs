//! A solved job is laid out: where the strips and panels lie, what the yard cuts in which order, what is left.

use crate::papers_in::{job, shop};
use crate::solved_by_hand::{board, len, piece, sheets, solved, strip};
use yardslip::data::{Breakdown, Cents, FreePer, Job};
use yardslip::plan::{Origin, Plan, Stage, YardCut, check, lay_out};
use yardslip::solve::{Direction, Solved};

/// 19 panels of 12x16 from one 48 x 96 sheet: two 16 in. rips with seven each and a 12 in. rip with five.
const NINETEEN: &str = "[[panel]]\nsize = \"12 x 16\"\ncount = 19\n";

fn nineteen() -> Plan {
    let job = shop(NINETEEN);
    let turned = strip("16", vec![piece(0, true); 7]);
    let upright = strip("12", vec![piece(0, false); 5]);
    let use_ = sheets(0, Direction::Along, vec![board("96", vec![upright, turned.clone(), turned])], 1);
    lay_out(&job, &solved(vec![use_], 4000))
}

#[test]
fn the_widest_strips_come_first_from_the_reference_edge() {
    let plan = nineteen();
    let rips: Vec<_> = plan.sheets[0].boards[0].rips.iter().map(|rip| (rip.across, rip.width)).collect();
    assert_eq!(rips, [(len("0"), len("16")), (len("16 1/8"), len("16")), (len("32 1/4"), len("12"))]);
    assert_eq!(plan.sheets[0].boards[0].fall_off, len("3 5/8"));
    assert_eq!(plan.strips.iter().map(|strip| strip.letter.as_str()).collect::<Vec<_>>(), ["A", "B"]);
}

#[test]
fn the_yard_cuts_strip_by_strip_and_sees_what_is_left() {
    let plan = nineteen();
    let left: Vec<_> = plan.sheets[0]
        .cuts
        .iter()
        .map(|cut| match cut {
            YardCut::Rip { left, .. } => *left,
            _ => panic!("only rips on this sheet"),
        })
        .collect();
    assert_eq!(left, ["31 7/8", "15 3/4", "3 5/8"].map(len));
    assert_eq!((plan.cost.total, plan.cost.yard_cuts), (Cents(4000), 3));
    assert_eq!((plan.sheets[0].needs, plan.sheets[0].leaves), (len("44 1/4"), len("3 3/4")));
}

fn sheet_job(rest: &str) -> Job {
    job(&format!(
        r#"
title = "sheets"
[[sheet]]
name = "birch"
length = 96
width = 48
price = 40
thickness = "12 mm"
density = 680
{rest}
[saw]
kerf = "1/8"
squaring = "1/4"
shortest = 4
crosses = 24
"#
    ))
}

fn checked(job: &Job, solved: &Solved) -> Plan {
    let plan = lay_out(job, solved);
    if let Err(violations) = check(job, &plan) {
        panic!("{}", violations.iter().map(ToString::to_string).collect::<Vec<_>>().join("\n"));
    }
    plan
}

const TWELVES: &str = "[[panel]]\nsize = \"12 x 16\"\ncount = 8\n[yard]\nkerf = \"1/8\"\nnarrowest = 1\n";

#[test]
fn equal_sheets_are_one_group_and_numbered_on() {
    let job = sheet_job(TWELVES);
    let full =
        |count| sheets(0, Direction::Along, vec![board("96", vec![strip("12", vec![piece(0, false); 3])])], count);
    let lone = sheets(0, Direction::Along, vec![board("96", vec![strip("12", vec![piece(0, false); 2])])], 1);
    // The solver's order does not matter, nor that it lists one layout twice.
    let plan = checked(&job, &solved(vec![lone, full(1), full(1)], 12000));
    let groups: Vec<_> = plan.sheets.iter().map(|group| (group.number, group.count)).collect();
    assert_eq!(groups, [(1, 2), (3, 1)]);
    // To the yard all three are alike: one rip of 12.
    assert_eq!(
        plan.yard.iter().map(|group| (group.sheets.clone(), group.count)).collect::<Vec<_>>(),
        [(vec![0, 1], 3)]
    );
    assert_eq!(
        plan.strips.iter().map(|strip| (strip.letter.as_str(), strip.count)).collect::<Vec<_>>(),
        [("A", 2), ("B", 1)]
    );
}

#[test]
fn after_a_breakdown_both_boards_are_squared_at_their_factory_ends() {
    let mut job = sheet_job(TWELVES);
    (job.yard.breakdown, job.car.longest) = (Breakdown::IfNeeded, Some(len("75")));
    let boards = vec![
        board("30", vec![strip("12", vec![piece(0, false)])]),
        board("65 7/8", vec![strip("12", vec![piece(0, false); 3]), strip("12", vec![piece(0, false); 4])]),
    ];
    job.panels[0].height = len("15");
    let plan = checked(&job, &solved(vec![sheets(0, Direction::Along, boards, 1)], 4000));
    let boards = &plan.sheets[0].boards;
    let lies: Vec<_> = boards.iter().map(|board| (board.start, board.length, board.from_far_end)).collect();
    assert_eq!(lies, [(len("0"), len("65 7/8"), false), (len("66"), len("30"), true)]);
    assert_eq!(plan.sheets[0].cuts[0], YardCut::Breakdown { at: len("65 7/8") });
    assert_eq!(plan.cost.yard_cuts, 4);
}

#[test]
fn a_trimmed_sheet_begins_with_its_reference_edge() {
    let mut job = sheet_job(TWELVES);
    job.sheets[0].edge_trim = len("1/2");
    let rows = vec![strip("12", vec![piece(0, false); 5]), strip("12", vec![piece(0, false); 3])];
    let plan = checked(&job, &solved(vec![sheets(0, Direction::Along, vec![board("96", rows)], 1)], 4000));
    let group = &plan.sheets[0];
    assert_eq!(group.cuts[0], YardCut::EdgeTrim { board: 0, off: len("1/2") });
    assert_eq!(group.boards[0].rips[0].across, len("1/2"));
    // 1/2 + 12 + 1/8 + 12 + 1/8: what is left holds the far trim too.
    assert_eq!(group.boards[0].fall_off, len("23 1/4"));
    // The factory ends take 1/2 where the squaring cut would take 1/4.
    assert_eq!(plan.strips[0].squaring, len("1/2"));
}

#[test]
fn strips_across_have_their_grain_across() {
    let job =
        sheet_job(&TWELVES.replace("count = 8", "count = 2").replace("narrowest", "rips = \"across\"\nnarrowest"));
    let rows = vec![strip("12", vec![piece(0, false); 2])];
    let plan = checked(&job, &solved(vec![sheets(0, Direction::Across, vec![board("48", rows)], 1)], 4000));
    assert_eq!(plan.strips[0].origin, Origin::Sheet { sheet: 0, grain_along: false });
    assert_eq!((plan.strips[0].length, plan.sheets[0].boards[0].fall_off), (len("48"), len("83 7/8")));
}

#[test]
fn cuts_are_paid_for_by_the_sheet_or_by_the_order() {
    let mut job = sheet_job(TWELVES);
    (job.yard.free_cuts, job.yard.cut_price) = (1, Cents(50));
    let rows = || vec![strip("12", vec![piece(0, false); 2]), strip("12", vec![piece(0, false); 2])];
    let two = || vec![sheets(0, Direction::Along, vec![board("96", rows())], 2)];
    let plan = checked(&job, &solved(two(), 8100));
    assert_eq!((plan.cost.yard_cuts, plan.cost.paid_cuts, plan.cost.total), (4, 2, Cents(8100)));
    job.yard.free_per = FreePer::Order;
    let plan = checked(&job, &solved(two(), 8150));
    assert_eq!((plan.cost.paid_cuts, plan.cost.total), (3, Cents(8150)));
}

fn notes(plan: &Plan, stage: Stage) -> Vec<&str> {
    plan.notes.iter().filter(|note| note.stage == stage).map(|note| note.text.as_str()).collect()
}

#[test]
fn a_heavy_load_is_told_with_its_trips() {
    // 12 mm birch at 680 kg/m3: 53.48 lb a 48 x 96 sheet (arithmetic; mean density of birch plywood from memory).
    let mut job = sheet_job(TWELVES);
    job.car.heaviest = Some(30.0);
    let rows = || vec![strip("12", vec![piece(0, false); 4])];
    let plan = checked(&job, &solved(vec![sheets(0, Direction::Along, vec![board("96", rows())], 2)], 8000));
    assert_eq!(notes(&plan, Stage::Shop), ["A birch sheet weighs 53 lb: lift it by two (common practice)."]);
    assert_eq!(notes(&plan, Stage::Car), ["The load weighs 107 lb, the car carries 66 lb: 2 trips."]);
    assert_eq!(plan.load.trips, 2);
}

#[test]
fn what_the_car_does_not_hold_is_told_at_the_yard() {
    let mut job = sheet_job(TWELVES);
    job.car.widest = Some(len("30"));
    let rows = vec![strip("12", vec![piece(0, false); 4])];
    let plan = checked(&job, &solved(vec![sheets(0, Direction::Along, vec![board("96", rows)], 2)], 8000));
    let told = "What is left of sheets 1 to 2 (35 7/8 x 96 in.) does not fit the car: have it cut, or leave it.";
    assert_eq!(notes(&plan, Stage::Yard), [told]);
}

#[test]
fn a_tolerance_that_the_panels_do_not_forgive_is_told_at_the_yard() {
    let mut job = sheet_job(TWELVES);
    job.yard.tolerance = len("1/16");
    let rows = vec![strip("12 1/16", vec![piece(0, false); 4])];
    let plan = checked(&job, &solved(vec![sheets(0, Direction::Along, vec![board("96", rows)], 2)], 8000));
    assert_eq!(
        notes(&plan, Stage::Yard),
        [
            "Strip A may come out wider than the panels' nominal size (the yard cuts good to 1/16 in.), and a panel over its size fits no frame: refuse what is over; a scant of 1/8 in. would allow for it."
        ]
    );
}
