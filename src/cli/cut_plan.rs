//! A `plan.json` read back: the job it was made for, and what wood each of its letters is.

use super::disk;
use super::failure::Failure;
use serde::Deserialize;
use std::path::Path;
use yardslip::data::{Fault, Job, Place};
use yardslip::plan::Lettered;

/// What the crosscuts are planned again from.
#[derive(Debug)]
pub(super) struct CutPlan {
    /// The job.
    pub(super) job: Job,
    /// The letters of its strips.
    pub(super) lettered: Vec<Lettered>,
}

#[derive(Deserialize)]
struct Written {
    job: Job,
    sheets: Vec<WrittenSheet>,
}

#[derive(Deserialize)]
struct WrittenSheet {
    kind: String,
    rips: String,
    strips: Vec<String>,
}

/// Reads the file.
pub(super) fn read(path: &Path) -> Result<CutPlan, Failure> {
    let name = path.display().to_string();
    let fault = |line: usize, cause: String| {
        let place = Place { file: name.clone(), line, key: String::new() };
        let remedy = "give the plan.json from the folder of papers, as `yardslip plan` wrote it";
        Failure::input(vec![Fault::at(place, cause, remedy)])
    };
    let bytes = disk::read(path).content.map_err(|why| fault(0, format!("`{name}` cannot be read: {why}")))?;
    let written: Written =
        serde_json::from_slice(&bytes).map_err(|error| fault(error.line(), format!("`{name}` is no plan: {error}")))?;
    let lettered = written.sheets.iter().flat_map(|sheet| letters(&written.job, sheet)).collect();
    Ok(CutPlan { job: written.job, lettered })
}

fn letters(job: &Job, sheet: &WrittenSheet) -> Vec<Lettered> {
    let kind = job.sheets.iter().position(|known| known.name == sheet.kind);
    let wood = |letter: &String| Lettered { letter: letter.clone(), sheet: kind, grain_along: sheet.rips == "along" };
    sheet.strips.iter().map(wood).collect()
}
