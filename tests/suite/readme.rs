//! The README keeps its word: its commands run, its job file is one, its figures come out, its keys are the keys there
//! are.

use crate::program::{folder, yardslip};
use std::collections::BTreeSet;
use std::fs;
use std::path::Path;
use tempfile::TempDir;
use yardslip::data::template;

const README: &str = include_str!("../../README.md");

/// The lines of all fenced blocks of one kind.
fn blocks(kind: &str) -> Vec<String> {
    let fenced = README.split("```").skip(1).step_by(2);
    fenced.filter_map(|block| block.strip_prefix(kind)?.strip_prefix('\n')).map(str::to_owned).collect()
}

/// A folder with a copy of the demo data, without papers that someone made there.
fn copy_of_the_demo_data() -> TempDir {
    let copy = folder(&[]);
    let (from, to) = (Path::new(env!("CARGO_MANIFEST_DIR")).join("demo-data"), copy.path().join("demo-data"));
    fs::create_dir(&to).unwrap();
    for entry in fs::read_dir(from).unwrap().flatten().filter(|entry| entry.path().is_file()) {
        fs::copy(entry.path(), to.join(entry.file_name())).unwrap();
    }
    copy
}

#[test]
fn every_command_of_the_readme_runs() {
    let copy = copy_of_the_demo_data();
    let lines: Vec<String> = blocks("sh").iter().flat_map(|block| block.lines()).map(str::to_owned).collect();
    let ours = |line: &&String| line.as_str() != "cargo test";
    assert!(lines.iter().filter(ours).count() >= 4 && lines.iter().any(|line| line == "cargo test"));
    for line in lines.iter().filter(ours) {
        let arguments = line.strip_prefix("cargo run --release -- ").or_else(|| line.strip_prefix("yardslip "));
        let arguments: Vec<&str> = arguments.expect("a command of ours").split(' ').collect();
        let run = yardslip(copy.path(), &arguments);
        assert_eq!((run.err.as_str(), run.code), ("", Some(0)), "{line}");
    }
}

#[test]
fn the_job_file_of_the_readme_reads_as_it_stands() {
    for job in blocks("toml") {
        let folder = folder(&[("job.toml", &job), ("panels.csv", "size,count\n8 x 10,3\n")]);
        let run = yardslip(folder.path(), &["check", "job.toml"]);
        assert_eq!((run.err.as_str(), run.code), ("", Some(0)));
        assert!(run.out.starts_with("Harbour week: 27 panels in 2 sizes, no fault found\n"), "{}", run.out);
    }
}

/// Whether one sheet gives so many panels of 12 x 16, after these changes to the demo job.
fn one_sheet_gives(count: u32, changes: &[(&str, &str)]) -> bool {
    let mut job = fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join("demo-data/one-sheet.toml")).unwrap();
    for (from, to) in [("count = 24", format!("count = {count}").as_str())].iter().chain(changes) {
        assert!(job.contains(from), "the demo job has no `{from}`");
        job = job.replace(from, to);
    }
    let folder = folder(&[("job.toml", &job)]);
    let run = yardslip(folder.path(), &["plan", "job.toml"]);
    if run.code == Some(1) {
        assert!(run.err.starts_with("error: 1 more sheet is needed than can be had\n"), "{}", run.err);
        return false;
    }
    assert!(run.out.contains("Proved: no plan for this job costs less."), "{}", run.out);
    true
}

/// Checked by hand: 3 x 5; 7 + 7 + 5 from rips of 16, 16 and 12 in.; 4 x 6 of 11 7/8 x 15 7/8 in.; with a squaring cut
/// three strips of 15 7/8 in. with seven panels of 11 7/8 in. each. That no more is possible is the program's own
/// proof.
#[test]
fn the_figures_of_the_walk_come_out() {
    let nominal = ("scant = \"1/8\"", "scant = 0");
    let twelve = ("[saw]", "[yard]\nrip_widths = [12]\n[saw]");
    let squared = ("squaring = 0", "squaring = \"1/4\"");
    for (most, changes) in [(15, vec![nominal, twelve]), (19, vec![nominal]), (24, vec![]), (21, vec![squared])] {
        assert!(one_sheet_gives(most, &changes), "{most} {changes:?}");
        assert!(!one_sheet_gives(most + 1, &changes), "{most} {changes:?}");
    }
}

/// Keys of the sections in a text of lines such as `key = value` or `#key = value` under `[section]`.
fn keys_of_the_template() -> BTreeSet<String> {
    let lines = template().lines().map(|line| line.trim_start_matches('#'));
    let keys = lines.filter_map(|line| line.split_once(" = ")).map(|(key, _)| key);
    keys.filter(|key| key.chars().all(|c| c.is_ascii_lowercase() || c == '_')).map(str::to_owned).collect()
}

#[test]
fn the_readme_names_every_key_of_the_job_file() {
    let rows = README.lines().filter(|line| line.starts_with("| `[") || line.starts_with("| (top)"));
    let named: BTreeSet<&str> = rows.flat_map(|row| row.split('`')).collect();
    let missing: Vec<String> = keys_of_the_template().into_iter().filter(|key| !named.contains(key.as_str())).collect();
    assert_eq!(missing, Vec::<String>::new());
}
