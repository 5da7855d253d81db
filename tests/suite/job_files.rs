//! Job files that are read: what they say, in every spelling, and what is assumed where they are silent.

use crate::papers_in::{job, job_with_list, source};
use yardslip::data::{Breakdown, Cents, Fault, File, FreePer, Grain, Place, RipWidths, Rips, SawKind, listed, located};
use yardslip::length::{Length, Unit};

/// A sheet and a panel: the least a job can say.
const LEAST: &str = "[[sheet]]\nlength = 96\nwidth = 48\nprice = 38.50\n\n[[panel]]\nsize = \"12 x 16\"\ncount = 24\n";

/// Everything a job can say about cutting.
const ALL: &str = r#"
title = "Harbour week"
units = "in"
currency = "kr"
rule = "1/32"

[[sheet]]
name = "birch plywood 1/4"
length = 96
width = "4 ft"
thickness = "5.2 mm"
price = 38.50
stock = 10
density = 680
edge_trim = "1/8"
tolerance = "1/32"

[[panel]]
size = "12 x 16"
name = "boats"
count = 24
scant = "1/8"
grain = "upright"
extra = 6
worth = 9.00
sheets = ["Birch Plywood 1/4"]

[[panel]]
width = "9"
height = 12
count = 2

[[keep]]
size = "24 x 6"
worth = "$1.5"

[[strip]]
name = "K"
width = 12
length = "40"
count = 2
sheet = "birch plywood 1/4"
grain = "across"

[yard]
kerf = "5/32"
rips = "either"
rip_widths = [16, "12", 11.875]
narrowest = 2
widest = 24
most_cuts = 8
free_cuts = 2
free_per = "order"
cut_price = 0.50
tolerance = "1/16"
breakdown = "allowed"

[car]
longest = 75
widest = "1 m"
heaviest = "300 lb"

[saw]
kind = "mitre"
kerf = "3/32"
crosses = 12
squaring = 0
shortest = 4
trims = true
"#;

#[test]
fn a_sheet_and_a_panel_are_enough() {
    let job = job(LEAST);
    assert_eq!((job.title.as_str(), job.units, job.currency.as_str()), ("harbour", Unit::In, "$"));
    assert_eq!((job.sheets[0].name.as_str(), job.sheets[0].price), ("48 x 96 sheet", Cents(3850)));
    assert_eq!((job.panels[0].name.as_str(), job.panels[0].count), ("12 x 16", 24));
    assert_eq!((job.panels[0].width, job.panels[0].height), (Length::inches(12), Length::inches(16)));
    assert_eq!((job.panels[0].scant, job.panels[0].grain), (Length::ZERO, Grain::Any));
}

#[test]
fn every_default_is_told_with_its_origin() {
    let job = job(LEAST);
    let told = |key: &str| job.assumptions.iter().find(|assumption| assumption.key == key).map(|a| a.value.as_str());
    assert_eq!((told("yard.kerf"), job.yard.kerf), (Some("1/8 in."), Length::sixty_fourths(8)));
    assert_eq!((told("saw.squaring"), job.saw.squaring), (Some("1/4 in."), Length::sixty_fourths(16)));
    assert_eq!((told("sheet.tolerance"), job.sheets[0].tolerance), (Some("1/16 in."), Length::sixty_fourths(4)));
    assert_eq!((told("car.longest"), job.car.longest), (Some("no limit"), None));
    assert!(job.assumptions.iter().all(|assumption| !assumption.origin.is_empty()));
}

#[test]
fn what_the_job_says_is_not_assumed() {
    assert_eq!(job(ALL).assumptions, []);
}

#[test]
fn every_key_reaches_the_job() {
    let job = job(ALL);
    assert_eq!((job.title.as_str(), job.currency.as_str(), job.rule), ("Harbour week", "kr", Length::sixty_fourths(2)));
    let sheet = &job.sheets[0];
    assert_eq!((sheet.length, sheet.width, sheet.stock), (Length::inches(96), Length::inches(48), Some(10)));
    assert_eq!((sheet.thickness, sheet.density), (Some(Length::from_raw(52 * 32)), Some(680.0)));
    assert_eq!((sheet.edge_trim, sheet.tolerance), (Length::sixty_fourths(8), Length::sixty_fourths(2)));
    let panel = &job.panels[0];
    assert_eq!((panel.name.as_str(), panel.count, panel.scant), ("boats", 24, Length::sixty_fourths(8)));
    assert_eq!((panel.grain, panel.extra, panel.worth), (Grain::Upright, 6, Cents(900)));
    assert_eq!((panel.sheets.as_slice(), job.panels[1].name.as_str()), ([0].as_slice(), "9 x 12"));
    let keeper = &job.keepers[0];
    assert_eq!((keeper.width, keeper.length, keeper.worth), (Length::inches(6), Length::inches(24), Cents(150)));
    let strip = &job.strips[0];
    assert_eq!((strip.name.as_str(), strip.count, strip.sheet, strip.grain_along), ("K", 2, Some(0), false));
}

