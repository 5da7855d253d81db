//! Job files that are refused: every fault at once, each with its place, its cause and its remedy.

use crate::papers_in::{faults, source, told};
use yardslip::data::{File, Source, read};

const SHEET: &str = "[[sheet]]\nlength = 96\nwidth = 48\nprice = 38.50\n";
const PANEL: &str = "[[panel]]\nsize = \"12 x 16\"\ncount = 24\n";

/// The faults of a sheet, a panel and what follows them from line 8 on.
fn faults_of_more(more: &str) -> String {
    faults(&format!("{SHEET}{PANEL}{more}"))
}

/// The first line of the only fault of a job.
fn cause(text: &str) -> String {
    let all = faults(text);
    assert!(!all.contains("\n\n"), "one fault was expected:\n{all}");
    all.lines().next().unwrap_or_default().to_owned()
}

#[test]
fn an_empty_file_says_how_to_begin() {
    for empty in ["", " \n\n", "\u{feff}"] {
        assert_eq!(
            faults(empty),
            "the job file is empty\n  --> harbour.toml, line 1\n  try: `yardslip start` writes one to begin from"
        );
    }
}

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
fn a_name_that_comes_twice_is_shown_in_its_line() {
    assert_eq!(
        faults_of_more("  count = 3\n"),
        "`count` stands here for the second time\n  --> harbour.toml, line 8\n  |   count = 3\n  |   ^\n  \
         try: leave one of the two out"
    );
}

#[test]
fn a_fraction_without_quotes_is_shown_in_its_line() {
    assert_eq!(
        faults_of_more("scant = 1/8\n"),
        "`1/8` stands without straight quotes\n  --> harbour.toml, line 8\n  | scant = 1/8\n  |         ^\n  \
         try: write `\"1/8\"`"
    );
    assert_eq!(faults_of_more("name = \u{201c}pier\u{201d}\n").lines().last(), Some("  try: write `\"pier\"`"));
}

#[test]
fn a_broken_line_is_shown_with_a_caret_and_mended() {
    let told = faults_of_more("[[panel]\ncount = 3\n");
    assert!(told.contains("harbour.toml, line 8\n  | [[panel]\n  |         ^\n  try: close the brackets"), "{told}");
    let remedy = |line: &str| faults_of_more(line).lines().last().unwrap_or_default().to_owned();
    assert_eq!(remedy("worth = .5"), "  try: write the number with a digit on both sides of the point");
    assert_eq!(remedy("extra = 1,000"), "  try: write one value a line: texts in quotes, numbers without commas");
    assert_eq!(remedy("name = \"C:\\pier\""), "  try: write the backslash twice, or the text between single quotes");
    assert_eq!(remedy("[saw]\ntrims = True"), "  try: write `true` or `false`, in small letters");
    assert_eq!(remedy("scant: 3"), "  try: write `name = value`, with texts in quotes and sections in brackets");
}

