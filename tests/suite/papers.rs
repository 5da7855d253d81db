//! The papers of whole plans: what each says, that nothing is lost between plan and paper, that files are sound.

use crate::by_hand::{broken_down_job, broken_down_plan, mixed_job, mixed_plan};
use crate::jobs::{len, panel, small_job};
use yardslip::data::{File, Job, Source};
use yardslip::documents::page_size::PageSize;
use yardslip::documents::{Options, papers};
use yardslip::plan::Plan;
use yardslip::solve::Patient;

/// A job file of the demo, with the plan for it.
fn planned(name: &str) -> (Job, Plan) {
    let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("demo-data");
    let file = |name: &str| File::of(name, std::fs::read(folder.join(name)).unwrap());
    let list = (name == "harbour-week.toml").then(|| file("harbour-week.csv"));
    let job = yardslip::data::read(&Source { job: file(name), list, rack: None }).expect("the demo is sound");
    made(job)
}

fn made(job: Job) -> (Job, Plan) {
    let solved = yardslip::solve::solve(&job, &Patient).expect("it can be done");
    let plan = yardslip::plan::lay_out(&job, &solved);
    (job, plan)
}

/// Jobs that are hard on paper: many narrow strips, forty sheets, long names, tiny panels, three lines a strip.
fn hard() -> Vec<(&'static str, Job)> {
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
    vec![("narrow", narrow), ("forty", forty), ("names", names)]
}

/// Writes what the eye must check into the folder that `YARDSLIP_LOOK` names.
#[test]
#[ignore = "writes papers to look at; needs YARDSLIP_LOOK"]
fn look() {
    let folder = std::path::PathBuf::from(std::env::var("YARDSLIP_LOOK").expect("YARDSLIP_LOOK names a folder"));
    let mut jobs = vec![
        ("first", planned("first-batch.toml")),
        ("week", planned("harbour-week.toml")),
        ("boathouse", planned("boathouse.toml")),
        ("mixed", (mixed_job(), mixed_plan())),
        ("broken", (broken_down_job(), broken_down_plan())),
    ];
    jobs.extend(hard().into_iter().map(|(name, job)| (name, made(job))));
    for (name, (job, plan)) in jobs {
        for (size, word) in [(PageSize::Letter, "letter"), (PageSize::A4, "a4")] {
            let to = folder.join(format!("{name}-{word}"));
            std::fs::create_dir_all(&to).unwrap();
            for (file, bytes) in papers(&job, &plan, &Options { page: size, date: None }) {
                std::fs::write(to.join(file), bytes).unwrap();
            }
        }
    }
}
