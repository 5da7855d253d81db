//! A solved job is laid out: where the strips and panels lie, what the yard cuts in which order, what is left.

use crate::papers_in::job;
use crate::solved_by_hand::{board, len, piece, sheets, solved, strip};
use yardslip::data::Cents;
use yardslip::plan::{Plan, YardCut, lay_out};
use yardslip::solve::Direction;

/// 19 panels of 12x16 from one 48 x 96 sheet: two 16 in. rips with seven each and a 12 in. rip with five.
const NINETEEN: &str = r#"
title = "one sheet"
[[sheet]]
name = "birch"
length = 96
width = 48
price = 40
tolerance = "1/16"
[[panel]]
size = "12 x 16"
count = 19
[yard]
kerf = "1/8"
narrowest = 1
[saw]
kerf = "1/8"
squaring = 0
shortest = 4
crosses = 24
"#;

fn nineteen() -> Plan {
    let job = job(NINETEEN);
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
