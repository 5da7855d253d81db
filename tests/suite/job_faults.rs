//! Job files that are refused for what they ask: every fault at once, each with its place, its cause and its remedy.

use crate::papers_in::{PANEL, SHEET, cause, faults, faults_of_more, source, told};
use yardslip::data::{File, Source, read};

#[test]
fn a_job_needs_a_panel_and_a_sheet() {
    assert_eq!(cause(SHEET), "there is no panel to make");
    assert_eq!(cause(PANEL), "there is no sheet to cut");
    let gone = format!("{PANEL}[[strip]]\nwidth = 12\nlength = 40\ncount = 0\n");
    assert_eq!(cause(&gone), "there is no sheet to cut");
    assert_eq!(faults("title = \"Harbour week\"\n").matches("-->").count(), 2);
}

#[test]
fn a_panel_longer_than_every_sheet_names_both() {
    assert_eq!(
        faults(&format!("{SHEET}[[panel]]\nsize = \"9x100\"\ncount = 2\n")),
        "panel \"9 x 100\" is 100 in. long, but no sheet is longer than 96 in.\n  \
         --> harbour.toml, line 6, panel.size\n  try: make the panel smaller, or add a larger sheet"
    );
}

#[test]
fn a_panel_that_fits_no_sheet_says_why() {
    let with = |panel: &str| cause(&format!("{SHEET}[[panel]]\ncount = 2\n{panel}\n"));
    assert_eq!(with("size = \"50 x 60\""), "panel \"50 x 60\" is 50 in. wide, but no sheet is wider than 48 in.");
    assert_eq!(
        with("size = \"60 x 40\"\ngrain = \"upright\""),
        "panel \"60 x 40\" fits on no sheet with its grain as asked; the sheets measure 48 x 96 in."
    );
    assert_eq!(
        with("name = \"pier\"\nwidth = \"2500 mm\"\nheight = 3"),
        "panel \"pier\" is 98.4252 in. long, but no sheet is longer than 96 in."
    );
}

#[test]
fn scant_may_make_a_panel_fit() {
    let fits = format!("{SHEET}[[panel]]\nsize = \"48 1/8 x 96 1/8\"\nscant = \"1/8\"\ncount = 1\n");
    assert!(read(&source(&fits, None)).is_ok());
}

#[test]
fn sizes_that_are_no_sizes_are_refused() {
    let with = |size: &str| cause(&format!("{SHEET}[[panel]]\ncount = 2\nsize = {size}\n"));
    assert_eq!(with("\"0 x 40\""), "`0` is not above zero");
    assert_eq!(with("\"12 x -3\""), "`-3` is below zero");
    assert_eq!(with("\"nan x 3\""), "`nan` is not a length");
    assert_eq!(with("\"12 x 3/0\""), "`3/0` divides by zero");
    assert_eq!(with("\"12 x 9999999999\""), "`9999999999` is longer than a million inches");
    assert_eq!(with("12"), "`12` is not a size");
    assert_eq!(with("\"1 x 2 x 3\""), "`1 x 2 x 3` is not a size");
    assert_eq!(with("[12, 16]"), "`size` takes a single number or text");
}

#[test]
fn numbers_that_are_not_numbers_are_refused() {
    let with = |more: &str| cause(&format!("{SHEET}{PANEL}{more}\n"));
    assert_eq!(with("scant = nan"), "`nan` is not a length");
    assert_eq!(with("scant = -inf"), "`-inf` is not a length");
    assert_eq!(with("extra = -1"), "`-1` is below zero");
    assert_eq!(with("extra = 2.5"), "`2.5` is not a whole number");
    assert_eq!(with("worth = -2"), "`-2` is below zero");
    assert_eq!(with("worth = 1.005"), "`1.005` has fractions of a cent");
    assert_eq!(with("worth = \"a lot\""), "`a lot` is not an amount of money");
    assert_eq!(with("worth = \"9 cents\""), "`9 cents` is not an amount of money");
    assert_eq!(with("worth = \"1,250\""), "`1,250` is not an amount of money");
    assert_eq!(with("worth = 99999999999999999999"), "`99999999999999999999` is more than a million");
}

