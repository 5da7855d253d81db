//! The papers of the finishing week: what each says, and that every word on them can be read.

use crate::by_hand::{mixed_job, mixed_plan};
use crate::paper_frames::texts;
use crate::papers_in::job;
use yardslip::data::{Assumption, Job};
use yardslip::documents::frame::{Frame, Mark};
use yardslip::documents::page_size::PageSize;
use yardslip::documents::{Options, packet, pages, papers};
use yardslip::plan::week::plan_week;
use yardslip::plan::{Plan, check};
use yardslip::solve::Patient;

/// The week that follows a plan worked out by hand: its 12 x 16 panels get canvas.
const WEEK: &str = r#"
[[sheet]]
length = 96
width = 48
price = 38.50
[[panel]]
size = "12 x 16"
count = 1
[finish]
filler = ["1 pt at 7.50"]
sealer = ["1 qt at 24.00", "1 gal at 68.00"]
[canvas]
roll = 54
price = 34
sizes = ["12 x 16"]
[glue]
sold = ["1 pt at 9.00"]
[press]
length = 36
width = 24
paper = ["75 sq ft at 6.50"]
[calendar]
start = "2026-05-04 09:00"
deadline = "Tuesday 12:00"
[labels]
lines = ["{title}", "{name}", "batch {batch}, no. {number}"]
batch = "7"
[pack]
inside = "17 x 13 x 6"
heaviest = "20 lb"
"#;

fn with_week(week: &str) -> (Job, Plan) {
    let read = job(week);
    let of_week = |assumption: &Assumption| {
        let section = assumption.key.split('.').next().unwrap_or_default();
        ["finish", "canvas", "glue", "press", "calendar", "labels", "pack"].contains(&section)
    };
    let assumptions = read.assumptions.into_iter().filter(of_week).collect();
    let job = Job { week: read.week, assumptions, ..mixed_job() };
    let plan = Plan { assumptions: job.assumptions.clone(), ..mixed_plan() };
    let plan = Plan { week: plan_week(&job, &plan, &Patient), ..plan };
    assert_eq!(check(&job, &plan), Ok(()));
    (job, plan)
}

/// The printed pages of one paper.
fn pages_of(job: &Job, plan: &Plan, name: &str) -> Vec<Frame> {
    let options = Options::default();
    let paper = packet(job, plan, &options).into_iter().find(|paper| paper.name == name);
    pages::pages(&plan.title, &[paper.unwrap_or_else(|| panic!("no {name}"))], options.page, "")
}

fn printed(job: &Job, plan: &Plan, name: &str) -> String {
    pages_of(job, plan, name).iter().map(|page| texts(page).join("\n")).collect::<Vec<_>>().join("\n\n")
}

fn file(job: &Job, plan: &Plan, name: &str) -> String {
    let found = papers(job, plan, &Options::default()).into_iter().find(|file| file.0 == name);
    String::from_utf8(found.unwrap_or_else(|| panic!("no {name}")).1).expect("text")
}

#[test]
fn the_papers_of_the_week_say_what_they_said() {
    let (job, plan) = with_week(WEEK);
    for name in ["shopping-list", "finishing", "canvas", "press", "calendar", "labels", "packing"] {
        insta::assert_snapshot!(format!("week {name}"), printed(&job, &plan, name));
    }
}

#[test]
fn the_label_page_is_what_it_was() {
    let (job, plan) = with_week(WEEK);
    insta::assert_snapshot!("labels-1.svg", file(&job, &plan, "labels-1.svg"));
}

#[test]
fn the_machines_copy_holds_the_week() {
    let (job, plan) = with_week(WEEK);
    let copy: serde_json::Value = serde_json::from_str(&file(&job, &plan, "plan.json")).expect("JSON");
    insta::assert_snapshot!("week in plan.json", serde_json::to_string_pretty(&copy["week"]).expect("JSON"));
    let none: serde_json::Value = serde_json::from_str(&file(&mixed_job(), &mixed_plan(), "plan.json")).expect("JSON");
    assert!(none.get("week").is_none(), "a job that ends with the saw has no week");
}

#[test]
fn what_the_job_does_not_ask_for_has_no_paper() {
    let (job, plan) = with_week(WEEK.split("[canvas]").next().expect("a week"));
    let names: Vec<String> = packet(&job, &plan, &Options::default()).into_iter().map(|paper| paper.name).collect();
    assert!(names.iter().all(|name| !["canvas", "press", "calendar", "labels", "packing"].contains(&name.as_str())));
    assert!(names.iter().any(|name| name == "finishing"));
}

