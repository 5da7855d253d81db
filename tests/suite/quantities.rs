//! Filler, sealer, glue and paper against figures from outside and by hand.

use crate::lots::{canvassed, len, lot};
use crate::papers_in::{faults, job};
use yardslip::data::Job;
use yardslip::data::week::{Amount, Coverage, Measure};
use yardslip::length::Unit;
use yardslip::plan::week::litres_to_fill;
use yardslip::plan::week::needs::needs;

/// Litres in a US gallon of 231 cubic inches, exactly (NIST Handbook 44; the value is in 16 CFR 500 too).
const GALLON: f64 = 3.785_411_784;
/// Square metres in a square foot, exactly (16 CFR 500.19).
const SQUARE_FOOT: f64 = 0.092_903_04;

fn a_week(sections: &str) -> Job {
    job(&format!(
        "[[sheet]]\nlength = 96\nwidth = 48\nprice = 40\n[[panel]]\nsize = \"12 x 16\"\ncount = 1\n{sections}"
    ))
}

#[test]
fn a_gallon_spread_a_mil_thick_covers_1604_square_feet() {
    // 231 cubic inches / 0.001 in. / 144 = 1604.17 sq ft (arithmetic); an eighth of an inch is 125 mil.
    let litres = litres_to_fill(1604.1667 / 125.0 * SQUARE_FOOT, 100, len("1/8"));
    approx::assert_relative_eq!(litres, GALLON, max_relative = 1e-6);
}

#[test]
fn a_gallon_of_filler_a_32nd_deep_covers_51_square_feet_and_not_48() {
    // 231 / (1/32) / 144 = 51.33 sq ft; a web page prints "almost exactly 48".
    approx::assert_relative_eq!(litres_to_fill(51.3333 * SQUARE_FOOT, 100, len("1/32")), GALLON, max_relative = 1e-5);
    approx::assert_relative_eq!(
        litres_to_fill(51.3333 * SQUARE_FOOT, 5, len("1/32")),
        GALLON / 20.0,
        max_relative = 1e-5
    );
}

#[test]
fn packages_hold_what_their_units_say() {
    let of = |text: &str| Amount::parse(text).map(|(amount, measure)| (amount.to_metric(measure), measure));
    assert_eq!(of("1 gal"), Some((GALLON, Measure::Volume)));
    assert_eq!(of("4 qt"), of("1 gal"), "four quarts are a gallon");
    assert_eq!(of("2 l"), Some((2.0, Measure::Volume)));
    let ounce = of("1 fl oz").map(|found| found.0).unwrap_or_default();
    approx::assert_abs_diff_eq!(ounce, 0.029_573_5, epsilon = 1e-7); // 29.5735 mL (16 CFR 500.19)
    approx::assert_abs_diff_eq!(of("75 sq ft").unwrap().0, 75.0 * SQUARE_FOOT, epsilon = 1e-9);
    assert!(["", "qt", "0 gal", "-1 qt", "1 bucket", "1e99 l"].into_iter().all(|text| Amount::parse(text).is_none()));
}

#[test]
fn coverage_prints_as_it_is_written() {
    assert_eq!(Coverage::feet_a_gallon(500.0).say(Unit::In), "500 sq ft a gallon");
    // 500 sq ft / gal = 46.45 m2 / 3.785 l (arithmetic).
    assert_eq!(Coverage::feet_a_gallon(500.0).say(Unit::Mm), "12.3 m2 a litre");
}

#[test]
fn two_coats_on_both_faces_and_the_edges_of_24_panels() {
    // One 12 x 16 in. panel 1/4 in. thick: faces 2 x 192 = 384 sq in., edges 56 x 1/4 = 14, so 398 sq in.;
    // 24 of them 9552 sq in. = 66.33 sq ft; two coats at 500 sq ft a gallon and 10 % make 0.2919 gal (by hand).
    let job = a_week("[finish]\nsealer = [\"1 qt at 24\", \"1 gal at 68\"]\n");
    let lots = [lot(0, "12", "16", 24)];
    let needs = needs(&job, &lots);
    let sealer = needs.iter().find(|need| need.what == "sealer").expect("sealer");
    approx::assert_relative_eq!(sealer.need / GALLON, 66.3333 * 2.0 / 500.0 * 1.1, max_relative = 1e-5);
}

