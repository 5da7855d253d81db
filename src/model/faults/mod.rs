//! Why a panel cannot be made: the limits of yard, car and saw are lifted, and those that alone or together stop it are
//! named, each with a value that would do. Every value is tried before it is told.

mod limits;
mod values;

use super::problem::assemble;
use crate::data::{Fault, Job, Place};
use crate::length::Length;
use limits::{LIMITS, Limit};

/// One fault for each line: the fewest limits that stop it, or that no sheet is large enough.
pub(super) fn explain(job: &Job, lines: &[usize]) -> Vec<Fault> {
    lines.iter().map(|line| explain_line(job, *line)).collect()
}

fn explain_line(job: &Job, line: usize) -> Fault {
    let alone = Job { panels: vec![job.panels[line].clone()], ..job.clone() };
    let stopping = stopping(&alone);
    match remedy(&alone, &stopping) {
        Some((key, remedy)) => {
            let why: Vec<String> = stopping.iter().map(|limit| (limit.says)(&alone)).collect();
            let cause = format!("panel `{}` cannot be made: {}", alone.panels[0].name, why.join(", and "));
            Fault::at(Place::key(key.replace("panel.", &format!("panel[{line}]."))), cause, remedy)
        }
        None => too_large(&alone, line),
    }
}

/// The first limit that alone stops the only panel of a job, else the fewest that do so together; none where the panel
/// cannot be made however they are lifted.
fn stopping(job: &Job) -> Vec<&'static Limit> {
    let made = |limits: &[&Limit]| makes(&lifted(job, limits));
    if let Some(one) = LIMITS.iter().find(|limit| made(&[limit])) {
        return vec![one];
    }
    let mut stopping: Vec<&Limit> = LIMITS.iter().collect();
    if !made(&stopping) {
        return Vec::new();
    }
    for limit in LIMITS.iter().rev() {
        let others: Vec<&Limit> = stopping.iter().copied().filter(|other| other.key != limit.key).collect();
        if made(&others) {
            stopping = others;
        }
    }
    stopping
}

fn lifted(job: &Job, limits: &[&Limit]) -> Job {
    let mut lifted = job.clone();
    for limit in limits {
        (limit.lift)(&mut lifted);
    }
    lifted
}

fn makes(job: &Job) -> bool {
    assemble(job).makes(0)
}

/// Values of these limits with which the panel can be made, in words, and the key of the first; nothing where no limit
/// stops it, or no value is known that would do.
fn remedy(job: &Job, stopping: &[&Limit]) -> Option<(String, String)> {
    let mut changed = lifted(job, stopping);
    let mut told = Vec::new();
    for limit in stopping {
        let change = (limit.values)(job, &changed).into_iter().find(|change| makes(&change.job))?;
        changed = change.job;
        told.push((change.key, change.words));
    }
    let words: Vec<&str> = told.iter().map(|(_, words)| words.as_str()).collect();
    let remedy = format!("{} would do", words.join(" and "));
    told.into_iter().next().map(|(key, _)| (key, remedy))
}

fn too_large(job: &Job, line: usize) -> Fault {
    let panel = &job.panels[0];
    let say = |length: Length| length.say(job.units);
    let largest = job.sheets.iter().map(|sheet| (sheet.length, sheet.width)).max();
    let than = largest.map_or("there is no sheet to cut it from".to_string(), |(length, width)| {
        format!("the largest sheet is {} x {}", say(length), say(width))
    });
    let cause = format!("panel `{}` is {} x {}, and {than}", panel.name, say(panel.width), say(panel.height));
    let remedy = "ask for a smaller panel, or add a sheet kind that holds it with its ends squared";
    Fault::at(Place::key(format!("panel[{line}].size")), cause, remedy)
}