#[test]
fn every_default_of_the_week_is_printed_on_a_page() {
    let (job, plan) = with_week(WEEK);
    let made = pages::pages(&plan.title, &packet(&job, &plan, &Options::default()), PageSize::Letter, "");
    let all: String = made.iter().flat_map(texts).collect::<Vec<_>>().join(" ");
    assert!(job.assumptions.len() > 25);
    for assumption in &job.assumptions {
        let key = assumption.key.trim_start_matches("labels.");
        assert!(all.contains(key), "{} is not printed", assumption.key);
    }
}

#[test]
fn drying_times_are_those_of_the_calendar() {
    let (job, plan) = with_week(&WEEK.replace(
        "bench",
        "",
    ).replace("start = ", "fill = \"1 min, then 45 min\"\nseal = \"1 min, then 3 h\"\ncoat = \"1 min, then 1 d\"\nglue = \"1 min, then 36 h\"\nstart = "));
    let finishing = printed(&job, &plan, "finishing").replace('\n', " ");
    for told in
        ["Let fills dry 45 min, as the calendar", "Let it dry 3 h, as the calendar", "Let the last coat dry 1 day, as"]
    {
        assert!(finishing.contains(told), "{told}: {finishing}");
    }
    assert!(printed(&job, &plan, "press").replace('\n', " ").contains("leave it for 1 day 12 h, as the calendar"));
    let (job, plan) =
        with_week(&WEEK.replace("[calendar]\nstart = \"2026-05-04 09:00\"\ndeadline = \"Tuesday 12:00\"\n", ""));
    assert!(printed(&job, &plan, "finishing").contains("Thin fills dry in 1 to 2 hours."));
    assert!(printed(&job, &plan, "press").replace('\n', " ").contains("leave it overnight (common practice)"));
}

#[test]
fn what_is_not_done_is_not_told() {
    let (job, plan) = with_week(&WEEK.replace("[finish]\n", "[finish]\nflaws = 0\ncoats = 0\n"));
    let finishing = printed(&job, &plan, "finishing");
    assert!(!finishing.contains("Fill") && !finishing.contains("Seal") && finishing.contains("sanded"), "{finishing}");
}

#[test]
fn long_names_can_be_read_in_every_drawing() {
    let (mut job, mut plan) = with_week(WEEK);
    let long = "studies of the outer harbour wall at first light, before the boats go out";
    for panel in 0..plan.panels.len() {
        job.panels[panel].name = format!("{long}, {panel}");
        plan.panels[panel].name = format!("{long}, {panel}");
    }
    plan.week = plan_week(&job, &plan, &Patient);
    for size in [PageSize::Letter, PageSize::A4] {
        let options = Options { page: size, date: None };
        for page in pages::pages(&plan.title, &packet(&job, &plan, &options), size, "") {
            for mark in &page.marks {
                let Mark::Text(text) = mark else { continue };
                assert!(text.size >= 1.7, "`{}` at {} mm", text.text, text.size);
            }
        }
    }
    let packing = printed(&job, &plan, "packing");
    assert!(packing.contains("a = studies") || packing.contains("studies of the outer"), "{packing}");
}

#[test]
fn heights_and_weights_that_are_not_known_are_not_told() {
    let (mut job, mut plan) = with_week(WEEK);
    job.sheets.iter_mut().for_each(|sheet| sheet.thickness = None);
    plan.panels.iter_mut().for_each(|line| line.weight = None);
    plan.week = plan_week(&job, &plan, &Patient);
    let packing = printed(&job, &plan, "packing").replace('\n', " ");
    assert!(packing.contains("NO HEIGHT WAS CHECKED") && packing.contains("not checked for all panels"), "{packing}");
    assert!(!packing.contains(" high "), "{packing}");
}

#[test]
fn a_roll_too_narrow_for_a_panel_is_said_on_the_first_page() {
    let (job, plan) = with_week(&WEEK.replace("roll = 54", "roll = 12"));
    let batch = printed(&job, &plan, "overview").replace('\n', " ");
    assert!(batch.contains("The roll gives no canvas for 12 x 16 (see the canvas plan)."), "{batch}");
}

#[test]
fn a_long_roll_is_drawn_short_beside_what_is_bought_and_says_so() {
    let (job, plan) = with_week(&WEEK.replace("roll = 54", "roll = 54\nroll_length = 216\nper = \"roll\""));
    let first = texts(&pages_of(&job, &plan, "canvas")[0]).join(" ");
    assert!(first.contains("The roll from 0 to 216 in.; hatched: not used. The rest is drawn short."), "{first}");
    // Bought by steps of 1 in., the roll leaves a quarter of an inch: drawn whole.
    let (job, plan) = with_week(&WEEK.replace("roll = 54", "roll = 54\nstep = 1\nsmallest = 1"));
    assert!(!printed(&job, &plan, "canvas").contains("drawn short"));
}
