//! `yardslip plan` from the outside: what it prints and writes, what it refuses to overwrite, and that papers appear
//! complete or not at all when the disk is full, the folder is not writable or the user interrupts.

use crate::program::{command, ended, folder, names, yardslip};
use serde_json::Value;
use std::fs;
use std::process::{Command, Stdio};
use std::thread::sleep;
use std::time::Duration;

/// One sheet, used up: 24 panels of 11 7/8 x 15 7/8 in.
const JOB: &str = "title = \"One sheet\"\n[[sheet]]\nname = \"birch\"\nlength = 96\nwidth = 48\nprice = 38.50\n\
                   [[panel]]\nsize = \"12 x 16\"\ncount = 24\nscant = \"1/8\"\n[saw]\nsquaring = 0\n";

const PAPERS: [&str; 7] =
    [".yardslip", "packet.html", "packet.pdf", "plan.json", "saw-order.csv", "sheet-1.svg", "yard-slip.svg"];

#[test]
fn the_summary_says_what_to_buy_what_it_costs_what_is_proved_and_where_the_papers_are() {
    let folder = folder(&[("job.toml", JOB)]);
    let run = yardslip(folder.path(), &["plan", "job.toml"]);
    insta::assert_snapshot!(run.out);
    assert_eq!((run.err.as_str(), run.code), ("", Some(0)));
    assert_eq!(names(folder.path()), ["job", "job.toml"]);
    assert_eq!(names(&folder.path().join("job")), PAPERS);
}

#[test]
fn quiet_prints_nothing_and_writes_the_same_papers_to_the_byte() {
    let folder = folder(&[("job.toml", JOB)]);
    let quiet = yardslip(folder.path(), &["plan", "job.toml", "--quiet", "--out", "quiet"]);
    assert_eq!((quiet.out.as_str(), quiet.err.as_str(), quiet.code), ("", "", Some(0)));
    yardslip(folder.path(), &["plan", "job.toml", "--out", "again"]);
    for paper in PAPERS {
        let read = |place: &str| fs::read(folder.path().join(place).join(paper)).unwrap();
        assert!(read("quiet") == read("again"), "{paper} differs");
    }
}

#[test]
fn json_prints_the_copy_for_machines_and_nothing_else() {
    let folder = folder(&[("job.toml", JOB)]);
    let run = yardslip(folder.path(), &["plan", "job.toml", "--json"]);
    assert_eq!((run.err.as_str(), run.code), ("", Some(0)));
    assert_eq!(run.out, fs::read_to_string(folder.path().join("job/plan.json")).unwrap());
    let plan: Value = serde_json::from_str(&run.out).unwrap();
    assert_eq!(plan["sheets_bought"], 1);
    assert_eq!(plan["cost"]["total"], 38.5);
    assert_eq!(plan["proof"]["status"], "proved");
    assert_eq!(plan["panels"][0]["cut_width"], "11 7/8");
}

#[test]
fn json_tells_machines_the_faults_too() {
    let folder = folder(&[("job.toml", "kerff = 1\n")]);
    let run = yardslip(folder.path(), &["plan", "job.toml", "--json"]);
    let told: Value = serde_json::from_str(&run.out).unwrap();
    assert_eq!(told["faults"][0]["key"], "kerff");
    assert_eq!(told["faults"][0]["line"], 1);
    assert!(run.err.contains("error: `kerff` is not known"), "{}", run.err);
    assert_eq!(run.code, Some(2));
}

#[test]
fn our_own_papers_are_renewed_and_a_folder_of_the_users_is_kept() {
    let folder = folder(&[("job.toml", JOB)]);
    let plan = ["plan", "job.toml", "--quiet"];
    assert_eq!(yardslip(folder.path(), &plan).code, Some(0));
    assert_eq!(yardslip(folder.path(), &plan).code, Some(0));
    fs::write(folder.path().join("job/notes.txt"), "mine").unwrap();
    let refused = yardslip(folder.path(), &plan);
    let expected = format!(
        "error: `{}` exists and holds files that are not unchanged papers: `notes.txt`\n  \
         try: name another folder with `--out`, or add `--replace` (your files are kept in FOLDER.old)\n",
        folder.path().canonicalize().unwrap().join("job").display()
    );
    assert_eq!((refused.out.as_str(), refused.err, refused.code), ("", expected, Some(1)));
    let replaced = yardslip(folder.path(), &["plan", "job.toml", "--replace"]);
    assert!(replaced.out.contains("\nkept    what stood there is now in "), "{}", replaced.out);
    assert_eq!(names(folder.path()), ["job", "job.old", "job.toml"]);
    assert_eq!(fs::read_to_string(folder.path().join("job.old/notes.txt")).unwrap(), "mine");
}