#[test]
fn each_grit_takes_whole_sheets_of_sandpaper_and_the_last_one_more_between_coats() {
    // 24 faces of 1 sq ft at 10 sq ft a sheet: 2.4, so 3 sheets of each grit. Two coats on both faces are sanded
    // lightly once between: 24 + 48 = 72 sq ft with the last grit, 7.2, so 8 sheets (by hand).
    let job = a_week("[finish]\ngrits = [120, 220]\nsandpaper = [\"5 sheets at 4.50\"]\nsheet_sands = 10\n");
    let needs = needs(&job, &[lot(0, "12", "12", 24)]);
    let sheets: Vec<(&str, f64)> = needs
        .iter()
        .filter(|need| need.measure == Measure::Sheets)
        .map(|need| (need.what.as_str(), need.need))
        .collect();
    assert_eq!(sheets, [("sandpaper, grit 120", 3.0), ("sandpaper, grit 220", 8.0)]);
}

#[test]
fn glue_on_both_faces_takes_twice_what_it_takes_on_one() {
    // 100 sq ft of coverage is 50 sq ft of joint where both faces are coated (a published trap).
    let both = a_week("[canvas]\nroll = 82\nprice = 32\n[glue]\n");
    let one = a_week("[canvas]\nroll = 82\nprice = 32\n[glue]\nfaces = \"one\"\n");
    let lots = [canvassed(0, "12", "12", 100, "1 1/2"), lot(1, "12", "12", 50)];
    let need = |job: &Job| needs(job, &lots)[0].need / GALLON;
    approx::assert_relative_eq!(need(&one), 100.0 / 225.0 * 1.1, max_relative = 1e-9);
    approx::assert_relative_eq!(need(&both), 2.0 * need(&one), max_relative = 1e-9);
}

#[test]
fn waxed_paper_is_as_large_as_the_canvas() {
    let job = a_week("[canvas]\nroll = 82\nprice = 32\n[press]\nlength = 48\nwidth = 24\n");
    let needs = needs(&job, &[canvassed(0, "10 1/2", "10 1/2", 2, "1 1/2")]);
    approx::assert_relative_eq!(needs[0].need, 2.0 * SQUARE_FOOT, max_relative = 1e-12);
}

#[test]
fn a_package_that_cannot_be_read_is_refused_with_an_example() {
    let told = |line: &str| {
        faults(&format!(
            "[[sheet]]\nlength = 96\nwidth = 48\nprice = 40\n[[panel]]\nsize = \"12 x 16\"\ncount = 1\n[finish]\n{line}\n"
        ))
    };
    assert_eq!(
        told("sealer = [\"a bucket\"]"),
        "`a bucket` is not a package with its price\n  --> harbour.toml, line 9, finish.sealer\n  try: write `1 qt at 24.00`"
    );
    assert!(told("sealer = [\"10 m2 at 5\"]").starts_with("`10 m2` is an area, but this is sold by volume"));
    assert!(told("sealers = []").contains("did you mean `sealer`?"));
}

#[test]
fn glue_and_a_press_without_canvas_have_nothing_to_work_on() {
    let told = faults(
        "[[sheet]]\nlength = 96\nwidth = 48\nprice = 40\n[[panel]]\nsize = \"12 x 16\"\ncount = 1\n[glue]\n[press]\nlength = 48\nwidth = 24\n",
    );
    assert!(
        told.starts_with(
            "`[glue]` has nothing to work on: the job has no `[canvas]`\n  --> harbour.toml, line 8, glue"
        ),
        "{told}"
    );
    assert!(told.contains("`[press]` has nothing to work on"));
}
