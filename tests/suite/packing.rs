//! Boxes, bags and bundles, worked by hand.

use crate::lots::{len, lot, weighing};
use yardslip::data::week::{Limit, Pack, PackKind};
use yardslip::plan::week::packing::pack_lots;
use yardslip::plan::week::{Packing, Refusal};

fn the_box(inside: [&str; 3]) -> Pack {
    Pack {
        kind: PackKind::Box,
        inside: Some(inside.map(len)),
        highest: None,
        heaviest: None,
        empty: 0.0,
        limit: None,
        wet: false,
        between: len("1/64"),
        boards: len("0"),
        board_density: 680.0,
    }
}

fn packed(packing: &Packing, panel: usize) -> u32 {
    let layers = packing.parcels.iter().flat_map(|parcel| &parcel.stacks).flat_map(|stack| &stack.layers);
    layers.filter(|layer| layer.0 == panel).map(|layer| layer.1).sum()
}

#[test]
fn a_9_in_cabin_bag_holds_33_quarter_inch_panels_with_paper_between() {
    // Each rises 1/4 + 1/64 = 17/64 in., the first lies on paper too: (9 - 1/64) / (17/64) = 33.8.
    let pack = Pack { limit: Some(Limit::CabinBag), ..the_box(["22", "14", "9"]) };
    let packing = pack_lots(&[lot(0, "12", "16", 40)], &pack);
    assert_eq!(packing.parcels[0].stacks[0].layers, [(0, 33)]);
    assert_eq!(packing.parcels[1].stacks[0].layers, [(0, 7)]);
    assert!(packing.carrier.is_some_and(|carrier| carrier.keeps));
    // 40 x 12 x 16 x 17/64 in. are 2040 of 22 x 14 x (9 - 1/64) = 2767 cu in.: room alone asks for one.
    assert_eq!(packing.floor, 1);
}

#[test]
fn the_weight_limit_opens_a_second_box() {
    // 12 x 16 in. of 6 mm birch ply at 680 kg/m3 weighs 505.4 g (arithmetic: 0.12387 m2 x 6 mm x 680 kg/m3), so
    // 50 lb = 22.68 kg holds 44 of them with nothing to spare for a 45th (22.74 kg).
    let weight = (len("12") * len("16")).to_square_metres() * 0.006 * 680.0;
    approx::assert_abs_diff_eq!(weight, 0.5054, epsilon = 5e-5);
    let pack = Pack { heaviest: Some(50.0 * 0.453_592_37), ..the_box(["40", "30", "30"]) };
    let packing = pack_lots(&[weighing(lot(0, "12", "16", 60), weight)], &pack);
    let counts: Vec<u32> =
        packing.parcels.iter().map(|parcel| parcel.stacks.iter().map(|s| s.layers[0].1).sum()).collect();
    assert_eq!(counts, [44, 16]);
    approx::assert_abs_diff_eq!(packing.parcels[0].weight, 44.0 * weight, epsilon = 1e-9);
    assert_eq!(packing.floor, 2, "60 x 505.4 g = 30.3 kg: no fewer than two");
}

#[test]
fn specific_gravity_is_not_density() {
    // Yellow birch: specific gravity 0.62 at 12 % moisture is oven-dry mass, so it weighs 0.62 x 1.12 x 1000 =
    // 694 kg/m3, not 620 (Wood Handbook, FPL-GTR-282, chapter 4 and table 5-3b; from memory).
    let density: f64 = 0.62 * 1.12 * 1000.0;
    approx::assert_abs_diff_eq!(density, 694.4, epsilon = 1e-9);
    let kilograms = |density: f64| (len("96") * len("48")).to_square_metres() * 0.0052 * density;
    assert!(kilograms(density) - kilograms(620.0) > 1.1, "more than a kilogram on a 5.2 mm sheet");
}

#[test]
fn wet_panels_lie_with_their_own_size_only_and_spacers_between() {
    let lots = [lot(0, "12", "16", 4), lot(1, "9", "12", 4)];
    let dry = pack_lots(&lots, &the_box(["16", "12", "9"]));
    assert_eq!(dry.parcels[0].stacks[0].layers, [(0, 4), (1, 4)], "dry ones: smaller on larger");
    let wet = Pack { wet: true, between: len("1/4"), ..the_box(["16", "12", "9"]) };
    let packing = pack_lots(&lots, &wet);
    assert_eq!(packing.parcels.len(), 2);
    // Four panels of 1/4 in. and five spacers of 1/4 in.
    assert_eq!(packing.parcels[0].stacks[0].height, len("2 1/4"));
}

