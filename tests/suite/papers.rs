//! The papers of whole plans: golden files, and that files are sound.

mod drawings;
mod plans;
mod slips;
mod words;

use crate::by_hand::{broken_down_job, broken_down_plan, mixed_job, mixed_plan};
use plans::{ALL, compared, file, hard, made, planned, printed};
use yardslip::documents::page_size::PageSize;
use yardslip::documents::{Options, papers};

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
        ("compared", compared()),
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

#[test]
fn the_printed_packet_says_what_it_said() {
    insta::assert_snapshot!("mixed packet", printed(&mixed_job(), &mixed_plan()));
    insta::assert_snapshot!("broken down packet", printed(&broken_down_job(), &broken_down_plan()));
}

#[test]
fn the_files_of_a_small_plan_are_what_they_were() {
    let (job, plan) = (mixed_job(), mixed_plan());
    for name in ["yard-slip.svg", "sheet-1.svg", "saw-order.csv", "plan.json"] {
        insta::assert_snapshot!(name, file(&job, &plan, name));
    }
}

#[test]
fn files_are_few_and_small_and_the_same_each_time() {
    for (name, job, plan) in ALL.iter() {
        let files = papers(job, plan, &Options::default());
        assert_eq!(files, papers(job, plan, &Options::default()), "{name}");
        let mut names: Vec<&String> = files.iter().map(|(name, _)| name).collect();
        names.sort_unstable();
        names.dedup();
        assert_eq!(names.len(), files.len(), "{name}: two files of one name");
        let size: usize = files.iter().map(|(_, bytes)| bytes.len()).sum();
        assert!(size < 2_000_000, "{name}: {size} bytes");
    }
}
