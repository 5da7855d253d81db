//! The saw order: each setting once, short pieces while the strip is long, what is left after every cut.

use crate::papers_in::shop;
use crate::solved_by_hand::{board, len, piece, sheets, solved, strip};
use yardslip::data::{Cents, Job};
use yardslip::plan::{Plan, Stage, StopCut, check, lay_out};
use yardslip::solve::{Direction, PieceCut};

fn mixed() -> Job {
    let mut job = shop(
        r#"
[[panel]]
size = "12 x 16"
count = 3
[[panel]]
size = "12 x 3"
count = 2
[[panel]]
size = "12 x 8"
count = 4
"#,
    );
    (job.saw.squaring, job.saw.trims) = (len("1/4"), true);
    job
}

fn plan(job: &Job, rows: Vec<Vec<PieceCut>>, width: &str) -> Plan {
    let strips = rows.into_iter().map(|pieces| strip(width, pieces)).collect();
    let plan = lay_out(job, &solved(vec![sheets(0, Direction::Along, vec![board("96", strips)], 1)], 4000));
    if let Err(violations) = check(job, &plan) {
        panic!("{}", violations.iter().map(ToString::to_string).collect::<Vec<_>>().join("\n"));
    }
    plan
}

fn rows() -> Vec<Vec<PieceCut>> {
    vec![
        vec![piece(0, false), piece(1, false), piece(2, false), piece(1, false), piece(0, false)],
        vec![piece(2, false), piece(0, false), piece(2, false), piece(2, false)],
    ]
}

#[test]
fn every_setting_is_set_once_short_pieces_first_then_the_longest() {
    let plan = plan(&mixed(), rows(), "12");
    let settings: Vec<_> = plan.stops.iter().map(|stop| stop.setting).collect();
    assert_eq!(settings, ["3", "16", "8"].map(len));
}

#[test]
fn each_strip_is_squared_before_its_first_cut_and_measured_after_every_setting() {
    let plan = plan(&mixed(), rows(), "12");
    let two_short = plan.strips.iter().position(|strip| strip.pieces.len() == 5).expect("a strip of five");
    let cuts: Vec<&StopCut> =
        plan.stops.iter().flat_map(|stop| &stop.cuts).filter(|cut| cut.strip == two_short).collect();
    let told: Vec<_> =
        cuts.iter().map(|cut| (cut.square_first, cut.hold_long_end, cut.pieces.len(), cut.left)).collect();
    // 96 - 1/4 = 95 3/4; two of 3 and two kerfs: 89 1/2; two of 16: 57 1/4; one of 8: 49 1/8.
    let expected = [(true, true, 2, len("89 1/2")), (false, false, 2, len("57 1/4")), (false, false, 1, len("49 1/8"))];
    assert_eq!(told, expected);
}

#[test]
fn the_maker_is_told_to_hold_the_long_end() {
    let plan = plan(&mixed(), rows(), "12");
    let saw: Vec<&str> =
        plan.notes.iter().filter(|note| note.stage == Stage::Saw).map(|note| note.text.as_str()).collect();
    let hold = "Pieces under 4 in. are cut first, while the strip is long: hold the long end and let the short piece fall free.";
    assert_eq!(saw, [hold]);
}

#[test]
fn panels_narrower_than_their_strip_are_trimmed_after_crosscutting() {
    let job = mixed();
    let trimmed = |panel| PieceCut { trimmed: true, ..piece(panel, false) };
    let rows = vec![vec![trimmed(0); 3], vec![trimmed(2), trimmed(2), trimmed(2), trimmed(2), trimmed(1), trimmed(1)]];
    let plan = plan(&job, rows, "13");
    let told: Vec<_> = plan.trims.iter().map(|trim| (trim.panel, trim.count, trim.from, trim.to)).collect();
    assert_eq!(told, [(0, 3), (1, 2), (2, 4)].map(|(panel, count)| (panel, count, len("13"), len("12"))));
}

#[test]
fn the_squaring_cut_says_which_piece_it_costs() {
    // 6 x 15 7/8 + 5/8 = 95 7/8 of 96 (arithmetic): with 1/4 off the first end only five fit.
    let mut job = mixed();
    job.panels.truncate(1);
    (job.panels[0].count, job.panels[0].height) = (5, len("15 7/8"));
    let plan = plan(&job, vec![vec![piece(0, false); 5]], "12");
    let told =
        "The squaring cut of 1/4 in. costs a piece of 15 7/8 in. on strip A: skip it where an end is square already.";
    assert!(plan.notes.iter().any(|note| note.text == told), "{:?}", plan.notes);
    assert_eq!(plan.cost.total, Cents(4000));
}

#[test]
fn a_sheet_that_must_be_used_to_its_edge_is_measured_first() {
    // 6 x 15 7/8 + 5/8 leaves 1/8 of 96; four rips of 11 7/8 leave 1/8 of 48 (arithmetic). A sheet of structural
    // plywood may be 1/16 short (PS 1-19: +0, -1/16 in., read on a trade association's page); here 1/4.
    let mut job = mixed();
    job.panels.truncate(1);
    (job.panels[0].count, job.panels[0].width, job.panels[0].height) = (24, len("11 7/8"), len("15 7/8"));
    job.saw.squaring = len("0");
    job.sheets[0].tolerance = len("1/4");
    let plan = plan(&job, vec![vec![piece(0, false); 6]; 4], "11 7/8");
    assert!(plan.sheets[0].measure_first);
    let told: Vec<&str> =
        plan.notes.iter().filter(|note| note.stage == Stage::Shop).map(|note| note.text.as_str()).collect();
    assert_eq!(
        told,
        [
            "Measure first: sheet 1 must give 47 7/8 in. of its 48 in.; a birch sheet may measure up to 1/4 in. less.",
            "Measure first: strip A needs 95 7/8 in. of its 96 in. length.",
        ]
    );
}

#[test]
fn what_lies_beyond_an_offcut_at_a_bad_factory_end_is_told() {
    // 96 - 1/4 squared, four of 16 with kerfs: 31 1/4 measured at the stop block, 30 3/4 without the bad half inch.
    let mut job = mixed();
    job.panels.truncate(1);
    job.panels[0].count = 4;
    let told = |job: &Job| {
        let plan = plan(job, vec![vec![piece(0, false); 4]], "12");
        let left = plan.stops[0].cuts[0].left - plan.strips[0].fall_off;
        (left, plan.notes.iter().filter(|note| note.text.contains("factory end")).count())
    };
    assert_eq!(told(&job), (len("0"), 0));
    job.sheets[0].edge_trim = len("1/2");
    assert_eq!(told(&job), (len("1/2"), 1));
}
