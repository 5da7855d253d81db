//! Damage to the packing.

use super::*;
use yardslip::data::week::Limit;
use yardslip::plan::week::Refusal;

#[test]
fn panels_missing_or_packed_twice() {
    finds(Rule::Count, |week| packing(week).parcels.pop());
    finds(Rule::Count, |week| {
        let parcel = packing(week).parcels[0].clone();
        packing(week).parcels.push(parcel);
    });
    finds(Rule::Count, |week| packing(week).misfits.pop());
}

#[test]
fn a_stack_beyond_the_box_and_stacks_in_each_other() {
    finds(Rule::Edge, |week| packing(week).parcels[0].stacks[0].spot.across = len("12"));
    finds(Rule::Overlap, |week| {
        let stack = packing(week).parcels[0].stacks[0].clone();
        packing(week).parcels[0].stacks.push(stack);
    });
}

#[test]
fn a_larger_panel_on_a_smaller_one() {
    finds(Rule::Parcel, |week| {
        let stacks = packing(week).parcels.iter_mut().flat_map(|parcel| &mut parcel.stacks);
        let mixed = stacks.into_iter().find(|stack| stack.layers.len() > 1).expect("a stack of two sizes");
        mixed.layers.reverse();
    });
}

#[test]
fn wet_panels_on_another_size() {
    finds_against(Rule::Parcel, |week| week.pack.as_mut().map(|pack| pack.wet = true));
}

#[test]
fn a_stack_that_is_too_high_or_said_to_be_lower() {
    finds(Rule::Parcel, |week| packing(week).parcels[0].stacks[0].height -= len("1/64"));
    finds_against(Rule::Parcel, |week| week.pack.as_mut().map(|pack| pack.between = len("1/32")));
    finds_against(Rule::Limit, |week| week.pack.as_mut().map(|pack| pack.boards = len("4")));
}

#[test]
fn a_box_over_its_weight_or_said_to_be_lighter() {
    finds(Rule::Weight, |week| packing(week).parcels[0].weight -= 0.001);
    finds(Rule::Weight, |week| packing(week).weight_unknown = true);
    finds_against(Rule::Limit, |week| week.pack.as_mut().map(|pack| pack.heaviest = Some(2.0)));
}

#[test]
fn a_panel_said_not_to_fit_for_the_wrong_reason_or_without_one() {
    finds(Rule::Misfit, |week| packing(week).misfits[0].why = Refusal::TooHeavy);
    finds(Rule::Misfit, |week| {
        let layer = &mut packing(week).parcels[0].stacks[0].layers[0];
        layer.1 -= 1;
        let misfit = yardslip::plan::week::packing::Misfit { panel: layer.0, count: 1, why: Refusal::TooLarge };
        packing(week).misfits.push(misfit);
    });
}

#[test]
fn another_box_than_the_jobs() {
    finds(Rule::Parcel, |week| packing(week).inside = Some([len("17"), len("13"), len("9")]));
    finds(Rule::Parcel, |week| packing(week).inside = None);
    finds(Rule::Parcel, |week| packing(week).carrier = None);
    finds_against(Rule::Parcel, |week| week.pack.as_mut().map(|pack| pack.limit = Some(Limit::CabinBag)));
}

#[test]
fn an_empty_box() {
    finds(Rule::Parcel, |week| packing(week).parcels[0].stacks.clear());
    finds(Rule::Parcel, |week| packing(week).parcels[0].stacks[0].layers.clear());
}