#[test]
fn yard_car_and_saw_reach_the_job() {
    let job = job(ALL);
    let yard = &job.yard;
    let widths = [Length::sixty_fourths(11 * 64 + 56), Length::inches(12), Length::inches(16)];
    assert_eq!((yard.rips, &yard.rip_widths), (Rips::Either, &RipWidths::Only(widths.to_vec())));
    assert_eq!((yard.narrowest, yard.widest, yard.most_cuts), (Length::inches(2), Some(Length::inches(24)), Some(8)));
    assert_eq!((yard.free_cuts, yard.free_per, yard.cut_price), (2, FreePer::Order, Cents(50)));
    assert_eq!((yard.tolerance, yard.breakdown), (Length::sixty_fourths(4), Breakdown::Allowed));
    assert_eq!((job.car.longest, job.car.widest), (Some(Length::inches(75)), Some(Length::mm(1000))));
    // 1 lb = 0.45359237 kg exactly: NIST SP 811, appendix B, from memory.
    approx::assert_relative_eq!(job.car.heaviest.unwrap_or_default(), 300.0 * 0.453_592_37);
    let saw = &job.saw;
    assert_eq!((saw.kind, saw.kerf, saw.crosses), (SawKind::Mitre, Length::sixty_fourths(6), Some(Length::inches(12))));
    assert_eq!((saw.squaring, saw.shortest, saw.trims), (Length::ZERO, Length::inches(4), true));
}

#[test]
fn sizes_are_read_as_painters_write_them() {
    let sixteenths = |n: i64| Length::sixty_fourths(4 * n);
    let cases = [
        ("12x16", Length::inches(12), Length::inches(16)),
        ("12 \u{d7} 16", Length::inches(12), Length::inches(16)),
        ("12\" x 16\"", Length::inches(12), Length::inches(16)),
        ("12 X 16 in", Length::inches(12), Length::inches(16)),
        ("11 7/8 x 15 7/8", sixteenths(190), sixteenths(254)),
        ("11-7/8\" by 15-7/8\"", sixteenths(190), sixteenths(254)),
        ("302 x 403 mm", Length::mm(302), Length::mm(403)),
        ("30 by 40 cm", Length::mm(300), Length::mm(400)),
        ("2 x 4 ft", Length::inches(24), Length::inches(48)),
        ("2' x 4' 6\"", Length::inches(24), Length::inches(54)),
    ];
    for (written, width, height) in cases {
        let text =
            format!("[[sheet]]\nlength = 96\nwidth = 48\nprice = 1\n[[panel]]\nsize = '''{written}'''\ncount = 1\n");
        let panel = &job(&text).panels[0];
        assert_eq!((panel.width, panel.height), (width, height), "{written}");
    }
}

#[test]
fn a_metric_job_has_metric_defaults() {
    let job = job(
        "units = \"cm\"\n[[sheet]]\nlength = 244\nwidth = 122.0\nprice = 30\n[[panel]]\nsize = \"30 x 40\"\ncount = 1\n",
    );
    assert_eq!((job.sheets[0].length, job.sheets[0].width), (Length::mm(2440), Length::mm(1220)));
    assert_eq!((job.rule, job.yard.narrowest, job.saw.shortest), (Length::mm(1), Length::mm(75), Length::mm(150)));
    assert_eq!(job.sheets[0].name, "122 x 244 sheet");
}

#[test]
fn money_is_exact_to_the_cent() {
    for (written, cents) in [
        ("0.29", 29),
        ("1.15", 115),
        ("38", 3800),
        ("\"$ 1234.5\"", 123_450),
        ("\"38.500\"", 3850),
        ("\"38.50 EUR\"", 3850),
        ("4.35", 435),
    ] {
        let text =
            format!("[[sheet]]\nlength = 96\nwidth = 48\nprice = {written}\n[[panel]]\nsize = \"9x12\"\ncount = 1\n");
        assert_eq!(job(&text).sheets[0].price, Cents(cents), "{written}");
    }
}

#[test]
fn what_saws_usually_cross_is_told_of_the_kind_at_home() {
    for (kind, word) in [("radial arm", "radial arm saws"), ("mitre", "mitre saws"), ("table", "sled")] {
        let text = format!(
            "[[sheet]]\nlength = 96\nwidth = 48\nprice = 1\n[[panel]]\nsize = \"9x12\"\ncount = 1\n[saw]\nkind = \"{kind}\"\n"
        );
        let assumed = job(&text).assumptions;
        let crosses = assumed.iter().find(|one| one.key == "saw.crosses").expect("the job is silent");
        assert!(crosses.origin.contains(word), "{kind}: {}", crosses.origin);
    }
}

#[test]
fn a_currency_that_is_a_word_stands_apart_from_its_amount() {
    for (sign, said) in [("$", "$38.50"), ("€", "€38.50"), ("CHF", "CHF 38.50"), ("kr.", "kr. 38.50")] {
        assert_eq!(Cents(3850).in_currency(sign), said);
    }
}

