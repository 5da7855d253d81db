//! Panel lists and strip lists as spreadsheets of many countries write them.

use crate::papers_in::{job, job_with_list, source, told};
use yardslip::data::{Cents, File, Grain, StripOnHand, read, read_strips, write_strips};
use yardslip::length::{Length, Unit};

const JOB: &str = "panels = \"panels.csv\"\n[[sheet]]\nname = \"birch\"\nlength = 96\nwidth = 48\nprice = 38.50\n";

/// Name, width, height and count of each panel of a list.
fn panels(list: &str) -> Vec<(String, Length, Length, u32)> {
    let panels = job_with_list(JOB, list).panels;
    panels.into_iter().map(|panel| (panel.name, panel.width, panel.height, panel.count)).collect()
}

/// The faults of a list, as they are printed.
fn faults(list: &str) -> String {
    told(&read(&source(JOB, Some(list))).expect_err("the list has faults"))
}

fn boats() -> Vec<(String, Length, Length, u32)> {
    vec![
        ("boats".into(), Length::inches(12), Length::inches(16), 24),
        ("piers, long".into(), Length::inches(9), Length::inches(12), 3),
    ]
}

#[test]
fn columns_come_in_any_order_and_case() {
    assert_eq!(panels("size,count,name\n12 x 16,24,boats\n9x12,3,\"piers, long\"\n"), boats());
    assert_eq!(panels("COUNT, Name ,Height,WIDTH\n24,boats,16,12\n3,\"piers, long\",12,9\n"), boats());
}

#[test]
fn lists_of_other_spreadsheets_read_the_same() {
    let marked =
        "\u{feff}\"Size\",\"Count\",\"Name\"\r\n\"12\"\" x 16\"\"\",24,boats\r\n\r\n9 x 12,3,\"piers, long\"\r\n";
    assert_eq!(panels(marked), boats());
    assert_eq!(panels("size;count;name\n12 x 16;24;boats\n;;\n9 x 12;3;piers, long"), boats());
    assert_eq!(panels("size\tcount\tname\n12\" x 16\"\t24\tboats\n\n9 x 12\t3\tpiers, long\n"), boats());
}

#[test]
fn a_comma_is_a_decimal_point_where_semicolons_part_the_columns() {
    let job = job_with_list(JOB, "size;count;worth;scant\n30,5 x 40 cm;3;9,50;3,2 mm\n");
    let panel = &job.panels[0];
    assert_eq!((panel.width, panel.worth, panel.scant), (Length::mm(305), Cents(950), Length::from_raw(1024)));
}

#[test]
fn every_column_reaches_the_panel() {
    let list = "size,count,name,scant,grain,extra,worth,sheets\n11 7/8 x 16,2,boats,1/8,LEVEL,6,9.00,Birch\n";
    let panel = &job_with_list(JOB, list).panels[0];
    assert_eq!((panel.width, panel.scant), (Length::sixty_fourths(760), Length::sixty_fourths(8)));
    assert_eq!(
        (panel.grain, panel.extra, panel.worth, panel.sheets.as_slice()),
        (Grain::Level, 6, Cents(900), [0].as_slice())
    );
}

#[test]
fn faults_stand_at_their_line_and_column() {
    assert_eq!(
        faults("Size,Count\n\n\n9x100,2\n5x5,-1\n"),
        "panel \"9 x 100\" is 100 in. long, but no sheet is longer than 96 in.\n  --> panels.csv, line 4, column Size\n  \
         try: make the panel smaller, or add a larger sheet\n\n\
         `-1` is below zero\n  --> panels.csv, line 5, column Count\n  try: write a whole number such as `24`"
    );
}

#[test]
fn an_empty_cell_that_is_needed_is_told() {
    assert_eq!(
        faults("size,count\n9x12,\n"),
        "`count` is missing\n  --> panels.csv, line 2\n  try: fill in the column `count`, such as `12`"
    );
    assert!(faults("width,height,count\n3,,4\n").starts_with("`height` is missing\n  --> panels.csv, line 2\n"));
}

#[test]
fn unknown_columns_are_answered_with_the_nearest() {
    assert_eq!(
        faults("size,count,gran\n9x12,1,any\n"),
        "`gran` is not a known column\n  --> panels.csv, line 1, column gran\n  try: did you mean `grain`?"
    );
}

