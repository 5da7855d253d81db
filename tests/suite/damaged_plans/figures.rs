//! Damage to figures: money, proof, fall-offs, offcuts, areas, weights, headings, numbers out of reach.

use super::*;

#[test]
fn a_price_wrong() {
    finds(Rule::Price, |plan| plan.cost.sheets = Cents(3849));
    finds(Rule::Price, |plan| plan.cost.cuts = Cents(0));
    finds(Rule::Price, |plan| plan.cost.total = Cents(3901));
    finds_against(Rule::Price, |job| job.sheets[0].price = Cents(3900));
}

#[test]
fn sheets_bought_miscounted() {
    finds(Rule::Price, |plan| plan.cost.sheets_bought = 2);
}

#[test]
fn paid_cuts_wrong() {
    finds(Rule::PaidCuts, |plan| plan.cost.paid_cuts = 0);
    finds(Rule::PaidCuts, |plan| plan.cost.yard_cuts = 2);
    finds_broken_down(Rule::PaidCuts, |plan| plan.cost.paid_cuts = 12);
    finds_against(Rule::PaidCuts, |job| job.yard.free_cuts = 1);
}

#[test]
fn a_fall_off_wrong() {
    finds(Rule::FallOff, |plan| plan.strips[0].fall_off += len("1/8"));
    finds(Rule::FallOff, |plan| plan.sheets[0].boards[0].fall_off = len("11 3/4"));
    finds_broken_down(Rule::FallOff, |plan| plan.strips[1].fall_off = len("1/64"));
}

#[test]
fn offcuts_listed_wrong() {
    finds(Rule::Offcut, |plan| plan.offcuts.pop());
    finds(Rule::Offcut, |plan| plan.offcuts[3].count = 1);
    finds(Rule::Offcut, |plan| plan.offcuts[2].worth = Cents(300));
    finds(Rule::Offcut, |plan| plan.offcuts[0].grain_along = false);
    finds(Rule::Offcut, |plan| plan.offcuts.swap(0, 3));
}

#[test]
fn areas_added_up_wrong() {
    let bit = sixty_fourth() * sixty_fourth();
    finds(Rule::Area, |plan| plan.areas.stock = plan.areas.stock + bit);
    finds(Rule::Area, |plan| plan.areas.panels = plan.areas.panels - bit);
    finds(Rule::Area, |plan| plan.areas.kept = plan.areas.kept + bit);
}

#[test]
fn a_proof_claimed_falsely() {
    finds(Rule::Proof, |plan| plan.proof.bound = Cents(3899));
    finds(Rule::Proof, |plan| plan.proof.bound = Cents(3901));
    finds_broken_down(Rule::Proof, |plan| plan.proof.proved = true);
}

#[test]
fn a_later_aim_said_to_be_better_than_it_is() {
    finds(Rule::Level, |plan| plan.levels[0].value = 1800);
    finds(Rule::Level, |plan| plan.levels[1].value = 1);
    finds(Rule::Level, |plan| plan.levels[2].value = 3);
    finds(Rule::Level, |plan| plan.levels[2].bound = 3);
    finds(Rule::Level, |plan| plan.levels[0].bound = 1600);
    finds(Rule::Level, |plan| plan.levels.swap(0, 2));
    finds(Rule::Level, |plan| plan.levels.push(plan.levels[2]));
}

#[test]
fn weights_wrong() {
    finds(Rule::Weight, |plan| plan.strips[0].weight = plan.strips[0].weight.map(|weight| weight * 1.0001));
    finds(Rule::Weight, |plan| plan.panels[2].weight = None);
    finds(Rule::Weight, |plan| plan.load.weight = Some(1.0));
    finds_against(Rule::Weight, |job| job.sheets[0].density = None);
    finds_broken_down(Rule::Weight, |plan| plan.load.weight = Some(1.0));
}

#[test]
fn a_load_wrong() {
    finds(Rule::Load, |plan| plan.load.longest = len("95"));
    finds(Rule::Load, |plan| plan.load.widest = len("11 5/8"));
    finds(Rule::Load, |plan| plan.load.trips = 2);
    finds_against(Rule::Load, |job| job.car.heaviest = Some(5.0));
}

#[test]
fn a_heading_that_is_not_the_jobs() {
    finds(Rule::Heading, |plan| plan.title = "Another week".into());
    finds(Rule::Heading, |plan| plan.panels[0].count = 11);
    finds(Rule::Heading, |plan| plan.panels[0].width = len("12 1/8"));
    finds(Rule::Heading, |plan| plan.panels.pop());
    finds_broken_down(Rule::Heading, |plan| plan.sheets[0].edge_trim = Length::ZERO);
}

#[test]
fn indices_that_lead_nowhere() {
    finds(Rule::Reference, |plan| plan.sheets[0].sheet = 7);
    finds(Rule::Reference, |plan| plan.sheets[0].boards[0].rips[0].strip = 7);
    finds(Rule::Reference, |plan| plan.strips[0].pieces[0].panel = 7);
    finds(Rule::Reference, |plan| plan.strips[2].origin = Origin::OnHand { strip: 7 });
    finds(Rule::Reference, |plan| plan.stops[0].cuts[0].strip = 7);
    finds(Rule::Reference, |plan| plan.trims[0].panel = 7);
    finds(Rule::Reference, |plan| plan.yard[0].sheets[0] = 7);
    finds_broken_down(Rule::Reference, |plan| plan.sheets[0].cuts[1] = YardCut::EdgeTrim { board: 2, off: len("1/2") });
}

#[test]
fn numbers_beyond_all_measure() {
    finds(Rule::Magnitude, |plan| plan.strips[0].width = Length::from_raw(i64::MAX));
    finds(Rule::Magnitude, |plan| plan.strips[0].pieces[0].along = Length::from_raw(-1));
    finds(Rule::Magnitude, |plan| plan.sheets[0].count = u32::MAX);
}

#[test]
fn the_violation_names_the_place_in_the_jobs_own_units() {
    let mut plan = mixed_plan();
    plan.sheets[0].boards[0].rips[1].across = len("12");
    let found = violations(&mixed_job(), &plan);
    assert_eq!(found[0].to_string(), "sheet 1, board 1, rip 2: its near edge should be 12 1/8 in., not 12 in.");
}