#[test]
fn wooden_panels_outside_take_their_room_and_weight() {
    let pack = Pack { boards: len("1/4"), ..the_box(["16", "12", "2"]) };
    let packing = pack_lots(&[weighing(lot(0, "12", "16", 10), 0.5)], &pack);
    // 2 - 2 x 1/4 - 1/64 = 1 31/64 in. hold five panels of 17/64 in.
    assert_eq!(packing.parcels[0].stacks[0].layers, [(0, 5)]);
    let boards = (len("12") * len("16")).to_square_metres() * 0.00635 * 2.0 * 680.0;
    approx::assert_abs_diff_eq!(packing.parcels[0].weight, 2.5 + boards, epsilon = 1e-9);
}

#[test]
fn what_does_not_fit_is_named_with_its_reason() {
    let lots = [lot(0, "30", "40", 1), weighing(lot(1, "8", "10", 1), 30.0), lot(2, "8", "10", 2)];
    let pack = Pack { heaviest: Some(22.0), ..the_box(["27", "21", "14"]) };
    let packing = pack_lots(&lots, &pack);
    let why: Vec<(usize, Refusal)> = packing.misfits.iter().map(|misfit| (misfit.panel, misfit.why)).collect();
    assert_eq!(why, [(0, Refusal::TooLarge), (1, Refusal::TooHeavy)]);
    assert_eq!(packed(&packing, 2), 2);
}

#[test]
fn plain_bundles_hold_one_stack_each_up_to_their_height() {
    let pack = Pack { kind: PackKind::Bundle, inside: None, highest: Some(len("2")), ..the_box(["1", "1", "1"]) };
    let packing = pack_lots(&[lot(0, "12", "16", 10)], &pack);
    // 2 - 1/64 holds seven of 17/64 in.
    let counts: Vec<u32> = packing.parcels.iter().map(|parcel| parcel.stacks[0].layers[0].1).collect();
    assert_eq!(counts, [7, 3]);
}

#[test]
fn small_stacks_stand_beside_a_large_one_where_it_is_turned_for_them() {
    // A 22 x 14 in. base: 9 x 12 turned so that 9 in. lie along it leaves 13 x 14 in. for four stacks of 6 x 6.
    let wet = Pack { wet: true, between: len("1/4"), ..the_box(["22", "14", "9"]) };
    // 9 - 1/4 = 8 3/4 in. hold 17 panels of 1/2 in.; four stacks of 17 are 68.
    let packing = pack_lots(&[lot(0, "9", "12", 17), lot(1, "6", "6", 68)], &wet);
    assert_eq!(packing.parcels.len(), 1);
    assert_eq!(packing.floor, 1);
}

#[test]
fn canvas_makes_every_stack_higher() {
    let bare = lot(0, "12", "16", 4);
    let clothed = yardslip::plan::week::Lot { cloth: len("1/32"), ..bare.clone() };
    let high = |lot| pack_lots(&[lot], &the_box(["22", "14", "9"])).parcels[0].stacks[0].height;
    assert_eq!(high(clothed) - high(bare), len("1/8"), "four times 1/32 in.");
}

#[test]
fn where_a_thickness_is_not_known_neither_is_the_height() {
    let thin = yardslip::plan::week::Lot { thickness: None, ..lot(0, "12", "16", 4) };
    let packing = pack_lots(&[thin], &the_box(["22", "14", "9"]));
    assert!(packing.height_unknown && packing.weight_unknown);
}

#[test]
fn bags_of_62_linear_inches_are_allowed_and_one_inch_more_is_not() {
    // Length + width + height of printed examples: 27 + 21 + 14 and 22 + 20 + 20 make 62 (common practice).
    let keeps = |inside: [&str; 3]| {
        let pack = Pack { limit: Some(Limit::CheckedBag), ..the_box(inside) };
        pack_lots(&[lot(0, "8", "10", 1)], &pack).carrier.is_some_and(|carrier| carrier.keeps)
    };
    assert!(keeps(["27", "21", "14"]) && keeps(["22", "20", "20"]) && keeps(["60", "1", "1"]));
    assert!(!keeps(["28", "21", "14"]));
}
