//! How tests hand files in: a job file named `harbour.toml`, a list named `panels.csv`.

use yardslip::data::{Fault, File, Job, Source, read};

/// The files of a job.
pub(crate) fn source(job: &str, list: Option<&str>) -> Source {
    Source { job: File::of("harbour.toml", job), list: list.map(|text| File::of("panels.csv", text)), rack: None }
}

/// The job that a job file describes.
pub(crate) fn job(text: &str) -> Job {
    read(&source(text, None)).unwrap_or_else(|faults| panic!("{}", told(&faults)))
}

/// The job that a job file and its panel list describe.
pub(crate) fn job_with_list(text: &str, list: &str) -> Job {
    read(&source(text, Some(list))).unwrap_or_else(|faults| panic!("{}", told(&faults)))
}

/// Faults as they are printed, a blank line between two.
pub(crate) fn told(faults: &[Fault]) -> String {
    faults.iter().map(ToString::to_string).collect::<Vec<_>>().join("\n\n")
}

/// The faults of a job file, as they are printed.
pub(crate) fn faults(text: &str) -> String {
    told(&read(&source(text, None)).expect_err("the job file has faults"))
}

/// A sheet of a job file.
pub(crate) const SHEET: &str = "[[sheet]]\nlength = 96\nwidth = 48\nprice = 38.50\n";
/// Its panel.
pub(crate) const PANEL: &str = "[[panel]]\nsize = \"12 x 16\"\ncount = 24\n";

/// The faults of a sheet, a panel and what follows them from line 8 on.
pub(crate) fn faults_of_more(more: &str) -> String {
    faults(&format!("{SHEET}{PANEL}{more}"))
}

/// The first line of the only fault of a job.
pub(crate) fn cause(text: &str) -> String {
    let all = faults(text);
    assert!(!all.contains("\n\n"), "one fault was expected:\n{all}");
    all.lines().next().unwrap_or_default().to_owned()
}

/// A shop for tests: 48 x 96 in. sheets at 40.00, 1/8 in. kerfs, nothing squared, a hand that wants 4 in. to hold; with
/// what else its job file says, sections beginning with panels.
pub(crate) fn shop(more: &str) -> Job {
    job(&format!(
        r#"
title = "Harbour week"
[[sheet]]
name = "birch"
length = 96
width = 48
price = 40
[yard]
kerf = "1/8"
narrowest = 1
[saw]
kerf = "1/8"
squaring = 0
shortest = 4
crosses = 24
{more}"#
    ))
}
