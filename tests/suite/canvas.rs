//! Canvas off the roll: the least length, against arithmetic and the published cases.

use crate::lots::{canvassed, len};
use proptest::prelude::*;
use yardslip::data::Cents;
use yardslip::data::week::{Canvas, Sold, Weave};
use yardslip::length::Length;
use yardslip::plan::week::canvas::{canvas_plan, price, sold};
use yardslip::plan::week::{CanvasPlan, Lot};
use yardslip::solve::Patient;

/// A roll of this width without selvedge, sold by the yard at 32.00.
fn roll(width: &str) -> Canvas {
    let yard = len("36");
    let sold = Sold { price: Cents(3200), per: yard, step: yard, smallest: yard, longest: None };
    Canvas {
        name: "linen".into(),
        roll: len(width),
        selvedge: Length::ZERO,
        overlap: len("3/4"),
        weave: Weave::Either,
        sold,
        weight: 400.0,
        thickness: Length::ZERO,
        panels: Vec::new(),
    }
}

fn plan(lots: &[Lot], canvas: &Canvas) -> CanvasPlan {
    let plan = canvas_plan(lots, canvas, &Patient).expect("canvas");
    sound(&plan, lots, canvas);
    plan
}

/// Every piece there once, at its size, inside the roll between the selvedges, none over another, all on what is sold.
fn sound(plan: &CanvasPlan, lots: &[Lot], canvas: &Canvas) {
    for lot in lots.iter().filter(|lot| !plan.misfits.contains(&lot.panel)) {
        let (width, height) = lot.canvas.expect("canvas");
        let pieces = plan.strips.iter().flat_map(|strip| &strip.pieces).filter(|piece| piece.panel == lot.panel);
        let sizes: Vec<_> = pieces
            .map(|piece| if piece.turned { (piece.along, piece.across) } else { (piece.across, piece.along) })
            .collect();
        assert_eq!(sizes, vec![(width, height); lot.count as usize]);
    }
    let mut end = vec![Length::ZERO; plan.lengths.len()];
    for strip in &plan.strips {
        assert_eq!(strip.at, end[strip.from], "strips follow each other");
        end[strip.from] += strip.depth;
        let mut left = canvas.selvedge;
        for piece in &strip.pieces {
            assert!(piece.left >= left && piece.along <= strip.depth);
            left = piece.left + piece.across;
        }
        assert!(left <= canvas.roll - canvas.selvedge);
    }
    assert!(end.iter().zip(&plan.lengths).all(|(end, sold)| end <= sold));
    assert_eq!(end.into_iter().sum::<Length>(), plan.needs);
    assert!(plan.bound <= plan.needs);
}

#[test]
fn twenty_four_12_by_16_panels_take_70_inches_of_an_82_inch_roll() {
    // 1 1/2 in. more each way (common practice): pieces of 13 1/2 x 17 1/2. Six lie across 82 in. (81), so four strips
    // of 17 1/2; the other way four lie across (70), and six strips of 13 1/2 would take 81.
    let plan = plan(&[canvassed(0, "12", "16", 24, "1 1/2")], &roll("82"));
    assert_eq!(plan.needs, len("70"));
    assert!(plan.proved);
    assert_eq!(plan.strips.iter().map(|strip| strip.pieces.len()).collect::<Vec<_>>(), [6, 6, 6, 6]);
    assert_eq!(plan.lengths, [len("72")], "two yards");
    assert_eq!(plan.cost, Cents(6400));
}

#[test]
fn eighteen_pieces_of_27_by_23_come_out_of_6_yards_of_54_and_not_24() {
    // Two across by nine along: 9 x 23 = 207 of 216 in. A web page counts twelve along and prints 24; twelve would take
    // 276 in. Of 84 in. three across by nine make 27, where it prints 36.
    let take = |count: u32, width: &str| {
        plan(&[canvassed(0, "27", "23", count, "0")], &Canvas { weave: Weave::Along, ..roll(width) })
    };
    assert_eq!(take(18, "54").needs, len("207"));
    assert!(take(19, "54").needs > len("216"), "a nineteenth piece does not come out of six yards");
    assert_eq!(take(27, "84").needs, len("207"));
    assert!(take(28, "84").needs > len("216"));
    assert!(take(18, "54").proved && take(28, "84").proved);
}

