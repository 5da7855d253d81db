//! The other ways to do a job: each the same job with one thing changed. A way that changes nothing is left out.

use crate::data::{Job, Panel, Rips, Sheet};
use crate::length::{Length, RAW_PER_MM, Unit};

/// A job with one thing changed.
#[derive(Clone, Debug)]
pub(super) struct Way {
    /// What is different.
    pub(super) name: String,
    /// The changed job.
    pub(super) job: Job,
}

/// Other sizes: nominal where scant is allowed; what the usual play of a frame would buy where none is; no squaring
/// cut.
pub(super) fn sizes(job: &Job) -> Vec<Way> {
    let ways = [at_nominal(job), with_scant(job), unsquared(job)];
    ways.into_iter().flatten().collect()
}

/// Other stock, other rips, another blade.
pub(super) fn others(job: &Job) -> Vec<Way> {
    alone(job).into_iter().chain(directions(job)).chain(thin_kerf(job)).collect()
}

fn way(name: impl Into<String>, job: &Job, change: impl FnOnce(&mut Job)) -> Way {
    let mut changed = job.clone();
    change(&mut changed);
    Way { name: name.into(), job: changed }
}

fn set_scant(job: &mut Job, scant: Length) {
    let least = |panel: &Panel| panel.width.min(panel.height);
    job.panels.iter_mut().filter(|panel| least(panel) > scant).for_each(|panel| panel.scant = scant);
}

/// The same job at nominal sizes.
pub(crate) fn nominal(job: &Job) -> Job {
    let mut changed = job.clone();
    set_scant(&mut changed, Length::ZERO);
    changed
}

fn at_nominal(job: &Job) -> Option<Way> {
    let scant = job.panels.iter().any(|panel| panel.scant.is_positive());
    scant.then(|| Way { name: "at nominal size".into(), job: nominal(job) })
}

/// Frames leave about 1/8 in. of play (common practice, no source); 3 mm in metric jobs.
fn with_scant(job: &Job) -> Option<Way> {
    let scant = if job.units == Unit::In { Length::sixty_fourths(8) } else { Length::mm(3) };
    let none = job.panels.iter().all(|panel| panel.scant.is_zero());
    let name = || format!("up to {} under size", scant.say(job.units));
    none.then(|| way(name(), job, |job| set_scant(job, scant)))
}

fn unsquared(job: &Job) -> Option<Way> {
    let squared = job.saw.squaring.is_positive();
    squared.then(|| way("without the squaring cut", job, |job| job.saw.squaring = Length::ZERO))
}

/// Each sheet kind with none of the others to be had.
fn alone(job: &Job) -> Vec<Way> {
    let offered: Vec<usize> = (0..job.sheets.len()).filter(|sheet| job.sheets[*sheet].stock != Some(0)).collect();
    if offered.len() < 2 {
        return Vec::new();
    }
    let only = |kept: usize| {
        way(format!("only {}", job.sheets[kept].name), job, |job| {
            let others = job.sheets.iter_mut().enumerate().filter(|(index, _)| *index != kept);
            others.for_each(|(_, sheet): (usize, &mut Sheet)| sheet.stock = Some(0));
        })
    };
    offered.into_iter().map(only).collect()
}

fn directions(job: &Job) -> Vec<Way> {
    let all = [
        (Rips::Along, "all rips along the sheet"),
        (Rips::Across, "all rips across the sheet"),
        (Rips::Either, "rips along or across, sheet by sheet"),
    ];
    let other = all.into_iter().filter(|(rips, _)| *rips != job.yard.rips);
    other.map(|(rips, name)| way(name, job, |job| job.yard.rips = rips)).collect()
}

/// Thin kerf blades take 3/32 in. (printed in the tables of four trade pages; 2.4 mm in metric ones).
fn thin_kerf(job: &Job) -> Option<Way> {
    let thin = if job.units == Unit::In { Length::sixty_fourths(6) } else { Length::from_raw(24 * RAW_PER_MM / 10) };
    let thicker = job.yard.kerf > thin || job.saw.kerf > thin;
    let name = || format!("thin blades, {} at both saws", thin.say(job.units));
    thicker.then(|| {
        way(name(), job, |job| {
            job.yard.kerf = job.yard.kerf.min(thin);
            job.saw.kerf = job.saw.kerf.min(thin);
        })
    })
}
