//! Input that is wrong: every fault is named with its place and what to do, on standard error, and nothing is written.

use crate::program::{folder, names, yardslip};

const SHEET: &str = "[[sheet]]\nname = \"birch\"\nlength = 96\nwidth = 48\nprice = 38.50\n";
const PANEL: &str = "[[panel]]\nsize = \"12 x 16\"\ncount = 24\n";

/// Plans `job.toml` with this text and compares standard error and the exit code; nothing may be printed or written.
fn refuses(job: &str, code: i32, expected: &str) {
    let folder = folder(&[("job.toml", job)]);
    let run = yardslip(folder.path(), &["plan", "job.toml"]);
    assert_eq!((run.out.as_str(), run.err.as_str(), run.code), ("", expected, Some(code)));
    assert_eq!(names(folder.path()), ["job.toml"]);
}

/// The same, for a job that has a good sheet and this panel.
fn refuses_panel(panel: &str, expected: &str) {
    refuses(&format!("{SHEET}{panel}"), 2, expected);
}

#[test]
fn an_empty_file() {
    refuses(
        "",
        2,
        "error: the job file is empty\n  --> job.toml, line 1\n  try: `yardslip start` writes one to begin from\n",
    );
}

#[test]
fn a_file_that_is_not_there() {
    let folder = folder(&[]);
    let run = yardslip(folder.path(), &["plan", "gone.toml"]);
    let expected = "error: `gone.toml` cannot be read: no such file or folder\n  --> gone.toml\n  \
                    try: name a file that is there and that you may read\n";
    assert_eq!((run.out.as_str(), run.err.as_str(), run.code), ("", expected, Some(2)));
}

#[test]
fn a_folder_in_place_of_a_file() {
    let folder = folder(&[]);
    let run = yardslip(folder.path(), &["plan", "."]);
    let expected =
        "error: `.` cannot be read: it is a folder\n  --> .\n  try: name a file that is there and that you may read\n";
    assert_eq!((run.out.as_str(), run.err.as_str(), run.code), ("", expected, Some(2)));
}

#[test]
fn no_panel() {
    refuses(
        SHEET,
        2,
        "error: there is no panel to make\n  --> job.toml, line 1\n  \
         try: add a section `[[panel]]` with size and count, or name a list under `panels`\n",
    );
}

#[test]
fn no_sheet() {
    refuses(
        PANEL,
        2,
        "error: there is no sheet to cut\n  --> job.toml, line 1\n  \
         try: add a section `[[sheet]]` with length, width and price\n",
    );
}

#[test]
fn a_side_of_zero() {
    refuses_panel(
        "[[panel]]\nsize = \"0 x 16\"\ncount = 4\n",
        "error: `0` is not above zero\n  --> job.toml, line 7, panel.size\n  try: write a length above zero\n",
    );
}

#[test]
fn a_side_below_zero() {
    refuses_panel(
        "[[panel]]\nsize = \"-12 x 16\"\ncount = 4\n",
        "error: `-12` is below zero\n  --> job.toml, line 7, panel.size\n  try: write it without a minus sign\n",
    );
}

#[test]
fn sides_that_are_not_numbers_are_named_each() {
    refuses_panel(
        "[[panel]]\nwidth = nan\nheight = inf\ncount = 2\n",
        "error: `nan` is not a length\n  --> job.toml, line 7, panel.width\n  \
         try: write a length such as `11 7/8`, `11.875` or `302 mm`\n\n\
         error: `inf` is not a length\n  --> job.toml, line 8, panel.height\n  \
         try: write a length such as `11 7/8`, `11.875` or `302 mm`\n",
    );
}

#[test]
fn a_panel_larger_than_any_sheet() {
    refuses_panel(
        "[[panel]]\nsize = \"20 x 100\"\ncount = 2\n",
        "error: panel \"20 x 100\" is 100 in. long, but no sheet is longer than 96 in.\n  \
         --> job.toml, line 7, panel.size\n  try: make the panel smaller, or add a larger sheet\n",
    );
}

#[test]
fn a_count_that_overflows() {
    refuses_panel(
        "[[panel]]\nsize = \"12 x 16\"\ncount = 99999999999999\n",
        "error: `99999999999999` is more than a million\n  --> job.toml, line 8, panel.count\n  \
         try: write a smaller count, or split the job\n",
    );
}

#[test]
fn a_count_below_zero() {
    refuses_panel(
        "[[panel]]\nsize = \"12 x 16\"\ncount = -4\n",
        "error: `-4` is below zero\n  --> job.toml, line 8, panel.count\n  try: write a whole number such as `24`\n",
    );
}

#[test]
fn an_unknown_grain() {
    refuses_panel(
        "[[panel]]\nsize = \"12 x 16\"\ncount = 4\ngrain = \"diagonal\"\n",
        "error: `diagonal` is not known for `grain`\n  --> job.toml, line 9, panel.grain\n  \
         try: write one of `any`, `upright`, `level`\n",
    );
}

