//! Panels decided at their smallest sizes grow back towards nominal, as far as all the places they are cut from allow.

use crate::papers_in::shop;
use crate::solved_by_hand::{board, len, piece, sheets, solved, strip};
use yardslip::data::{Cents, Job, RipWidths};
use yardslip::length::Length;
use yardslip::plan::{Plan, check, lay_out};
use yardslip::solve::{BoardUse, Direction, Solved};

/// A job of these panels, cut from 48 x 96 sheets at 1/8 in. kerfs.
fn of(panels: &str) -> Job {
    let mut job = shop(panels);
    (job.saw.shortest, job.saw.trims) = (len("1"), true);
    job
}

fn whole(boards: Vec<BoardUse>) -> Solved {
    solved(vec![sheets(0, Direction::Along, boards, 1)], 4000)
}

/// The plan, which the checker has passed.
fn laid_out(job: &Job, solved: &Solved) -> Plan {
    let plan = lay_out(job, solved);
    if let Err(violations) = check(job, &plan) {
        panic!("{}", violations.iter().map(ToString::to_string).collect::<Vec<_>>().join("\n"));
    }
    plan
}

fn cut_size(plan: &Plan, line: usize) -> (Length, Length) {
    (plan.panels[line].cut_width, plan.panels[line].cut_height)
}

#[test]
fn twenty_four_scant_panels_fill_a_sheet_and_cannot_grow() {
    // Four strips of 11 7/8 need 47 7/8 of 48; six panels of 15 7/8 need 95 7/8 of 96 (arithmetic): 1/16 more on each
    // needs 48 1/8 and 96 1/4.
    let job = of("[[panel]]\nsize = \"12 x 16\"\ncount = 24\nscant = \"1/8\"");
    let row = || strip("11 7/8", vec![piece(0, false); 6]);
    let plan = laid_out(&job, &whole(vec![board("96", vec![row(), row(), row(), row()])]));
    assert_eq!(cut_size(&plan, 0), (len("11 7/8"), len("15 7/8")));
    assert_eq!((plan.sheets[0].needs, plan.sheets[0].leaves), (len("47 7/8"), len("1/8")));
}

#[test]
fn where_there_is_room_panels_come_out_at_nominal_size() {
    let job = of("[[panel]]\nsize = \"12 x 16\"\ncount = 15\nscant = \"1/8\"");
    let row = || strip("11 7/8", vec![piece(0, false); 5]);
    let plan = laid_out(&job, &whole(vec![board("96", vec![row(), row(), row()])]));
    assert_eq!(cut_size(&plan, 0), (len("12"), len("16")));
    // Three rips of 12 leave 11 5/8 of 48; five panels of 16 leave 15 3/8 of 96 (arithmetic).
    assert_eq!(plan.sheets[0].boards[0].fall_off, len("11 5/8"));
    assert_eq!(plan.strips[0].fall_off, len("15 3/8"));
}

#[test]
fn one_tight_strip_holds_every_panel_of_its_size_back() {
    let job = of("[[panel]]\nsize = \"12 x 16\"\ncount = 7\nscant = \"1/8\"");
    let rows = vec![strip("11 7/8", vec![piece(0, false); 6]), strip("11 7/8", vec![piece(0, false)])];
    let plan = laid_out(&job, &whole(vec![board("96", rows)]));
    assert_eq!(cut_size(&plan, 0), (len("12"), len("15 7/8")));
}

#[test]
fn sizes_grow_alone_where_they_share_no_strip() {
    let job = of(
        "[[panel]]\nsize = \"12 x 16\"\ncount = 6\nscant = \"1/8\"\n[[panel]]\nsize = \"14 x 18\"\ncount = 2\nscant = \"1/8\"",
    );
    let rows = vec![strip("11 7/8", vec![piece(0, false); 6]), strip("13 7/8", vec![piece(1, false); 2])];
    let plan = laid_out(&job, &whole(vec![board("96", rows)]));
    assert_eq!((cut_size(&plan, 0).1, cut_size(&plan, 1)), (len("15 7/8"), (len("14"), len("18"))));
}