#[test]
fn counts_that_overflow_are_refused() {
    for count in ["4294967296", "18446744073709551616", "1000001"] {
        let text = format!("{SHEET}[[panel]]\nsize = \"9 x 12\"\ncount = {count}\n");
        assert_eq!(cause(&text), format!("`{count}` is more than a million"));
    }
    let lines = "[[panel]]\nsize = \"9 x 12\"\ncount = 600000\n".repeat(2);
    assert_eq!(cause(&format!("{SHEET}{lines}")), "1200000 panels are more than a million");
}

#[test]
fn a_count_of_none_needs_extras() {
    let text = format!("{SHEET}{PANEL}[[panel]]\nsize = \"9 x 12\"\ncount = 0\n");
    assert_eq!(cause(&text), "no panel of this size is wanted");
    assert!(read(&source(&format!("{text}extra = 4\n"), None)).is_ok());
    let only = format!("{SHEET}[[panel]]\nsize = \"9 x 12\"\ncount = 0\nextra = 4\n");
    assert_eq!(cause(&only), "no panel is asked for");
}

#[test]
fn scant_leaves_something_of_the_panel() {
    let text = format!("{SHEET}[[panel]]\nsize = \"9 x 12\"\ncount = 1\nscant = 9\n");
    assert_eq!(cause(&text), "9 in. under size leaves nothing of a side of 9 in.");
}

#[test]
fn an_unknown_grain_or_unit_is_answered_with_the_nearest() {
    assert_eq!(
        faults_of_more("grain = \"uprigth\"\n"),
        "`uprigth` is not known for `grain`\n  --> harbour.toml, line 8, panel.grain\n  \
         try: did you mean `upright`? known are `any`, `upright`, `level`"
    );
    assert_eq!(cause(&format!("units = \"furlong\"\n{SHEET}{PANEL}")), "`furlong` is not known for `units`");
    assert_eq!(cause(&format!("{SHEET}{PANEL}scant = \"3 furlong\"\n")), "`3 furlong` is not a length");
}

#[test]
fn a_kerf_is_narrower_than_a_sheet_and_than_a_blade() {
    assert_eq!(
        faults_of_more("[yard]\nkerf = 48\n"),
        "a kerf of 48 in. is as wide as the sheet \"48 x 96 sheet\" or wider\n  --> harbour.toml, line 9, yard.kerf\n  \
         try: write the width of the saw's cut with its unit, such as `1/8 in` or `3.2 mm`"
    );
    assert_eq!(faults_of_more("[saw]\nkerf = 3\n").lines().next(), Some("a kerf of 3 in. is wider than any saw blade"));
}

#[test]
fn unknown_keys_are_answered_with_the_nearest_known() {
    assert_eq!(
        faults_of_more("[yard]\nkref = 0\n"),
        "`kref` is not known in `yard`\n  --> harbour.toml, line 9, yard.kref\n  try: did you mean `kerf`?"
    );
    assert_eq!(
        faults_of_more("[yrad]\nkerf = 0\n"),
        "`yrad` is not known in the job file\n  --> harbour.toml, line 8, yrad\n  try: did you mean `yard`?"
    );
}

#[test]
fn a_sheet_is_named_once_and_can_be_real() {
    let more =
        "[[sheet]]\nname = \"48 X 96 SHEET\"\nlength = 100\nwidth = 40\nprice = -1\nedge_trim = 20\nthickness = 680\n";
    let told = faults_of_more(more);
    let causes: Vec<&str> = told.split("\n\n").filter_map(|fault| fault.lines().next()).collect();
    assert_eq!(
        causes,
        [
            "two sheets are named `48 X 96 SHEET`",
            "`-1` is below zero",
            "trimming 20 in. off every edge leaves nothing of a sheet 40 in. wide",
            "a sheet 680 in. thick is a beam",
        ]
    );
}

#[test]
fn texts_for_print_are_short_and_on_one_line() {
    let named = |title: &str| cause(&format!("title = \"{title}\"\n{SHEET}{PANEL}"));
    assert_eq!(named("Harbour\\nweek"), "the text has line breaks or control signs in it");
    assert_eq!(named(&"w".repeat(201)), "the text is longer than 200 signs");
}

