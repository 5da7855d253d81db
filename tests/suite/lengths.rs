//! Lengths and areas against the standards, in every spelling, and back.

use approx::assert_relative_eq;
use proptest::prelude::*;
use yardslip::length::{Area, Length, LengthError, Unit};

const UNITS: [Unit; 3] = [Unit::In, Unit::Mm, Unit::Cm];

fn read(text: &str) -> Length {
    Length::parse(text, Unit::In).unwrap_or_else(|error| panic!("{error}"))
}

#[test]
fn an_inch_is_exactly_25_4_mm() {
    // 16 CFR 500.19 and NIST SP 811, appendix B.8: 1 in = 25.4 mm, exactly.
    assert_eq!(read("25.4 mm"), Length::inches(1));
    assert_eq!(Length::mm(254), Length::inches(10));
    assert_relative_eq!(Length::inches(1).to_mm(), 25.4);
}

#[test]
fn a_foot_is_exactly_304_8_mm_and_36_of_them_10_9728_m() {
    // NIST SP 811, appendix B.7.2, converts 36 ft to 10.9728 m before it rounds.
    assert_eq!(read("1 ft"), read("304.8 mm"));
    assert_eq!(read("36 ft"), read("10.9728 m"));
    assert_eq!(read("12 yd"), read("36 ft"));
}

#[test]
fn a_64th_is_exactly_0_396875_mm() {
    // 25.4 / 64 by hand; raw units hold both sides of it exactly.
    assert_relative_eq!(Length::sixty_fourths(1).to_mm(), 0.396_875, max_relative = 1e-15);
    assert_eq!(read("1/64"), Length::sixty_fourths(1));
    assert_eq!(read("64/64"), Length::inches(1));
}

#[test]
fn a_4_by_8_sheet_is_1219_2_by_2438_4_mm_and_not_1220_by_2440() {
    // 48 and 96 in. times 25.4; the trade's metric name for the size is 1220 x 2440 mm (common practice).
    assert_eq!((read("48"), read("96")), (read("1219.2 mm"), read("2438.4 mm")));
    assert_ne!((read("48"), read("96")), (Length::mm(1220), Length::mm(2440)));
}

#[test]
fn a_square_foot_is_exactly_929_0304_square_centimetres() {
    // 16 CFR 500.19.
    let foot = Area::of(read("1 ft"), read("12 in"));
    assert_relative_eq!(foot.to_square_metres() * 1e4, 929.030_4, max_relative = 1e-15);
    assert_relative_eq!(foot.to_square_feet(), 1.0);
    // A roll 84 in. wide and 6 yd long is 126 sq ft: arithmetic, and printed so by the trade.
    assert_relative_eq!((Length::inches(84) * Length::inches(216)).to_square_feet(), 126.0);
}

#[test]
fn strips_and_crosscuts_come_out_as_on_the_shops_scrap_of_paper() {
    // 4 x 11 7/8 + 3 x 1/8 = 47 7/8 and 6 x 15 7/8 + 5 x 1/8 = 95 7/8: arithmetic.
    assert_eq!(read("11 7/8") * 4 + read("1/8") * 3, read("47 7/8"));
    assert_eq!(read("15 7/8") * 6 + read("1/8") * 5, read("95 7/8"));
    // The exact quarter of 48 less three kerfs of 1/8 is 11 29/32.
    assert_eq!(read("11 29/32") * 4 + read("1/8") * 3, read("48"));
}

#[test]
fn one_length_has_many_spellings() {
    let spellings = [
        "11 7/8",
        "11-7/8",
        "11-7/8\"",
        "11 7/8 in",
        "11 7/8 in.",
        "11 7/8 inches",
        "11 7/8''",
        "11.875",
        "11.8750000000",
        " 11  7/8 ",
        "11\u{a0}7/8",
        "11\u{215e}",
        "11 \u{215e}\u{2033}",
        "11 7\u{2044}8",
        "11 14/16",
        "95/8",
        "11 - 7/8\"",
        "0 ft 11 7/8",
        "0' 11 7/8\"",
        "301.625 mm",
        "30.1625 cm",
        "0.301625 m",
        "11 7 / 8",
    ];
    for spelling in spellings {
        assert_eq!(Length::parse(spelling, Unit::In), Ok(Length::sixty_fourths(760)), "{spelling}");
    }
}

#[test]
fn feet_and_inches_are_read_together() {
    for spelling in [
        "4' 6 1/2\"",
        "4'6-1/2\"",
        "4 ft 6 1/2 in",
        "4ft. 6.5",
        "4 feet 6 1/2 inches",
        "4'-6 1/2\"",
        "4\u{2032} 6\u{bd}\u{2033}",
    ] {
        assert_eq!(Length::parse(spelling, Unit::Mm), Ok(Length::sixty_fourths(54 * 64 + 32)), "{spelling}");
    }
    assert_eq!(read("4 ft"), read("48"));
    assert_eq!(read("4'"), read("48"));
    assert_eq!(read("1/2 ft"), read("6"));
}