#[test]
fn weights_are_read_in_pounds_and_kilograms() {
    // 1 lb = 0.45359237 kg exactly: NIST SP 811, appendix B, from memory.
    let pound = 0.453_592_37;
    for (units, written, kilograms) in [
        ("in", "\"50 lb\"", 50.0 * pound),
        ("in", "50", 50.0 * pound),
        ("mm", "\"50 LBS.\"", 50.0 * pound),
        ("mm", "22.5", 22.5),
        ("in", "\"23 kg\"", 23.0),
        ("cm", "\"23kg\"", 23.0),
    ] {
        let sheet =
            "[[sheet]]\nlength = \"96 in\"\nwidth = \"48 in\"\nprice = 1\n[[panel]]\nsize = \"9 x 12\"\ncount = 1\n";
        let job = job(&format!("units = \"{units}\"\n{sheet}[car]\nheaviest = {written}\n"));
        approx::assert_relative_eq!(job.car.heaviest.unwrap_or_default(), kilograms);
    }
}

#[test]
fn tables_may_be_written_on_one_line() {
    let inline = "sheet = [{ length = 96, width = 48, price = 38.50 }]\npanel = [{ size = \"12 x 16\", count = 0x18 }]\nsaw.kerf = 0\n";
    let read = job(inline);
    assert_eq!((read.panels[0].count, read.saw.kerf), (24, Length::ZERO));
    assert_eq!((read.sheets, read.panels), (job(LEAST).sheets, job(LEAST).panels));
}

#[test]
fn strips_of_the_rack_come_after_those_of_the_job() {
    let text = format!("{LEAST}[[strip]]\nname = \"J\"\nwidth = 12\nlength = 40\n");
    let rack = Some(File::of("rack.csv", "letter,width,length,sheet\nR,9,30,48 x 96 sheet\n"));
    let source = yardslip::data::Source { rack, ..crate::papers_in::source(&text, None) };
    let strips = yardslip::data::read(&source).expect("the rack reads").strips;
    assert_eq!(
        strips.iter().map(|strip| (strip.name.as_str(), strip.sheet)).collect::<Vec<_>>(),
        [("J", None), ("R", Some(0))]
    );
}

#[test]
fn strips_on_hand_do_without_a_sheet() {
    let job = job("[[strip]]\nwidth = 12\nlength = 40\n[[panel]]\nsize = \"12 x 16\"\ncount = 2\n");
    assert_eq!((job.sheets.len(), job.strips[0].count), (0, 1));
}

#[test]
fn lines_of_one_size_keep_names_of_their_own() {
    let job = job(&format!("{LEAST}[[panel]]\nsize = \"12x16\"\ncount = 3\ngrain = \"level\"\n"));
    assert_eq!((job.panels[0].name.as_str(), job.panels[1].name.as_str()), ("12 x 16", "12 x 16 (2)"));
}

#[test]
fn the_job_file_names_its_list_and_takes_its_panels() {
    let text = "panels = \"panels.csv\"\n[[sheet]]\nlength = 96\nwidth = 48\nprice = 1\n[[panel]]\nsize = \"9x12\"\ncount = 1\n";
    assert_eq!(listed(&File::of("harbour.toml", text)).as_deref(), Some("panels.csv"));
    let job = job_with_list(text, "size,count\n6x8,5\n");
    assert_eq!(job.panels.iter().map(|panel| panel.count).collect::<Vec<_>>(), [1, 5]);
}

/// Where a fault about a key is shown, in these files.
fn place(job: &str, list: Option<&str>, key: &str) -> String {
    located(&source(job, list), Fault::at(Place::key(key), "too narrow", "")).place.to_string()
}

#[test]
fn a_fault_found_later_is_shown_at_its_key() {
    let job =
        "title = \"Harbour week\"\n\n[yard]\nkerf = 0\nnarrowest = 2\n[[sheet]]\nstock = 1\n[[panel]]\n[[panel]]\n";
    let place = |key: &str| place(job, None, key);
    assert_eq!(place("yard.narrowest"), "harbour.toml, line 5, yard.narrowest");
    assert_eq!(place("yard.rip_step"), "harbour.toml, line 3, yard.rip_step");
    assert_eq!(place("sheet.stock"), "harbour.toml, line 7, sheet.stock");
    assert_eq!(place("sheet[0].stock"), "harbour.toml, line 7, sheet.stock");
    assert_eq!(place("panel.grain"), "harbour.toml, panel.grain");
    assert_eq!(place("press.height"), "harbour.toml, press.height");
    assert_eq!(place(""), "");
}

#[test]
fn a_fault_of_one_panel_among_many_is_shown_at_its_own_line_or_row() {
    let job =
        "panels = \"panels.csv\"\n[[panel]]\nsize = \"12 x 16\"\n[[panel]]\nsize = \"9 x 12\"\ngrain = \"level\"\n";
    let list = Some("size,count\n8 x 10,4\n5 x 7,2\n");
    let place = |key: &str| place(job, list, key);
    assert_eq!(place("panel[0].grain"), "harbour.toml, line 2, panel.grain");
    assert_eq!(place("panel[1].grain"), "harbour.toml, line 6, panel.grain");
    assert_eq!(place("panel[3].grain"), "panels.csv, line 3, column grain");
    assert_eq!(place("panel[9].grain"), "harbour.toml, panel.grain");
}
