//! The plans that the papers are tried on, and their papers as text.

use crate::by_hand::{broken_down_job, broken_down_plan, mixed_job, mixed_plan};
use crate::jobs::{len, panel, sheet, small_job};
use crate::paper_frames::texts;
use std::sync::LazyLock;
use yardslip::data::{Breakdown, File, Job, Rips, Source};
use yardslip::documents::{Options, packet, pages, papers};
use yardslip::length::Unit;
use yardslip::plan::Plan;
use yardslip::solve::Patient;

/// A job file of the demo, with the plan for it.
pub(super) fn planned(name: &str) -> (Job, Plan) {
    let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("demo-data");
    let file = |name: &str| File::of(name, std::fs::read(folder.join(name)).unwrap());
    let list = (name == "harbour-week.toml").then(|| file("harbour-week.csv"));
    let job = yardslip::data::read(&Source { job: file(name), list, rack: None }).expect("the demo is sound");
    made(job)
}

pub(super) fn made(job: Job) -> (Job, Plan) {
    let solved = yardslip::solve::solve(&job, &Patient).expect("it can be done");
    let plan = yardslip::plan::lay_out(&job, &solved);
    let week = yardslip::plan::week::plan_week(&job, &plan, &Patient);
    (job, Plan { week, ..plan })
}

/// A plan beside other ways to do its job.
pub(super) fn compared() -> (Job, Plan) {
    let job = planned("first-batch.toml").0;
    let plan = yardslip::plan::make_and_compare(&job, &Patient).expect("it can be done");
    (job, plan)
}

/// Jobs that are hard on paper: many narrow strips, forty sheets, long names, tiny panels, three lines a strip.
pub(super) fn hard() -> Vec<(&'static str, Job)> {
    let mut narrow = small_job();
    narrow.panels = vec![panel("3", "5", 100), panel("2 1/2", "3 1/2", 80), panel("3 7/8", "7 15/16", 30)];
    let mut forty = small_job();
    forty.panels = vec![panel("16", "20", 200), panel("12", "16", 160), panel("9", "12", 120), panel("11", "14", 90)];
    forty.yard.tolerance = len("1/16");
    for panel in &mut forty.panels {
        panel.scant = len("1/8");
    }
    let mut names = small_job();
    names.title =
        "A painting week at the harbour with a title that goes on and on past the edge of any page it may be put upon"
            .into();
    names.sheets[0].name =
        "birch plywood, quarter inch, rotary cut, sanded both faces, from the shed behind the chandlery".into();
    names.panels = vec![panel("12", "16", 9), panel("6", "8", 11), panel("8", "10", 7)];
    names.panels[0].name = "studies of the outer harbour wall & <the lighthouse> at first light".into();
    names.panels[1].name = "Wolkenstudienmorgenlichtaufdemwasserspiegel".into();
    let mut across = small_job();
    across.sheets[0].edge_trim = len("3/8");
    across.yard.rips = Rips::Across;
    across.yard.breakdown = Breakdown::IfNeeded;
    across.car.longest = Some(len("48"));
    across.panels = vec![panel("11", "14", 7), panel("8", "10", 9)];
    let mut handy = small_job();
    handy.units = Unit::Mm;
    handy.sheets = vec![sheet("handy panel, grain along the short side", "24", "48")];
    handy.panels = vec![panel("5", "7", 12), panel("10", "10", 2)];
    for panel in &mut handy.panels {
        panel.name = format!("{} x {}", panel.width.show(Unit::Mm), panel.height.show(Unit::Mm));
    }
    vec![("narrow", narrow), ("forty", forty), ("names", names), ("across", across), ("handy", handy)]
}

/// The whole text of a plan's files but the PDF.
pub(super) fn everything(job: &Job, plan: &Plan) -> String {
    let files = papers(job, plan, &Options::default());
    let text = |(name, bytes): &(String, Vec<u8>)| {
        if name == "packet.pdf" { String::new() } else { String::from_utf8(bytes.clone()).unwrap() }
    };
    files.iter().map(text).collect()
}

pub(super) fn file(job: &Job, plan: &Plan, name: &str) -> String {
    let files = papers(job, plan, &Options::default());
    let found = files.into_iter().find(|(other, _)| other == name).unwrap_or_else(|| panic!("no {name}"));
    String::from_utf8(found.1).unwrap()
}

/// Each page of the printed packet as its texts, a line each.
pub(super) fn printed(job: &Job, plan: &Plan) -> String {
    let options = Options::default();
    let made = pages::pages(&plan.title, &packet(job, plan, &options), options.page, "");
    made.iter().map(|page| texts(page).join("\n")).collect::<Vec<_>>().join("\n\n")
}

/// All plans that the papers are tried on, made once.
pub(super) static ALL: LazyLock<Vec<(&str, Job, Plan)>> = LazyLock::new(all_plans);

pub(super) fn all_plans() -> Vec<(&'static str, Job, Plan)> {
    let mut plans = vec![("mixed", mixed_job(), mixed_plan()), ("broken down", broken_down_job(), broken_down_plan())];
    for (name, job) in hard() {
        let (job, plan) = made(job);
        plans.push((name, job, plan));
    }
    for name in ["first-batch.toml", "harbour-week.toml", "boathouse.toml"] {
        let (job, plan) = planned(name);
        plans.push((name, job, plan));
    }
    plans
}