#[test]
fn bare_numbers_are_in_the_jobs_units() {
    assert_eq!(Length::parse("302", Unit::Mm), Ok(Length::mm(302)));
    assert_eq!(Length::parse("30.2", Unit::Cm), Ok(Length::mm(302)));
    assert_eq!(Length::parse("302 MM", Unit::In), Ok(Length::mm(302)));
    assert_eq!(Length::parse("12", Unit::In), Ok(Length::inches(12)));
    assert_eq!(Length::parse("-12", Unit::In), Ok(Length::inches(-12)));
}

#[test]
fn nonsense_is_no_length() {
    let nonsense = [
        "-",
        ".",
        "/",
        "1/",
        "/8",
        "7/8/2",
        "1.2.3",
        "1 1 7/8",
        "11.5 7/8",
        "in",
        "mm",
        "'",
        "x",
        "12 furlong",
        "1e3",
        "nan",
        "inf",
        "--3",
        "4 ft 30 cm",
        "4 ft 6 ft",
        "12 in 3",
        "1,219",
        "\u{bd}\u{bd}",
        "0x10",
        "12\n13",
        "7/-8",
    ];
    for text in nonsense {
        assert_eq!(Length::parse(text, Unit::In), Err(LengthError::NotALength(text.trim().into())), "{text:?}");
    }
    assert_eq!(Length::parse("  ", Unit::In), Err(LengthError::Empty));
    assert_eq!(Length::parse("3/0", Unit::In), Err(LengthError::ZeroDenominator("3/0".into())));
}

#[test]
fn a_length_past_all_measure_is_refused() {
    for text in
        ["1000000.001", "1000001", "99999999999999999999", "9223372036854775807", "83334 ft", "999999999/1", "26 km"]
    {
        assert!(Length::parse(text, Unit::In).is_err(), "{text}");
    }
    assert_eq!(read("1000000"), Length::MAX);
    assert_eq!(
        Length::parse("1000001", Unit::In).map_err(|e| e.to_string()),
        Err("`1000001` is longer than a million inches".into())
    );
}

#[test]
fn the_shop_reads_reduced_fractions() {
    // 6/16 is read as 3/8 (common practice, no source).
    let shown = [
        ("6/16", "3/8"),
        ("11 14/16", "11 7/8"),
        ("12", "12"),
        ("0", "0"),
        ("1/64", "1/64"),
        ("-3 1/2", "-3 1/2"),
        ("11.875", "11 7/8"),
    ];
    for (written, fraction) in shown {
        assert_eq!(read(written).show(Unit::In), fraction);
    }
    assert_eq!(Length::mm(302).show(Unit::Mm), "302");
    assert_eq!(Length::mm(302).show(Unit::Cm), "30.2");
    assert_eq!(Length::inches(48).show(Unit::Mm), "1219.2");
    assert_eq!(read("11 7/8").say(Unit::In), "11 7/8 in.");
    assert_eq!(Length::mm(302).say(Unit::Mm), "302 mm");
}

#[test]
fn rounding_down_and_counting_never_come_out_above() {
    let sixteenth = Length::sixty_fourths(4);
    assert_eq!(read("11 31/32").round_down(sixteenth), read("11 15/16"));
    assert_eq!(read("11 15/16").round_down(sixteenth), read("11 15/16"));
    assert_eq!(read("96").times(read("16 1/8")), 5);
    assert_eq!(read("96 1/8").times(read("12 1/8")), 7);
}

proptest! {
    #[test]
    fn what_is_shown_reads_back_the_same(raw in -Length::MAX.raw()..=Length::MAX.raw()) {
        let length = Length::from_raw(raw);
        for unit in UNITS {
            prop_assert_eq!(Length::parse(&length.show(unit), unit), Ok(length));
            prop_assert_eq!(Length::parse(&length.say(unit), Unit::Mm), Ok(length));
        }
        prop_assert_eq!(Length::parse(&length.with_unit(), Unit::Cm), Ok(length));
    }

    #[test]
    fn small_lengths_too_read_back_the_same(raw in -20_000_i64..20_000) {
        let length = Length::from_raw(raw);
        for unit in UNITS {
            prop_assert_eq!(Length::parse(&length.show(unit), unit), Ok(length));
        }
    }

    #[test]
    fn a_length_survives_json(raw in -Length::MAX.raw()..=Length::MAX.raw()) {
        let length = Length::from_raw(raw);
        let json = serde_json::to_string(&length).expect("a length is text");
        prop_assert_eq!(serde_json::from_str::<Length>(&json).expect("it reads back"), length);
    }

    #[test]
    fn no_text_makes_reading_a_length_panic(text in "\\PC{0,24}") {
        let _ = Length::parse(&text, Unit::In);
    }

    #[test]
    fn no_text_that_looks_like_a_length_makes_reading_it_panic(text in "[-0-9./ '\"xftincm\u{bd}\u{2032}]{0,20}") {
        for unit in UNITS {
            if let Ok(length) = Length::parse(&text, unit) {
                prop_assert!(length.raw().abs() <= Length::MAX.raw());
                prop_assert_eq!(Length::parse(&length.show(unit), unit), Ok(length));
            }
        }
    }
}