#[test]
fn sides_that_share_a_strip_grow_together() {
    // 16 is the height of one size and the width of the other: one strip, one width. Its nominal size is 16 for both,
    // but the first may not come out under 15 7/8 nor the second over 15 15/16.
    let job = of(
        "[[panel]]\nsize = \"12 x 16\"\ncount = 1\nscant = \"1/8\"\n[[panel]]\nsize = \"15 15/16 x 20\"\ncount = 1\nscant = \"1/16\"",
    );
    let plan = laid_out(&job, &whole(vec![board("96", vec![strip("15 7/8", vec![piece(0, true), piece(1, false)])])]));
    assert_eq!((plan.panels[0].cut_height, plan.panels[1].cut_width), (len("15 15/16"), len("15 15/16")));
    assert_eq!(plan.strips[0].width, len("15 15/16"));
}

#[test]
fn sizes_grow_on_steps_that_the_rule_shows_or_to_nominal() {
    // 96 - 5 x 1/8 = 95 3/8 for six: 15 57/64 each. Of eighths, sixteenths and 64ths the rule shows 1/16: 15 7/8.
    let mut job = of("[[panel]]\nsize = \"12 x 16\"\ncount = 6\nscant = \"1/4\"");
    let solved = whole(vec![board("96", vec![strip("11 3/4", vec![piece(0, false); 6])])]);
    assert_eq!(cut_size(&laid_out(&job, &solved), 0), (len("12"), len("15 7/8")));
    job.rule = len("1/64");
    assert_eq!(cut_size(&laid_out(&job, &solved), 0).1, len("15 57/64"));
}

#[test]
fn a_nominal_size_off_the_rule_is_reached_all_the_same() {
    let job = of("[[panel]]\nsize = \"12 1/64 x 16\"\ncount = 1\nscant = \"1/8\"");
    let plan = laid_out(&job, &whole(vec![board("96", vec![strip("11 57/64", vec![piece(0, false)])])]));
    assert_eq!(cut_size(&plan, 0), (len("12 1/64"), len("16")));
}

#[test]
fn growing_never_saves_or_costs_a_cut() {
    // Four rips of 11 7/8 leave 1/8: the last is a cut. At 11 29/32 they would use the sheet up and save it; the plan
    // keeps the money that was proved.
    let mut job = of("[[panel]]\nsize = \"12 x 16\"\ncount = 4\nscant = \"1/8\"");
    job.rule = len("1/64");
    job.yard.cut_price = Cents(50);
    job.yard.free_cuts = 0;
    let row = || strip("11 7/8", vec![piece(0, false)]);
    let sheet = sheets(0, Direction::Along, vec![board("96", vec![row(), row(), row(), row()])], 1);
    let plan = laid_out(&job, &solved(vec![sheet], 4200));
    assert_eq!((plan.cost.total, plan.panels[0].cut_width), (Cents(4200), len("11 57/64")));
}

#[test]
fn a_tolerance_of_the_yard_is_kept_free_above() {
    // Asked 11 15/16, cut good to 1/16: between 11 7/8 and 12, which is all a 12 in. panel of 1/8 in. scant may be.
    let mut job = of("[[panel]]\nsize = \"12 x 16\"\ncount = 1\nscant = \"1/8\"");
    job.yard.tolerance = len("1/16");
    let plan = laid_out(&job, &whole(vec![board("96", vec![strip("11 15/16", vec![piece(0, false)])])]));
    let strip = &plan.strips[0];
    assert_eq!([strip.narrowest, strip.width, strip.widest], ["11 7/8", "11 15/16", "12"].map(len));
    assert_eq!(cut_size(&plan, 0), (len("11 7/8"), len("16")));
}

#[test]
fn a_yard_of_fixed_widths_fixes_the_sides_across() {
    let mut job = of("[[panel]]\nsize = \"12 x 16\"\ncount = 1\nscant = \"1/4\"");
    job.yard.rip_widths = RipWidths::Only(vec![len("11 7/8"), len("12")]);
    let plan = laid_out(&job, &whole(vec![board("96", vec![strip("11 7/8", vec![piece(0, false)])])]));
    assert_eq!(cut_size(&plan, 0), (len("11 7/8"), len("16")));
}

#[test]
fn an_offcut_worth_keeping_is_not_eaten_up() {
    // One panel of 14 7/8 leaves 81 of 96; at 15 it would leave 80 7/8.
    let mut job =
        of("[[panel]]\nsize = \"12 x 15\"\ncount = 1\nscant = \"1/8\"\n[[keep]]\nsize = \"10 x 81\"\nworth = 5");
    job.yard.rip_widths = RipWidths::Any;
    let plan = laid_out(&job, &whole(vec![board("96", vec![strip("11 7/8", vec![piece(0, false)])])]));
    assert_eq!((plan.panels[0].cut_height, plan.strips[0].fall_off), (len("14 7/8"), len("81")));
}
