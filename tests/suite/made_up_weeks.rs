//! Made-up weeks are planned, and each passes the checker: canvas, press, packing, labels, list and calendar alike.

use crate::made_up_jobs::settings;
use crate::papers_in::{job, told};
use proptest::prelude::*;
use proptest::sample::select;
use yardslip::plan::{check, make};
use yardslip::solve::Patient;

fn panels() -> impl Strategy<Value = String> {
    let sizes = select(vec!["5 x 7", "6 x 6", "8 x 10", "9 x 12", "12 x 16", "10 x 24", "16 x 20"]);
    let line = (sizes, 1_u32..14, select(vec!["", "scant = \"1/8\"\n", "extra = 3\nworth = 2\n"]));
    prop::collection::vec(line, 1..4).prop_map(|lines| {
        let line = |(at, (size, count, more)): (usize, &(&str, u32, &str))| {
            format!("[[panel]]\nname = \"line {at}\"\nsize = \"{size}\"\ncount = {count}\n{more}")
        };
        lines.iter().enumerate().map(line).collect()
    })
}

/// A section that is there or not, with lines that are each there or not.
fn section(name: &'static str, must: &'static str, lines: Vec<&'static str>) -> impl Strategy<Value = String> {
    let many = lines.len();
    (any::<bool>(), prop::sample::subsequence(lines, 0..=many)).prop_map(move |(there, lines)| {
        let text = format!("[{name}]\n{must}\n{}\n", lines.join("\n"));
        if there { text } else { String::new() }
    })
}

fn canvas() -> impl Strategy<Value = String> {
    let roll = select(vec!["roll = 54", "roll = 82", "roll = 20", "roll = \"140 cm\""]);
    let sold = select(vec![
        "price = 34",
        "price = 30.33\nper = \"metre\"",
        "price = 180\nper = \"roll\"\nroll_length = 60",
        "price = 34\nroll_length = 50\nstep = 9\nsmallest = 20",
    ]);
    let way = select(vec!["", "weave = \"along\"", "weave = \"across\"\noverlap = 1", "sizes = [\"line 0\"]"]);
    (roll, sold, way).prop_map(|(roll, sold, way)| format!("[canvas]\n{roll}\n{sold}\n{way}\n"))
}

fn with_canvas() -> impl Strategy<Value = String> {
    let glue = section("glue", "", vec!["sold = [\"1 pt at 9\", \"1 gal at 44\"]", "faces = \"one\"", "waste = 0"]);
    let press = section(
        "press",
        "length = 36\nwidth = 24",
        vec!["height = 2", "most = 5", "gap = 1", "padding = \"1/4\"", "paper = [\"10 sq ft at 3\"]"],
    );
    (canvas(), glue, press).prop_map(|(canvas, glue, press)| canvas + &glue + &press)
}

fn calendar() -> impl Strategy<Value = String> {
    let ends = select(vec![
        "start = \"2026-05-04 09:00\"",
        "deadline = \"2026-05-29 18:00\"",
        "start = \"2026-05-04 09:00\"\ndeadline = \"Wednesday 12:00\"",
        "start = \"2026-05-09 23:30\"\ndays = [\"Sat\"]\nhours = [\"22:00-23:00\"]",
    ]);
    (ends, select(vec!["", "bench = 3", "bench = 100\nglue = \"10 min, then 1 d\""]))
        .prop_map(|(ends, bench)| format!("[calendar]\n{ends}\n{bench}\n"))
}

fn pack() -> impl Strategy<Value = String> {
    let kinds = vec![
        "",
        "[pack]\ninside = \"17 x 13 x 8\"\nheaviest = \"15 lb\"",
        "[pack]\nkind = \"bag\"\nlimit = \"checked bag\"\nboards = \"1/4\"",
        "[pack]\nkind = \"bag\"\nlimit = \"cabin bag\"\nwet = true",
        "[pack]\nkind = \"bundle\"\nhighest = 3\nheaviest = \"4 lb\"",
        "[pack]\ninside = \"30 x 6 x 22\"\nempty = \"2 lb\"",
    ];
    select(kinds).prop_map(|text| format!("{text}\n"))
}

fn weeks() -> impl Strategy<Value = String> {
    let sheet = "[[sheet]]\nname = \"birch\"\nlength = 96\nwidth = 48\nprice = 38.50\n";
    let sheet = select(vec!["", "thickness = \"1/4\"\n", "thickness = 0.205\ndensity = 680\n"])
        .prop_map(move |more| format!("{sheet}{more}"));
    let finish = section(
        "finish",
        "",
        vec!["flaws = 0", "coats = 1", "edges = false", "sealer = [\"1 qt at 24\"]", "sandpaper = [\"3 sheets at 2\"]"],
    );
    let labels = section("labels", "", vec!["lines = [\"{name}\", \"{number}\"]", "width = 2"]);
    let after = (prop_oneof![Just(String::new()), with_canvas()], prop_oneof![Just(String::new()), calendar()]);
    (sheet, panels(), finish, after, labels, pack()).prop_map(|(sheet, panels, finish, after, labels, pack)| {
        let work = [&finish, &after.0, &labels, &pack].iter().any(|text| text.contains('['));
        let calendar = if work { after.1 } else { String::new() };
        sheet + &panels + &finish + &after.0 + &calendar + &labels + &pack
    })
}

proptest! {
    #![proptest_config(settings(120))]

    #[test]
    fn every_week_that_is_planned_passes_the_checker(text in weeks()) {
        let job = job(&text);
        match make(&job, &Patient) {
            Ok(plan) => prop_assert_eq!(check(&job, &plan), Ok(())),
            Err(faults) => prop_assert!(false, "{}\n{}", told(&faults), text),
        }
    }
}
