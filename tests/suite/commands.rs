//! The commands as a person calls them: standard output, standard error and exit code, compared whole.

use crate::program::{command, folder, names, yardslip};
use std::fs;
use std::process::Stdio;

#[test]
fn called_with_nothing_it_says_what_it_can_do_and_that_this_was_no_command() {
    let folder = folder(&[]);
    let run = yardslip(folder.path(), &[]);
    insta::assert_snapshot!(run.err);
    assert_eq!((run.out.as_str(), run.code), ("", Some(2)));
}

#[test]
fn the_help_of_plan_tells_every_option() {
    let folder = folder(&[]);
    let run = yardslip(folder.path(), &["plan", "--help"]);
    insta::assert_snapshot!(run.out);
    assert_eq!((run.err.as_str(), run.code), ("", Some(0)));
}

#[test]
fn a_misspelt_command_gets_the_nearest_one() {
    let folder = folder(&[]);
    let run = yardslip(folder.path(), &["chek"]);
    let expected = "error: unrecognized subcommand 'chek'\n\n  tip: a similar subcommand exists: 'check'\n\n\
                    Usage: yardslip <COMMAND>\n\nFor more information, try '--help'.\n";
    assert_eq!((run.out.as_str(), run.err.as_str(), run.code), ("", expected, Some(2)));
}

#[test]
fn a_time_of_zero_is_refused_with_what_would_do() {
    let folder = folder(&[]);
    let run = yardslip(folder.path(), &["plan", "job.toml", "--time", "0"]);
    let expected = "error: invalid value '0' for '--time <SECONDS>': give a number of seconds above 0 and up to 604800, \
                    such as 30\n\nFor more information, try '--help'.\n";
    assert_eq!((run.out.as_str(), run.err.as_str(), run.code), ("", expected, Some(2)));
}

#[test]
fn a_time_below_zero_is_refused_in_the_same_words() {
    let folder = folder(&[]);
    let run = yardslip(folder.path(), &["plan", "job.toml", "--time", "-3"]);
    assert!(
        run.err.starts_with("error: invalid value '-3' for '--time <SECONDS>': give a number of seconds"),
        "{}",
        run.err
    );
    assert_eq!((run.out.as_str(), run.code), ("", Some(2)));
}

#[test]
fn start_prints_the_job_where_its_file_is_called_dash() {
    let folder = folder(&[]);
    let run = yardslip(folder.path(), &["start", "-"]);
    assert_eq!((run.out.as_str(), run.err.as_str(), run.code), (yardslip::data::template(), "", Some(0)));
    assert!(names(folder.path()).is_empty());
}

#[test]
fn start_writes_a_job_that_check_finds_no_fault_with() {
    let folder = folder(&[]);
    let started = yardslip(folder.path(), &["start"]);
    let said = "wrote job.toml: fill in your panels and sheets, then run `yardslip plan job.toml`\n";
    assert_eq!((started.out.as_str(), started.err.as_str(), started.code), (said, "", Some(0)));
    let checked = yardslip(folder.path(), &["check", "job.toml"]);
    assert_eq!((checked.err.as_str(), checked.code), ("", Some(0)));
    assert!(checked.out.starts_with("Harbour week: 36 panels in 2 sizes, no fault found\n"), "{}", checked.out);
    assert_eq!(names(folder.path()), ["job.toml"]);
}

#[test]
fn start_never_touches_a_file_that_exists() {
    let folder = folder(&[("job.toml", "mine")]);
    let run = yardslip(folder.path(), &["start"]);
    let expected = "error: `job.toml` cannot be written: it exists already\n  \
                    try: give another name: `yardslip start FILE`; no file was changed\n";
    assert_eq!((run.out.as_str(), run.err.as_str(), run.code), ("", expected, Some(1)));
    assert_eq!(fs::read_to_string(folder.path().join("job.toml")).unwrap(), "mine");
}

#[test]
fn check_reports_what_a_job_asks_for_and_what_it_leans_on() {
    let job = "units = \"mm\"\n[[sheet]]\nname = \"birch\"\nlength = 2440\nwidth = 1220\nprice = 31\nstock = 3\n\
               [[panel]]\nname = \"nets\"\nsize = \"300 x 400\"\ncount = 18\nscant = 3\nextra = 2\n";
    let folder = folder(&[("job.toml", job)]);
    let run = yardslip(folder.path(), &["check", "job.toml"]);
    insta::assert_snapshot!(run.out);
    assert_eq!((run.err.as_str(), run.code), ("", Some(0)));
}

#[test]
fn sizes_are_printed_as_tables() {
    let folder = folder(&[]);
    let run = yardslip(folder.path(), &["sizes"]);
    insta::assert_snapshot!(run.out);
    assert_eq!((run.err.as_str(), run.code), ("", Some(0)));
}

#[test]
fn completions_are_made_for_each_shell_and_know_every_command() {
    let folder = folder(&[]);
    for shell in ["bash", "elvish", "fish", "powershell", "zsh"] {
        let run = yardslip(folder.path(), &["completions", shell]);
        assert_eq!((run.err.as_str(), run.code), ("", Some(0)));
        for word in ["plan", "check", "start", "recut", "sizes", "completions", "man", "update-rack"] {
            assert!(run.out.contains(word), "{shell} does not know `{word}`");
        }
    }
}

#[test]
fn the_manual_page_tells_every_option_of_every_command() {
    let folder = folder(&[]);
    let run = yardslip(folder.path(), &["man"]);
    assert_eq!((run.err.as_str(), run.code), ("", Some(0)));
    let page = run.out.replace("\\-", "-");
    for word in
        [".TH yardslip", ".SH \"PLAN\"", "--update-rack", "--compare", ".SH \"RECUT\"", "--strips", "Exit codes"]
    {
        assert!(page.contains(word), "the manual page has no `{word}`");
    }
}

#[test]
fn a_reader_that_goes_away_is_no_fault() {
    let folder = folder(&[]);
    let mut child = command(folder.path(), &["sizes"]).stdout(Stdio::piped()).stderr(Stdio::piped()).spawn().unwrap();
    drop(child.stdout.take());
    let output = child.wait_with_output().unwrap();
    assert_eq!((output.status.code(), output.stderr), (Some(0), Vec::new()));
}

#[cfg(target_os = "linux")]
#[test]
fn standard_output_on_a_full_disk_is_a_fault() {
    let folder = folder(&[]);
    let full = fs::File::options().write(true).open("/dev/full").unwrap();
    let output = command(folder.path(), &["sizes"]).stdout(full).output().unwrap();
    let expected = "error: standard output cannot be written: the disk is full\n  \
                    try: free some space, or print somewhere else\n";
    assert_eq!((output.status.code(), String::from_utf8(output.stderr).unwrap().as_str()), (Some(1), expected));
}

#[test]
fn errors_are_coloured_only_where_asked_and_never_against_no_color() {
    let folder = folder(&[]);
    let escapes = |settings: &[(&str, &str)]| {
        let mut command = command(folder.path(), &["check", "gone.toml"]);
        let output = command.envs(settings.iter().copied()).output().unwrap();
        output.stderr.contains(&0x1b)
    };
    assert!(!escapes(&[]), "a pipe is no terminal");
    assert!(escapes(&[("CLICOLOR_FORCE", "1")]));
    assert!(!escapes(&[("NO_COLOR", "1")]));
}
