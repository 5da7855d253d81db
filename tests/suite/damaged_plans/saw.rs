//! Damage to what the saw at home does: positions on a strip, squaring, order of the cuts, trims.

use super::*;

#[test]
fn a_kerf_forgotten_at_home() {
    finds(Rule::Position, |plan| plan.strips[0].pieces[3].along -= len("1/8"));
    finds(Rule::Overlap, |plan| plan.strips[0].pieces[3].along -= len("1/8"));
}

#[test]
fn a_panel_beyond_the_end_of_its_strip() {
    finds(Rule::Edge, |plan| plan.strips[0].pieces[5].along = len("80 1/4"));
    finds_broken_down(Rule::Edge, |plan| plan.strips[1].pieces[1].along = len("24 9/64"));
}

#[test]
fn a_strip_on_hand_used_twice() {
    finds(Rule::OnHand, |plan| plan.strips[2].count = 2);
    finds_against(Rule::OnHand, |job| job.strips[0].count = 0);
}

#[test]
fn a_strip_on_hand_that_is_shorter_than_planned() {
    finds_against(Rule::OnHand, |job| job.strips[0].length = len("39 63/64"));
    finds_against(Rule::OnHand, |job| job.strips[0].width = len("9 63/64"));
}

#[test]
fn squaring_forgotten() {
    finds(Rule::Squaring, |plan| plan.stops[0].cuts[0].square_first = false);
    finds(Rule::Squaring, |plan| plan.strips[0].squaring = Length::ZERO);
    finds(Rule::Squaring, |plan| plan.stops[1].cuts[0].square_first = true);
    finds(Rule::Position, |plan| plan.strips[2].pieces[0].along = Length::ZERO);
}

#[test]
fn a_factory_end_that_is_no_good_kept() {
    finds_broken_down(Rule::Squaring, |plan| plan.strips[0].squaring = Length::ZERO);
}

#[test]
fn what_is_left_of_a_strip_wrong() {
    finds(Rule::SawLeft, |plan| plan.stops[0].cuts[0].left += sixty_fourth());
    finds(Rule::SawLeft, |plan| plan.stops[3].cuts[0].left = Length::ZERO);
}

#[test]
fn a_stub_in_the_hand() {
    let mut job = mixed_job();
    job.saw.shortest = len("16");
    let all_short = |plan: &mut Plan| {
        plan.stops.iter_mut().flat_map(|stop| &mut stop.cuts).for_each(|cut| cut.hold_long_end = true);
    };
    let mut plan = mixed_plan();
    all_short(&mut plan);
    let found = violations(&job, &plan);
    let words = "stop at 15 7/8 in., strip A: the hand would hold 12 5/8 in., and 15 7/8 in. falls off";
    assert!(found.iter().any(|violation| violation.rule == Rule::Hand && violation.to_string() == words), "{found:#?}");
}

#[test]
fn a_strip_on_hand_that_is_a_stub() {
    finds_against(Rule::Hand, |job| job.saw.shortest = len("41"));
}

#[test]
fn which_end_to_hold_said_wrong() {
    finds(Rule::Hand, |plan| plan.stops[0].cuts[0].hold_long_end = false);
    finds(Rule::Hand, |plan| plan.stops[1].cuts[0].hold_long_end = true);
}

#[test]
fn the_saw_order_cutting_what_is_not_next() {
    finds(Rule::SawOrder, |plan| plan.stops.swap(0, 1));
    finds(Rule::SawOrder, |plan| plan.strips[0].pieces.swap(0, 1));
    finds(Rule::SawOrder, |plan| plan.stops.pop());
    finds(Rule::SawOrder, |plan| plan.stops[1].cuts[0].pieces.pop());
    finds(Rule::SawOrder, |plan| plan.stops[1].cuts[0].pieces.push(0));
    finds(Rule::SawOrder, |plan| plan.stops[1].cuts[0].strips = 1);
}

#[test]
fn a_stop_set_twice() {
    finds(Rule::SawOrder, |plan| {
        let late = plan.stops[1].cuts.pop().expect("two letters are cut here");
        let stop = yardslip::plan::StopSetting { setting: plan.stops[1].setting, cuts: vec![late] };
        plan.stops.insert(2, stop);
    });
}

#[test]
fn trimmed_without_a_saw_that_trims() {
    finds_against(Rule::Trim, |job| job.saw.trims = false);
}

#[test]
fn a_trim_forgotten_or_wrong() {
    finds(Rule::Trim, |plan| plan.trims.clear());
    finds(Rule::Trim, |plan| plan.trims[0].count = 1);
    finds(Rule::Trim, |plan| plan.trims[0].from = len("11 15/16"));
    finds(Rule::Trim, |plan| plan.strips[1].pieces[3].trimmed = false);
    finds(Rule::Trim, |plan| plan.strips[0].pieces[0].trimmed = true);
}

#[test]
fn a_strip_that_may_come_out_too_narrow_for_its_panels() {
    finds_against(Rule::Trim, |job| job.yard.tolerance = len("1/8"));
    finds(Rule::Strip, |plan| plan.strips[0].narrowest = len("11 55/64"));
    finds(Rule::Strip, |plan| plan.strips[0].widest = len("11 63/64"));
}

#[test]
fn a_strip_that_the_saw_cannot_cross() {
    finds_against(Rule::Crosses, |job| job.saw.crosses = Some(len("11 63/64")));
    finds_against(Rule::Crosses, |job| job.saw.crosses = Some(len("9")));
}

#[test]
fn letters_missing_or_used_twice() {
    finds(Rule::Letter, |plan| plan.strips[1].letter = "A".into());
    finds(Rule::Letter, |plan| plan.strips[1].letter.clear());
}
