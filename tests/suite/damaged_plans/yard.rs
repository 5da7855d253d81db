//! Damage to what the yard does: strips, cuts and their order, kerfs, limits, sheets.

use super::*;

#[test]
fn a_strip_one_sixty_fourth_too_wide() {
    finds(Rule::Strip, |plan| plan.strips[0].width += sixty_fourth());
    finds(Rule::YardCut, |plan| plan.sheets[0].boards[0].rips[1].width += sixty_fourth());
}

#[test]
fn a_strip_too_wide_everywhere_it_is_written() {
    finds(Rule::Trim, |plan| {
        for rip in &mut plan.sheets[0].boards[0].rips[0..2] {
            rip.width += sixty_fourth();
        }
        plan.strips[0].width += sixty_fourth();
        for cut in &mut plan.sheets[0].cuts[0..2] {
            let YardCut::Rip { width, .. } = cut else { panic!("a rip") };
            *width += sixty_fourth();
        }
    });
}

#[test]
fn a_kerf_forgotten_at_the_yard() {
    finds(Rule::Position, |plan| plan.sheets[0].boards[0].rips[1].across = len("12"));
    finds(Rule::Overlap, |plan| plan.sheets[0].boards[0].rips[1].across = len("12"));
}

#[test]
fn what_a_yard_cut_leaves_without_its_kerf() {
    finds(Rule::YardLeft, |plan| {
        let YardCut::Rip { left, .. } = &mut plan.sheets[0].cuts[0] else { panic!("a rip") };
        *left += len("1/8");
    });
}

#[test]
fn a_second_board_drawn_from_the_wrong_end() {
    finds_broken_down(Rule::Position, |plan| plan.sheets[0].boards[1].from_far_end = false);
}

#[test]
fn a_strip_beyond_the_sheets_edge() {
    finds(Rule::Edge, |plan| plan.sheets[0].boards[0].rips[2].across = len("36 1/16"));
    finds_broken_down(Rule::Edge, |plan| plan.sheets[0].boards[0].rips[2].across = len("32 1/8"));
}

#[test]
fn a_sheet_smaller_than_the_plan_thinks() {
    finds_against(Rule::Heading, |job| job.sheets[0].width = len("36"));
    finds_against(Rule::Edge, |job| job.sheets[0].width = len("36"));
    finds_against(Rule::Edge, |job| job.sheets[0].edge_trim = len("13"));
}

#[test]
fn too_many_sheets_of_a_kind() {
    finds(Rule::Stock, |plan| plan.sheets[0].count = 2);
}

#[test]
fn a_strip_that_nobody_ripped() {
    finds(Rule::Strip, |plan| plan.strips[0].count = 3);
    finds(Rule::Strip, |plan| plan.strips[2].origin = Origin::Sheet { sheet: 0, grain_along: true });
    finds(Rule::Strip, |plan| plan.strips[0].origin = Origin::Sheet { sheet: 0, grain_along: false });
    finds(Rule::Strip, |plan| plan.strips[1].length = len("97"));
}

#[test]
fn a_rip_width_that_the_yard_refuses() {
    finds_against(Rule::RipWidth, |job| job.yard.rip_widths = RipWidths::Only(vec![len("11"), len("13")]));
    finds_against(Rule::RipWidth, |job| job.yard.rip_widths = RipWidths::Step(len("5")));
    finds_against(Rule::RipWidth, |job| job.yard.narrowest = len("12 1/64"));
    finds_against(Rule::RipWidth, |job| job.yard.widest = Some(len("11 63/64")));
}

#[test]
fn rips_the_way_the_yard_does_not() {
    finds_against(Rule::YardCut, |job| job.yard.rips = yardslip::data::Rips::Across);
    finds(Rule::Position, |plan| plan.sheets[0].direction = Direction::Across);
}

#[test]
fn more_cuts_than_the_yard_makes() {
    finds_against(Rule::MostCuts, |job| job.yard.most_cuts = Some(2));
}

#[test]
fn yard_cuts_out_of_order_missing_or_for_nothing() {
    finds(Rule::YardCut, |plan| plan.sheets[0].cuts.swap(0, 1));
    finds(Rule::YardCut, |plan| plan.sheets[0].cuts.pop());
    finds(Rule::YardCut, |plan| {
        let again = plan.sheets[0].cuts[2];
        plan.sheets[0].cuts.push(again);
    });
    finds_broken_down(Rule::YardCut, |plan| plan.sheets[0].cuts.remove(1));
    finds_broken_down(Rule::YardCut, |plan| plan.sheets[0].cuts.swap(1, 2));
}

#[test]
fn a_crosscut_before_ripping_that_is_not_allowed_or_not_made() {
    finds_broken_down(Rule::Breakdown, |plan| plan.sheets[0].cuts.remove(0));
    finds_broken_down(Rule::Breakdown, |plan| plan.sheets[0].cuts.swap(0, 1));
    finds_broken_down(Rule::Breakdown, |plan| plan.sheets[0].cuts[0] = YardCut::Breakdown { at: len("48") });
    let mut job = broken_down_job();
    job.car.longest = Some(len("96"));
    expects(Rule::Breakdown, &job, broken_down_plan(), |_| ());
}

#[test]
fn boards_with_the_yards_kerf_forgotten_between_them() {
    finds_broken_down(Rule::Position, |plan| plan.sheets[0].boards[1].start = len("48 1/4"));
    finds_broken_down(Rule::Position, |plan| plan.sheets[0].boards[1].length = len("47 3/4"));
}

#[test]
fn pieces_that_the_car_does_not_take() {
    finds_against(Rule::Car, |job| job.car.longest = Some(len("95 63/64")));
    finds_against(Rule::Car, |job| job.car.widest = Some(len("11 63/64")));
}

#[test]
fn measure_first_forgotten() {
    finds_against(Rule::Slack, |job| job.sheets[0].tolerance = len("12"));
    finds(Rule::Slack, |plan| plan.sheets[0].needs = len("36"));
    finds(Rule::Slack, |plan| plan.sheets[0].leaves = len("12"));
    finds(Rule::Slack, |plan| plan.sheets[0].measure_first = true);
}

#[test]
fn sheets_numbered_or_grouped_wrongly() {
    finds(Rule::Group, |plan| plan.sheets[0].number = 2);
    finds(Rule::Group, |plan| plan.sheets[0].count = 0);
    finds(Rule::Group, |plan| plan.yard[0].count = 2);
    finds(Rule::Group, |plan| plan.yard.clear());
    finds(Rule::Group, |plan| plan.yard.push(plan.yard[0].clone()));
    finds(Rule::Group, |plan| plan.yard[0].sheets = vec![]);
}

#[test]
fn a_sheet_without_boards() {
    finds(Rule::Breakdown, |plan| {
        plan.sheets[0].boards.clear();
        plan.sheets[0].cuts = vec![YardCut::Breakdown { at: len("40") }];
    });
}