#[test]
fn an_offcut_worth_keeping_says_what_it_is_worth() {
    let told = faults_of_more("[[keep]]\nsize = \"6 x 24\"\n[[keep]]\nworth = 1\n");
    assert_eq!(
        told.lines().filter(|line| line.ends_with("is missing")).collect::<Vec<_>>(),
        ["`worth` is missing", "`size` is missing"]
    );
}

#[test]
fn a_rack_is_read_with_the_job_and_blamed_by_its_own_lines() {
    let rack = Some(File::of("rack.csv", "letter,width,length\nA,12,\n"));
    let source = Source { rack, ..source(&format!("{SHEET}{PANEL}[saw]\nkref = 0\n"), None) };
    let told = told(&read(&source).expect_err("there are faults"));
    let places: Vec<&str> = told.lines().filter_map(|line| line.strip_prefix("  --> ")).collect();
    assert_eq!(places, ["harbour.toml, line 9, saw.kref", "rack.csv, line 2"]);
}

#[test]
fn weights_and_densities_are_sane() {
    assert_eq!(cause(&format!("{SHEET}density = 7\n{PANEL}")), "`7` is out of range");
    assert_eq!(cause(&format!("{SHEET}density = nan\n{PANEL}")), "`nan` is not a number");
    assert_eq!(cause(&format!("{SHEET}tolerance = 24\n{PANEL}")), "a sheet 48 in. wide cannot measure 24 in. less");
    assert_eq!(cause(&format!("{SHEET}{PANEL}[car]\nheaviest = 0\n")), "`0` is out of range");
    assert_eq!(cause(&format!("{SHEET}{PANEL}[car]\nlongest = 0\n")), "`0` is not above zero");
}

#[test]
fn a_sheet_that_is_not_there_cannot_be_asked_for() {
    assert_eq!(
        faults_of_more("sheets = [\"48x96 sheet\"]\n"),
        "no sheet is named `48x96 sheet`\n  --> harbour.toml, line 8, panel.sheets\n  try: did you mean `48 x 96 sheet`?"
    );
}

#[test]
fn the_yards_limits_agree_with_each_other() {
    let told = faults_of_more("[yard]\nrip_widths = [1, 2]\nrip_step = 1\nwidest = 2\nmost_cuts = 0\ntolerance = 3\n");
    let causes: Vec<&str> = told.split("\n\n").filter_map(|fault| fault.lines().next()).collect();
    assert_eq!(
        causes,
        [
            "no rip width of the list lies between the yard's limits; the narrowest is 3 in.",
            "rip widths are given twice",
            "the widest rip, 2 in., is under the narrowest, 3 in.",
            "`0` is too few",
            "a yard that cuts to 3 in. is no help",
        ]
    );
}

#[test]
fn all_faults_of_all_files_come_at_once_in_their_order() {
    let job =
        format!("panels = \"panels.csv\"\nunits = \"ell\"\n{SHEET}[yard]\nkref = 0\n[car]\nheaviest = \"12 stone\"\n");
    let told = told(&read(&source(&job, Some("size,count\n9 x 12,x\n9 x 100,1\n"))).expect_err("there are faults"));
    let places: Vec<&str> = told.lines().filter_map(|line| line.strip_prefix("  --> ")).collect();
    assert_eq!(
        places,
        [
            "harbour.toml, line 2, units",
            "harbour.toml, line 8, yard.kref",
            "harbour.toml, line 10, car.heaviest",
            "panels.csv, line 2, column count",
            "panels.csv, line 3, column size",
        ]
    );
}

#[test]
fn a_currency_with_a_digit_is_no_sign() {
    let told = faults(&format!("currency = 3\n{SHEET}{PANEL}"));
    assert_eq!(
        told,
        "`3` is no sign of a currency: it has a digit in it\n  --> harbour.toml, line 1, currency\n  \
         try: write the sign, such as `currency = \"€\"`"
    );
}