#[test]
fn a_file_in_the_place_of_the_folder_is_left_alone() {
    let folder = folder(&[("job.toml", JOB), ("papers", "mine")]);
    let run = yardslip(folder.path(), &["plan", "job.toml", "--out", "papers", "--replace"]);
    assert!(run.err.contains("is a file, so it cannot be the folder of the papers"), "{}", run.err);
    assert_eq!((run.code, fs::read_to_string(folder.path().join("papers")).unwrap().as_str()), (Some(1), "mine"));
}

/// The shell's limit on the size of a file stands in for a full disk; papers larger than 8 KB cannot be written.
#[cfg(target_os = "linux")]
#[test]
fn where_the_disk_takes_no_more_the_old_papers_stand_complete() {
    let folder = folder(&[("job.toml", JOB)]);
    assert_eq!(yardslip(folder.path(), &["plan", "job.toml", "--quiet"]).code, Some(0));
    let before = fs::read(folder.path().join("job/packet.html")).unwrap();
    assert!(before.len() > 8 * 1024);
    let limited = format!("trap '' XFSZ; ulimit -f 8; exec {} plan job.toml", env!("CARGO_BIN_EXE_yardslip"));
    let run = ended(&Command::new("bash").args(["-c", &limited]).current_dir(folder.path()).output().unwrap());
    assert!(run.err.contains("cannot be written to"), "{}", run.err);
    assert_eq!((run.out.as_str(), run.code), ("", Some(1)));
    assert_eq!(names(folder.path()), ["job", "job.toml"]);
    assert_eq!(names(&folder.path().join("job")), PAPERS);
    assert!(fs::read(folder.path().join("job/packet.html")).unwrap() == before);
}

#[cfg(target_os = "linux")]
#[test]
fn a_folder_that_cannot_be_written_is_told_before_the_search() {
    let folder = folder(&[("job.toml", JOB)]);
    let run = yardslip(folder.path(), &["plan", "job.toml", "--out", "/proc/papers"]);
    let expected = "error: the papers cannot be written to `/proc/papers`: no such file or folder\n  \
                    try: name another folder with `--out`; nothing was written, and what stood there is unchanged\n";
    assert_eq!((run.out.as_str(), run.err.as_str(), run.code), ("", expected, Some(1)));
}

#[test]
fn the_rack_is_taken_from_first_and_changes_only_when_asked() {
    let rack = "name,width,length\nK,11 7/8,96\n";
    let folder = folder(&[("job.toml", JOB), ("rack.csv", rack)]);
    let read = |name: &str| fs::read_to_string(folder.path().join(name)).unwrap();
    let asked = yardslip(folder.path(), &["plan", "job.toml", "--rack", "rack.csv"]);
    assert!(asked.out.contains("\nrack    its new state is proposed in rack-after.csv; `rack.csv` is unchanged\n"));
    assert_eq!(read("rack.csv"), rack);
    let done = yardslip(folder.path(), &["plan", "job.toml", "--rack", "rack.csv", "--update-rack"]);
    assert!(
        done.out.contains("\nrack    `rack.csv` is updated, the old list is kept as rack.csv.old\n"),
        "{}",
        done.out
    );
    assert_eq!(read("rack.csv.old"), rack);
    assert_eq!(read("rack.csv"), read("job/rack-after.csv"));
    assert!(read("rack.csv").starts_with("name,width,length,count,sheet,grain\n"));
}

