//! Stacks under the press, worked by hand.

use crate::lots::{canvassed, len, lot};
use yardslip::data::week::Press;
use yardslip::plan::week::press::press_plan;

/// A board of 48 x 24 in., stacks up to 3 in.; a 1/4 in. panel with 1/16 in. of canvas and paper rises 5/16 in.
fn press() -> Press {
    Press {
        length: len("48"),
        width: len("24"),
        height: len("3"),
        most: None,
        gap: len("1/2"),
        padding: len("1/16"),
        paper: Vec::new(),
    }
}

#[test]
fn stacks_hold_pairs_and_no_more_than_the_height_lets_in() {
    // 3 in. / (5/16 in.) = 9.6, so nine panels, so four pairs; 20 panels make three stacks, as level as pairs allow.
    let plan = press_plan(&[canvassed(0, "12", "16", 20, "1 1/2")], &press());
    let counts: Vec<u32> = plan.loads.iter().flat_map(|load| load.stacks.iter().map(|stack| stack.count)).collect();
    assert_eq!(counts, [8, 6, 6]);
    assert_eq!(plan.loads[0].stacks[0].height, len("2 1/2"), "eight panels of 5/16 in.");
}

#[test]
fn three_stacks_of_13_and_a_half_by_17_and_a_half_lie_on_a_48_by_24_board_and_the_next_waits() {
    // Across the board 3 x 13 1/2 + 2 x 1/2 = 41 1/2 of 48 fit, with 17 1/2 of 24 in depth; what is left beside and in
    // front is 6 and 6 in. wide. Four stacks of eight cover 4 x 14 x 18 = 1008 of 48 1/2 x 24 1/2 = 1188 sq in., so
    // room alone does not ask for two loads.
    let plan = press_plan(&[canvassed(0, "12", "16", 32, "1 1/2")], &press());
    let stacks: Vec<usize> = plan.loads.iter().map(|load| load.stacks.len()).collect();
    assert_eq!(stacks, [3, 1]);
    assert_eq!(plan.loads.iter().map(|load| load.panels).collect::<Vec<_>>(), [24, 8]);
    assert_eq!(plan.floor, 1);
}

#[test]
fn loads_are_filled_up_where_level_stacks_need_one_more() {
    // 5 in. hold 16 panels of 5/16 in., and 24 go under at once. In level stacks 8, 14 + 11, 16 + 14 and 14 + 14 + 12
    // panels leave gaps that nothing fits into, six loads in all. Filled up in pairs they take five: 8 + 16, 9 + 14, 16
    // + 8, 16 + 8 and 8.
    let lots = [
        canvassed(0, "16", "20", 8, "1"),
        canvassed(1, "9", "12", 25, "1"),
        canvassed(2, "6", "6", 30, "1"),
        canvassed(3, "5", "7", 40, "1"),
    ];
    let plan = press_plan(&lots, &Press { most: Some(24), height: len("5"), length: len("96"), ..press() });
    assert_eq!(plan.loads.iter().map(|load| load.panels).collect::<Vec<_>>(), [24, 23, 24, 24, 8]);
    assert_eq!(plan.floor, 5, "103 panels at 24 a load");
}

#[test]
fn every_stack_holds_one_size_and_every_panel_is_in_one() {
    let lots = [canvassed(0, "8", "10", 7, "1 1/2"), canvassed(1, "6", "8", 11, "1 1/2"), lot(2, "5", "7", 4)];
    let plan = press_plan(&lots, &press());
    let of = |panel: usize| {
        let stacks = plan.loads.iter().flat_map(|load| &load.stacks);
        stacks.filter(|stack| stack.panel == panel).map(|stack| stack.count).sum::<u32>()
    };
    assert_eq!([of(0), of(1), of(2)], [7, 11, 0], "panels without canvas are not pressed");
}

#[test]
fn a_load_holds_no_more_panels_than_the_press_may_take() {
    let plan = press_plan(&[canvassed(0, "5", "7", 30, "1")], &Press { most: Some(10), height: len("6"), ..press() });
    assert!(plan.loads.iter().all(|load| load.panels <= 10));
    assert_eq!(plan.loads.len(), 3);
}

#[test]
fn a_panel_larger_than_the_board_and_one_thicker_than_the_stack_are_misfits() {
    let large = press_plan(&[canvassed(0, "24", "30", 1, "1 1/2")], &press());
    assert!(large.loads.is_empty() && large.misfits[0].too_large);
    let thick = press_plan(&[canvassed(0, "8", "10", 1, "1 1/2")], &Press { height: len("1/4"), ..press() });
    assert!(thick.loads.is_empty() && !thick.misfits[0].too_large);
}