#[test]
fn six_yards_of_an_84_inch_roll_are_126_square_feet() {
    // 84 x 216 / 144 = 126 (a printed figure, and arithmetic).
    approx::assert_abs_diff_eq!((len("84") * len("216")).to_square_feet(), 126.0, epsilon = 1e-9);
}

#[test]
fn a_shallow_strip_is_filled_up_with_what_is_left_of_other_sizes() {
    // Pieces of 10 x 20 and 10 x 10 on a 30 in. roll: two deep ones leave 10 in. for a shallow one beside them, so two
    // and one take 20 in.; each further three shallow ones 10 in.
    let lots = [canvassed(0, "10", "20", 2, "0"), canvassed(1, "10", "10", 4, "0")];
    let along = Canvas { weave: Weave::Along, ..roll("30") };
    let plan = plan(&lots, &along);
    assert_eq!(plan.needs, len("30"));
    assert!(plan.proved);
}

#[test]
fn weave_decides_which_way_a_piece_may_lie() {
    let lots = [canvassed(0, "12", "30", 5, "0")];
    let needs = |weave: Weave| plan(&lots, &Canvas { weave, ..roll("60") }).needs;
    assert_eq!(needs(Weave::Along), len("30"), "five of 12 in. across");
    assert_eq!(needs(Weave::Across), len("36"), "two of 30 in. across, three strips of 12");
    assert_eq!(needs(Weave::Either), len("30"));
}

#[test]
fn selvedge_is_left_alone() {
    let lots = [canvassed(0, "12", "16", 6, "1 1/2")];
    let half = plan(&lots, &Canvas { selvedge: len("1/2"), ..roll("82") });
    assert_eq!(half.strips[0].pieces[0].left, len("1/2"));
    assert_eq!(half.needs, len("17 1/2"), "six of 13 1/2 are just 81");
    let inch = plan(&lots, &Canvas { selvedge: len("1"), ..roll("82") });
    assert!(inch.needs > len("17 1/2"));
}

#[test]
fn a_piece_wider_than_the_roll_is_a_misfit() {
    let lots = [canvassed(0, "60", "70", 1, "1 1/2"), canvassed(1, "12", "16", 1, "1 1/2")];
    let plan = plan(&lots, &roll("54"));
    assert_eq!(plan.misfits, [0]);
    assert_eq!(plan.strips.len(), 1);
}

#[test]
fn rolls_of_six_yards_are_bought_whole() {
    let six = len("216");
    let whole = Sold { price: Cents(18_000), per: six, step: six, smallest: six, longest: Some(six) };
    let plan = plan(&[canvassed(0, "27", "23", 19, "0")], &Canvas { weave: Weave::Along, sold: whole, ..roll("54") });
    assert_eq!(plan.lengths, [six, six]);
    assert_eq!(plan.cost, Cents(36_000));
}

#[test]
fn lengths_sold_go_up_in_steps_from_the_smallest() {
    let yards = roll("54");
    assert_eq!(sold(&yards, len("36")), len("36"));
    assert_eq!(sold(&yards, len("36 1/64")), len("72"));
    let quarter = Canvas { sold: Sold { step: len("9"), ..yards.sold }, ..yards };
    assert_eq!(sold(&quarter, len("40")), len("45"));
    assert_eq!(sold(&quarter, len("3")), len("36"), "never under the smallest");
    assert_eq!(price(&quarter, len("45")), Cents(4000), "1 1/4 yd at 32.00");
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 24, ..ProptestConfig::default() })]
    #[test]
    fn any_batch_is_cut_soundly_and_never_beats_its_area(
        sizes in prop::collection::vec((4_i64..30, 4_i64..30, 1_u32..12), 1..4),
        width in 30_i64..90,
    ) {
        let lots: Vec<Lot> = sizes.iter().enumerate()
            .map(|(panel, (w, h, count))| canvassed(panel, &w.to_string(), &h.to_string(), *count, "1 1/2"))
            .collect();
        let canvas = roll(&width.to_string());
        let plan = plan(&lots, &canvas);
        let area: yardslip::length::Area = lots.iter().filter(|lot| !plan.misfits.contains(&lot.panel))
            .map(|lot| { let (w, h) = lot.canvas.unwrap(); w * h * i64::from(lot.count) }).sum();
        prop_assert!(plan.needs * canvas.roll >= area);
    }
}
