//! A `plan.json` read back: the job it was made for, and what wood each of its letters is. Whatever somebody may have
//! changed in it is looked at again, so that nothing later stumbles over it.

use super::disk;
use super::failure::Failure;
use serde::Deserialize;
use std::collections::BTreeMap;
use std::path::Path;
use yardslip::data::{Fault, Job, Place, broken_promises};
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
    strips: Vec<WrittenStrip>,
}

#[derive(Deserialize)]
struct WrittenSheet {
    kind: String,
    rips: String,
    strips: Vec<String>,
}

#[derive(Deserialize)]
struct WrittenStrip {
    letter: String,
    count: u32,
    panels: Vec<WrittenPiece>,
}

#[derive(Deserialize)]
struct WrittenPiece {
    panel: String,
    extra: bool,
}

/// Every fault of a plan is put right in the same way.
const REMEDY: &str = "give the plan.json from the folder of papers, as `yardslip plan` wrote it";

/// Reads the file.
pub(super) fn read(path: &Path) -> Result<CutPlan, Failure> {
    let name = path.display().to_string();
    let fault = |line: usize, cause: String| {
        let place = Place { file: name.clone(), line, key: String::new() };
        Failure::input(vec![Fault::at(place, cause, REMEDY)])
    };
    let bytes = disk::read(path).content.map_err(|why| fault(0, format!("`{name}` cannot be read: {why}")))?;
    let written: Written = serde_json::from_slice(&bytes).map_err(|error| {
        let told =
            if error.is_data() { error.to_string() } else { "it is not JSON, or a part of it is missing".into() };
        let why = told.rsplit_once(" at line ").map_or(told.as_str(), |(why, _)| why);
        fault(error.line(), format!("`{name}` is no plan: {why}"))
    })?;
    let faults = faults(&written).map(|fault| Fault {
        place: Place { file: name.clone(), ..fault.place },
        remedy: REMEDY.into(),
        ..fault
    });
    let faults: Vec<Fault> = faults.collect();
    if !faults.is_empty() {
        return Err(Failure::input(faults));
    }
    let lettered = written.sheets.iter().flat_map(|sheet| letters(&written.job, sheet)).collect();
    Ok(CutPlan { job: written.job, lettered })
}

fn faults(written: &Written) -> impl Iterator<Item = Fault> {
    broken_promises(&written.job).into_iter().chain(unknown(written)).chain(miscounted(written))
}

/// Sheet kinds, directions and letters that the plan itself does not know.
fn unknown(written: &Written) -> Vec<Fault> {
    let mut faults = Vec::new();
    for (at, sheet) in written.sheets.iter().enumerate() {
        let mut fault =
            |key: &str, cause: String| faults.push(Fault::at(Place::key(format!("sheets[{at}].{key}")), cause, ""));
        if !written.job.sheets.iter().any(|known| known.name == sheet.kind) {
            fault("kind", format!("no sheet of the job is named `{}`", sheet.kind));
        }
        if !["along", "across"].contains(&sheet.rips.as_str()) {
            fault("rips", format!("`{}` is neither `along` nor `across`", sheet.rips));
        }
        let known = |letter: &String| written.strips.iter().any(|strip| strip.letter == *letter);
        if let Some(letter) = sheet.strips.iter().find(|letter| !known(letter)) {
            fault("strips", format!("no strip has the letter `{letter}`"));
        }
    }
    faults
}

/// Panels that the strips give in other numbers than the job asks for.
fn miscounted(written: &Written) -> Vec<Fault> {
    let mut cut: BTreeMap<&str, u64> = BTreeMap::new();
    for strip in &written.strips {
        for piece in strip.panels.iter().filter(|piece| !piece.extra) {
            *cut.entry(piece.panel.as_str()).or_default() += u64::from(strip.count);
        }
    }
    let mut faults = Vec::new();
    let mut fault = |cause: String| faults.push(Fault::at(Place::key("strips"), cause, ""));
    for panel in &written.job.panels {
        let cut = cut.remove(panel.name.as_str()).unwrap_or_default();
        if cut != u64::from(panel.count) {
            fault(format!("the strips give {cut} of panel `{}`, and the job asks for {}", panel.name, panel.count));
        }
    }
    for name in cut.into_keys() {
        fault(format!("no panel of the job is named `{name}`"));
    }
    faults
}

fn letters(job: &Job, sheet: &WrittenSheet) -> Vec<Lettered> {
    let kind = job.sheets.iter().position(|known| known.name == sheet.kind);
    let wood = |letter: &String| Lettered { letter: letter.clone(), sheet: kind, grain_along: sheet.rips == "along" };
    sheet.strips.iter().map(wood).collect()
}