/// A job that is not decided in a moment: many sizes that do not go into each other, on three kinds of sheet.
fn long_job() -> String {
    let kinds = [(96, 48, 38), (60, 60, 33), (120, 60, 61)];
    let sheet = |(length, width, price): (u32, u32, u32)| {
        format!("[[sheet]]\nname = \"{length}\"\nlength = {length}\nwidth = {width}\nprice = {price}.17\n")
    };
    let panel = |n: u32| {
        let (width, height, count) = (5 + n, 7 + (n * n) % 13 + n, 31 + (n * 17) % 41);
        format!("[[panel]]\nname = \"p{n}\"\nwidth = {width}\nheight = {height}\ncount = {count}\nextra = 5\n")
    };
    let yard = "[yard]\nrips = \"either\"\nfree_cuts = 2\ncut_price = 0.35\n[saw]\ntrims = true\n";
    kinds.map(sheet).concat() + &(0..14).map(panel).collect::<String>() + yard
}

#[cfg(unix)]
#[test]
fn the_first_interrupt_keeps_the_best_plan_so_far() {
    let folder = folder(&[("job.toml", &long_job())]);
    let mut child = command(folder.path(), &["plan", "job.toml", "--time", "600"])
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    sleep(Duration::from_secs(3));
    assert!(child.try_wait().unwrap().is_none(), "the job was decided before it could be interrupted");
    assert!(Command::new("kill").args(["-INT", &child.id().to_string()]).status().unwrap().success());
    let run = ended(&child.wait_with_output().unwrap());
    assert_eq!(run.err, "\nstopping with the best plan so far; Ctrl-C again ends at once\n");
    assert_eq!(run.code, Some(0));
    assert!(run.out.contains("Not proved: ") && run.out.contains("You stopped the search."), "{}", run.out);
    assert!(folder.path().join("job/packet.pdf").is_file());
}

#[cfg(unix)]
#[test]
fn the_second_interrupt_ends_at_once_and_leaves_nothing() {
    let folder = folder(&[("job.toml", &long_job())]);
    let mut child =
        command(folder.path(), &["plan", "job.toml", "--time", "600"]).stderr(Stdio::null()).spawn().unwrap();
    sleep(Duration::from_secs(2));
    for _ in 0..2 {
        assert!(Command::new("kill").args(["-INT", &child.id().to_string()]).status().unwrap().success());
        sleep(Duration::from_millis(30));
    }
    let code = child.wait().unwrap().code();
    if code == Some(0) {
        // The first interrupt was answered before the second came.
        assert_eq!(names(&folder.path().join("job")).first().map(String::as_str), Some(".yardslip"));
    } else {
        assert_eq!((code, names(folder.path())), (Some(130), vec!["job.toml".to_owned()]));
    }
}

#[test]
fn a_week_that_cannot_be_done_as_wished_is_told_at_once() {
    let week = "[finish]\n[calendar]\nstart = \"2026-05-04 09:00\"\ndeadline = \"2026-05-04 12:00\"\n\
                [pack]\nkind = \"box\"\ninside = \"14 x 15 x 10\"\n[[strip]]\nname = \"R1\"\nwidth = 12\nlength = 40\n";
    // The sheet gives 24; a strip of 12 x 40 in. gives the other two.
    let job = JOB.replace("count = 24", "count = 26");
    let folder = folder(&[("job.toml", &format!("{job}{week}"))]);
    let run = yardslip(folder.path(), &["plan", "job.toml", "--time", "1"]);
    assert_eq!((run.err.as_str(), run.code), ("", Some(0)));
    let has = |line: &str| assert!(run.out.contains(line), "no `{line}` in\n{}", run.out);
    has("\ntake    1 x R1 12 x 40 from what is on hand\nbuy     1 x birch\n");
    has("\nin all  $38.50 with everything else on the shopping list, but for 2 of its lines without a price\n");
    has("\nmind    The deadline cannot be met, by ");
    has("\n        Not everything can be packed: 26 of 12 x 16 (see the packing sheet).\n");
    let page = fs::read_to_string(folder.path().join("job/packet.html")).unwrap();
    assert!(page.contains("The deadline cannot be met, by "), "the overview says so too");
}