#[test]
fn a_section_in_the_wrong_brackets_is_refused() {
    assert_eq!(cause(&format!("{SHEET}[panel]\nsize = \"3 x 3\"\ncount = 4\n")), "`panel` can come more than once");
    assert_eq!(cause(&format!("{SHEET}[[panels]]\nsize = \"3 x 3\"\n")), "`panels` names a list kept in a file");
    assert_eq!(cause(&format!("{SHEET}{PANEL}[[yard]]\nkerf = 0\n")), "`yard` is not a section");
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
fn what_a_section_of_the_week_cannot_do_without_is_told_as_it_is_written() {
    assert_eq!(
        faults_of_more("[canvas]\nprice = 34\n"),
        "`roll` is missing\n  --> harbour.toml, line 8, canvas\n  try: write it, such as `roll = 82`"
    );
    assert_eq!(
        faults_of_more("[canvas]\nroll = 54\nprice = 34\nsizes = [\"12x16\", \"12 x 61\"]\n"),
        "no panel is named `12 x 61`\n  --> harbour.toml, line 11, canvas.sizes\n  try: did you mean `12 x 16`?"
    );
    assert!(faults_of_more("[press]\nwidth = 24\n").ends_with("try: write it, such as `length = 48`"));
    assert!(faults_of_more("[pack]\nkind = \"box\"\n").ends_with("try: write it, such as `inside = \"27 x 21 x 14\"`"));
}

#[test]
fn a_list_that_cannot_be_read_is_blamed_on_the_line_that_names_it() {
    let job = File::of("harbour.toml", format!("panels = \"panels.csv\"\n{SHEET}"));
    let list = Some(File::unreadable("panels.csv", "no such file"));
    let faults = read(&Source { job, list, rack: None }).expect_err("there is no list");
    assert_eq!(
        told(&faults),
        "`panels.csv` cannot be read: no such file\n  --> harbour.toml, line 1, panels\n  try: name a file that is there and that you may read"
    );
}

#[test]
fn a_job_file_that_is_no_text_is_refused() {
    let refused = |file: File| told(&read(&Source { job: file, list: None, rack: None }).expect_err("it is no text"));
    assert!(
        refused(File::of("a.toml", b"title = 1\n\xff\xfe".to_vec()))
            .starts_with("`a.toml` is not UTF-8 text\n  --> a.toml, line 2")
    );
    assert!(
        refused(File::unreadable("a.toml", "it is a folder")).starts_with("`a.toml` cannot be read: it is a folder")
    );
}

#[test]
fn an_endless_line_is_shown_in_part() {
    let told = faults(&format!("{}\n", "a".repeat(3_000_000)));
    assert!(told.len() < 500 && told.contains("\n  |                                                   ^\n"), "{told}");
    let told = faults(&format!("title = \"{}\"\n[yard]\nrips = \"{}\"\n", "x".repeat(9000), "y".repeat(9000)));
    assert!(told.len() < 3000 && told.contains("yyy...yyy"), "{told}");
}

#[test]
fn a_plan_is_no_job_file_and_a_file_of_another_kind_is_not_told_line_by_line() {
    let json = "{\n  \"title\": \"Harbour week\",\n  \"units\": \"in\"\n}\n";
    assert_eq!(
        faults(json),
        "this is JSON, not a job file\n  --> harbour.toml, line 1\n  \
         try: give the job file that it was made from; a plan.json is for `yardslip recut`"
    );
    let letter = "Dear yard,\n".repeat(40);
    let told = faults(&letter);
    assert_eq!(told.matches("-->").count(), 11, "{told}");
    assert!(told.contains("\n\n30 more slips from here on\n  --> harbour.toml, line 11\n"), "{told}");
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

#[test]
fn a_package_by_weight_is_told_what_glue_is_sold_by() {
    let told = faults_of_more("[canvas]\nroll = 54\nprice = 30\n[glue]\nsold = [\"750 g at 9.00\"]\n");
    assert_eq!(
        told,
        "`750 g` is not a volume\n  --> harbour.toml, line 12, glue.sold\n  \
         try: write `1 qt at 24.00`; the units are gal, qt, pt, fl oz, oz, ml, l"
    );
}

#[test]
fn a_day_that_no_month_has_is_told_as_such() {
    let told = faults_of_more("[finish]\n[calendar]\nstart = \"2026-02-30 09:00\"\n");
    assert_eq!(
        told,
        "there is no day `2026-02-30`\n  --> harbour.toml, line 10, calendar.start\n  \
         try: write it as `2026-05-08`: year, month, day"
    );
}

#[test]
fn a_list_that_names_nothing_is_not_taken_for_one_left_out() {
    let lists = [
        ("[finish]\n", "finish.grits", "grits"),
        ("[labels]\n", "labels.lines", "lines"),
        ("[finish]\n[calendar]\nstart = \"2026-05-04 09:00\"\n", "calendar.days", "days"),
    ];
    for (before, place, key) in lists {
        let told = faults_of_more(&format!("{before}{key} = []\n"));
        assert!(told.starts_with(&format!("`{key}` names nothing\n")), "{told}");
        assert!(
            told.contains(place) && told.ends_with("name at least one, or leave it out for what is usual"),
            "{told}"
        );
    }
}