#[test]
fn an_unknown_unit() {
    refuses(
        &format!("units = \"furlong\"\n{SHEET}{PANEL}"),
        2,
        "error: `furlong` is not known for `units`\n  --> job.toml, line 1, units\n  \
         try: write one of `in`, `mm`, `cm`, `inch`, `inches`\n",
    );
}

#[test]
fn a_kerf_wider_than_the_sheet() {
    refuses_panel(
        &format!("{PANEL}[yard]\nkerf = 50\n"),
        "error: a kerf of 50 in. is as wide as the sheet \"birch\" or wider\n  --> job.toml, line 10, yard.kerf\n  \
         try: write the width of the saw's cut with its unit, such as `1/8 in` or `3.2 mm`\n",
    );
}

#[test]
fn a_scant_that_leaves_nothing() {
    refuses_panel(
        "[[panel]]\nsize = \"12 x 16\"\nscant = 12\ncount = 4\n",
        "error: 12 in. under size leaves nothing of a side of 12 in.\n  --> job.toml, line 8, panel.scant\n  \
         try: write a smaller `scant`, such as `1/8 in`\n",
    );
}

#[test]
fn a_list_that_is_missing() {
    refuses(
        &format!("panels = \"gone.csv\"\n{SHEET}"),
        2,
        "error: `gone.csv` cannot be read: no such file or folder\n  --> job.toml, line 1, panels\n  \
         try: name a file that is there and that you may read\n",
    );
}

#[test]
fn misspelt_keys_get_the_nearest_known_one_all_at_once() {
    refuses_panel(
        &format!("{PANEL}[yard]\nkerff = 1\nnarowest = 3\n[sawn]\nkerf = 1\n"),
        "error: `kerff` is not known in `yard`\n  --> job.toml, line 10, yard.kerff\n  try: did you mean `kerf`?\n\n\
         error: `narowest` is not known in `yard`\n  --> job.toml, line 11, yard.narowest\n  \
         try: did you mean `narrowest`?\n\n\
         error: `sawn` is not known in the job file\n  --> job.toml, line 12, sawn\n  try: did you mean `saw`?\n",
    );
}

#[test]
fn broken_syntax_is_shown_with_a_caret() {
    refuses(
        "title = \"x\n",
        2,
        "error: invalid basic string, expected `\"`\n  --> job.toml, line 1\n  | title = \"x\n  |           ^\n  \
         try: write `name = value`, with texts in quotes and sections in brackets\n",
    );
}

#[test]
fn too_few_sheets_to_be_had_says_how_many_are_missing() {
    refuses(
        &format!("{SHEET}stock = 1\n[[panel]]\nsize = \"40 x 90\"\ncount = 4\n"),
        1,
        "error: 3 more sheets are needed than can be had\n  --> job.toml, line 6, sheet.stock\n  \
         try: raise `stock` to 4, add a sheet kind, or ask for fewer panels\n",
    );
}

#[test]
fn a_limit_that_stops_a_panel_is_named_with_what_would_do() {
    let job = format!("{SHEET}{PANEL}[saw]\ncrosses = 10\n");
    let folder = folder(&[("job.toml", &job)]);
    let (plan, check) =
        (yardslip(folder.path(), &["plan", "job.toml"]), yardslip(folder.path(), &["check", "job.toml"]));
    let expected = "error: panel `12 x 16` cannot be made: the saw crosses nothing wider than 10 in.\n  \
                    --> job.toml, line 10, saw.crosses\n  try: a saw that crosses 12 in. would do\n";
    assert_eq!((plan.out.as_str(), plan.err.as_str(), plan.code), ("", expected, Some(1)));
    assert_eq!((check.out.as_str(), check.err.as_str(), check.code), ("", expected, Some(1)));
    assert_eq!(names(folder.path()), ["job.toml"]);
}

#[test]
fn the_kind_of_which_more_would_do_is_named_with_its_line() {
    let kinds =
        format!("{SHEET}stock = 1\n[[sheet]]\nname = \"oak\"\nlength = 48\nwidth = 24\nprice = 20\nstock = 2\n");
    refuses(
        &format!("{kinds}[[panel]]\nsize = \"20 x 40\"\ncount = 5\nsheets = [\"oak\"]\n"),
        1,
        "error: 3 more sheets are needed than can be had\n  --> job.toml, line 12, sheet.stock\n  \
         try: raise `stock` of `oak` to 5, add a sheet kind, or ask for fewer panels\n",
    );
}

#[test]
fn strips_on_hand_that_do_not_suffice_want_a_sheet() {
    refuses(
        &format!("{PANEL}[[strip]]\nwidth = 12\nlength = 40\n"),
        1,
        "error: the strips on hand do not give all panels, and there is no sheet to cut the rest from\n  \
         try: add a section `[[sheet]]`, or ask for fewer panels\n",
    );
}
