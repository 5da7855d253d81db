//! The pipeline's order is held here: a stage imports only from stages before it, and only the program itself touches
//! files, clock, terminal or randomness.

use std::fs;
use std::path::{Path, PathBuf};

/// The stages in the order of the work.
const STAGES: [&str; 6] = ["length", "data", "model", "solve", "plan", "documents"];

fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("src")
}

/// Every Rust file under a folder, with its path for messages and its text without comments.
fn files(folder: &Path) -> Vec<(String, String)> {
    let mut found = Vec::new();
    for entry in fs::read_dir(folder).expect("a source folder").flatten() {
        let path = entry.path();
        if path.is_dir() {
            found.extend(files(&path));
        } else if path.extension().is_some_and(|extension| extension == "rs") {
            let text = fs::read_to_string(&path).expect("a source file");
            found.push((path.display().to_string(), code_alone(&text)));
        }
    }
    found
}

/// The text without its comment lines and what stands after `//` in a line.
fn code_alone(text: &str) -> String {
    text.lines().map(|line| line.split("//").next().unwrap_or_default()).collect::<Vec<_>>().join("\n")
}

/// What a stage names as `crate::STAGE` or `yardslip::STAGE`, also within `crate::{...}`.
fn named_stages(code: &str) -> Vec<&'static str> {
    let direct =
        |stage: &str| code.contains(&format!("crate::{stage}::")) || code.contains(&format!("crate::{stage};"));
    let grouped = |stage: &str| {
        code.split("crate::{").skip(1).any(|rest| {
            let list = &rest[..rest.find(';').unwrap_or(rest.len())];
            list.split([',', '{', '}']).any(|part| part.trim().split("::").next() == Some(stage))
        })
    };
    STAGES.into_iter().filter(|stage| direct(stage) || grouped(stage)).collect()
}

#[test]
fn imports_point_left_only() {
    let mut wrong = Vec::new();
    for (position, stage) in STAGES.iter().enumerate() {
        for (path, code) in files(&root().join(stage)) {
            let later = named_stages(&code).into_iter().filter(|named| STAGES[position + 1..].contains(named));
            wrong.extend(later.map(|named| format!("{path} names `{named}`")));
        }
    }
    assert_eq!(wrong, Vec::<String>::new());
}

#[test]
fn only_the_program_touches_files_clock_terminal_and_randomness() {
    const OUTSIDE: [&str; 11] = [
        "std::fs",
        "std::io::stdin",
        "std::io::stdout",
        "std::io::stderr",
        "std::net",
        "std::env::",
        "std::process",
        "Instant::now",
        "SystemTime",
        "println!",
        "thread_rng",
    ];
    let mut wrong = Vec::new();
    for stage in STAGES {
        for (path, code) in files(&root().join(stage)) {
            let touched = OUTSIDE.into_iter().filter(|name| code.contains(name));
            wrong.extend(touched.map(|name| format!("{path} uses `{name}`")));
        }
    }
    assert_eq!(wrong, Vec::<String>::new());
}

#[test]
fn a_wrong_import_would_be_noticed() {
    assert_eq!(named_stages("use crate::plan::Plan;"), ["plan"]);
    assert_eq!(named_stages("use crate::{length::Length, solve::{Proof, Level}};"), ["length", "solve"]);
    assert!(named_stages(&code_alone("// use crate::plan::Plan;")).is_empty());
}

#[test]
fn the_checker_shares_no_code_with_what_it_checks() {
    /// What plans the week; the checker knows its types only.
    const WEEK: [&str; 9] = [
        "plan_week",
        "canvas_plan",
        "press_plan",
        "pack_lots",
        "week_plan",
        "label_set",
        "cheapest",
        "week::board",
        "week::lots",
    ];
    let folder = root().join("plan").join("check");
    let checks = files(&folder);
    assert!(!checks.is_empty());
    let shared = |code: &str| {
        code.contains("crate::model")
            || code.contains("solve::solve")
            || code.contains("lay_out")
            || code.contains("plan::grow")
            || WEEK.into_iter().any(|planner| code.contains(planner))
    };
    let wrong: Vec<&String> = checks.iter().filter(|(_, code)| shared(code)).map(|(path, _)| path).collect();
    assert_eq!(wrong, Vec::<&String>::new());
}