#[test]
fn a_list_without_its_columns_is_refused_once() {
    assert!(faults("").starts_with("the list is empty\n  --> panels.csv, line 1\n"));
    assert!(faults("size,count\n").starts_with("the list has no panels\n"));
    assert!(faults("12x16,24\n9x12,3\n").starts_with("the first line names no columns\n"));
    let told = faults("name,grain\nboats,any\npiers,any\n");
    assert_eq!(told.matches("-->").count(), 2, "{told}");
    assert!(faults("size,count,count\n9x12,1,1\n").starts_with("column `count` comes twice\n"));
}

#[test]
fn a_quoted_text_ends_on_its_line() {
    let told = faults("size,count,name\n9x12,1,\"boats\n6x8,2,piers\n");
    assert!(told.starts_with("a quoted text does not end on its line\n  --> panels.csv, line 2\n"), "{told}");
}

#[test]
fn a_line_with_more_columns_than_names_is_refused() {
    let told = faults("size,count\n9x12,1,000\n");
    assert!(told.starts_with("the line has 3 columns, its header 2\n  --> panels.csv, line 2\n"), "{told}");
}

fn birch() -> yardslip::data::Job {
    job(&format!("{}[[panel]]\nsize = \"9x12\"\ncount = 1\n", JOB.replace("panels = \"panels.csv\"\n", "")))
}

#[test]
fn strips_are_read_with_their_letters() {
    let list = File::of("rack.csv", "letter;width;length;sheet;grain\nC;11,8125;95 1/2;birch;\n;300 mm;1 m;;across\n");
    let strips = read_strips(&list, Unit::In, &birch().sheets).unwrap_or_else(|faults| panic!("{}", told(&faults)));
    let letter = StripOnHand {
        name: "C".into(),
        width: Length::sixty_fourths(756),
        length: Length::sixty_fourths(6112),
        count: 1,
        sheet: Some(0),
        grain_along: true,
    };
    assert_eq!(strips[0], letter);
    assert_eq!((strips[1].width, strips[1].length, strips[1].grain_along), (Length::mm(300), Length::mm(1000), false));
}

#[test]
fn a_strip_that_is_gone_may_stay_in_the_list() {
    let list = File::of("measured.csv", "letter,width,length,count\nA,12,96,0\nB,,,0\nC,12,96,\n");
    let strips = read_strips(&list, Unit::In, &[]).unwrap_or_else(|faults| panic!("{}", told(&faults)));
    assert_eq!(strips.iter().map(|strip| strip.name.as_str()).collect::<Vec<_>>(), ["C"]);
}

#[test]
fn ten_thousand_lines_of_one_size_keep_names_of_their_own() {
    let list = format!("size,count,note\n{}", "12x16,1,for the pier\n".repeat(10_000));
    let names: std::collections::BTreeSet<String> = panels(&list).into_iter().map(|panel| panel.0).collect();
    assert_eq!((names.len(), names.contains("12 x 16"), names.contains("12 x 16 (10000)")), (10_000, true, true));
}

#[test]
fn strips_that_are_no_strips_are_refused() {
    let list = File::of("rack.csv", "name,width,length,count,sheet\nA,0,3,1,\nB,3,4,x,oak\n");
    let told = told(&read_strips(&list, Unit::In, &birch().sheets).expect_err("they are no strips"));
    let causes: Vec<&str> = told.split("\n\n").filter_map(|fault| fault.lines().next()).collect();
    assert_eq!(causes, ["`0` is not above zero", "`x` is not a whole number", "no sheet is named `oak`"]);
}

#[test]
fn a_rack_is_written_so_that_it_reads_back_the_same() {
    let sheets = birch().sheets;
    let strip = |name: &str, width, sheet, grain_along| StripOnHand {
        name: name.into(),
        width,
        length: Length::mm(1000),
        count: 2,
        sheet,
        grain_along,
    };
    let strips = [
        strip("a \"long\", thin one", Length::from_raw(12_345), Some(0), true),
        strip("", Length::inches(12), None, false),
    ];
    for units in [Unit::In, Unit::Mm, Unit::Cm] {
        let text = write_strips(&strips, units, &sheets);
        let back = read_strips(&File::of("rack.csv", text), Unit::Mm, &sheets);
        assert_eq!(back.as_deref(), Ok(strips.as_slice()));
    }
    assert_eq!(
        read_strips(&File::of("rack.csv", write_strips(&[], Unit::In, &sheets)), Unit::In, &sheets),
        Ok(Vec::new())
    );
}
