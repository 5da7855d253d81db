//! Files that cannot be read as a job: empty, torn, of another kind, not there. Each slip is shown in its line, with what
//! to write instead.

use crate::papers_in::{PANEL, SHEET, cause, faults, faults_of_more, told};
use yardslip::data::{File, Source, read};

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
