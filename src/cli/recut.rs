//! `yardslip recut`: plans the crosscuts again from the strips that the yard really cut. Papers for what must be made
//! good from new sheets stand in the same folder, their names beginning with `missing-`.

use super::arguments::Recut as Request;
use super::failure::Failure;
use super::folder::Place;
use super::printing::options;
use super::summary::{buy, cost, panels, row, rows};
use super::watch::Clock;
use super::{cut_plan, disk, interrupt, terminal};
use std::path::{Path, PathBuf};
use yardslip::data::{Job, StripOnHand, read_strips};
use yardslip::documents::{papers, wording};
use yardslip::length::Unit;
use yardslip::plan::{Done, Over, Recut, Unused, recognise, recut};

/// What the names of papers for missing panels begin with.
const MISSING: &str = "missing-";

/// Reads the plan and the strips, plans the crosscuts again, writes their papers and prints what comes of it.
pub(super) fn run(request: &Request) -> Result<(), Failure> {
    let plan = cut_plan::read(&request.plan)?;
    let mut strips =
        read_strips(&disk::read(&request.strips), plan.job.units, &plan.job.sheets).map_err(Failure::input)?;
    recognise(&mut strips, &plan.lettered);
    let place = Place::find(&target(request), request.papers.replace)?;
    interrupt::listen();
    let clock = Clock::start(request.time, &plan.job.currency, request.quiet);
    let planned = recut(&plan.job, strips, &clock);
    clock.finish();
    let again = planned.map_err(Failure::undoable)?;
    interrupt::undisturbed(|| place.fill(&all_papers(request, &again)))?;
    if request.quiet { Ok(()) } else { terminal::print(&text(&plan.job, &again, place.shown())) }
}

/// The folder asked for, or one beside the plan's, named after it.
fn target(request: &Request) -> PathBuf {
    let beside = || {
        let folder = disk::folder_of(&request.plan);
        let named = folder.file_name().is_some();
        let folder = if named { Ok(folder.to_owned()) } else { folder.canonicalize() };
        let folder = folder.unwrap_or_else(|_| disk::folder_of(&request.plan).to_owned());
        let name = folder.file_name().map_or_else(|| "plan".into(), |name| name.to_string_lossy().into_owned());
        folder.with_file_name(format!("{name}-recut"))
    };
    request.papers.out.clone().unwrap_or_else(beside)
}

fn all_papers(request: &Request, again: &Recut) -> Vec<(String, Vec<u8>)> {
    let made = |done: &Done| papers(&done.job, &done.plan, &options(&request.papers, done.job.units));
    let mut all = again.done.as_ref().map(made).unwrap_or_default();
    if let Some(Ok(good)) = &again.good {
        all.extend(made(good).into_iter().map(|(name, bytes)| (format!("{MISSING}{name}"), bytes)));
    }
    all
}

fn text(job: &Job, again: &Recut, folder: &Path) -> String {
    let (title, units) = (&job.title, job.units);
    let mut lines = vec![format!("{title}: crosscuts planned again"), String::new()];
    match &again.done {
        Some(done) => {
            lines.extend(rows("panels", done.plan.panels.iter().map(|line| panels(&done.plan, line))));
            lines.push(row("proof", &wording::proof(&done.plan)));
        }
        None => lines.push(row("panels", "none can be made of these strips")),
    }
    lines.extend(rows("missing", again.missing.iter().map(|missing| format!("{} of {}", missing.count, missing.name))));
    lines.extend(rows("over", again.over.iter().map(|over| wide(over, units))));
    lines.extend(rows("unused", again.unused.iter().map(|unused| left(unused, units))));
    lines.extend(again.good.iter().flat_map(made_good));
    lines.push(row("papers", &folder.display().to_string()));
    lines.join("\n") + "\n"
}

/// Strips a little too wide, and what that means.
fn wide(over: &Over, units: Unit) -> String {
    let by = over.by.say(units);
    format!("{}: what is cut comes out {by} over size, within the yard's tolerance", strips(&over.strip, units))
}

/// Strips by number, name and size.
fn strips(strip: &StripOnHand, units: Unit) -> String {
    let size = format!("{} x {}", strip.width.show(units), strip.length.show(units));
    format!("{} x {}", strip.count, format!("{} {size}", strip.name).trim())
}

/// Strips that nothing is cut from, and why.
fn left(unused: &Unused, units: Unit) -> String {
    let Unused { strip, fits, too_wide } = unused;
    let why = match too_wide {
        Some(over) => format!("{} wider than a panel may come out, and nothing is trimmed at home", over.say(units)),
        None if *fits => "not needed".into(),
        None => "no panel comes off a strip of this size".into(),
    };
    format!("{}: {why}", strips(strip, units))
}

/// What making good takes, or why it cannot be done.
fn made_good(good: &Result<Done, Vec<yardslip::data::Fault>>) -> Vec<String> {
    match good {
        Ok(done) => {
            let mut lines = rows("buy", buy(&done.job, &done.plan));
            lines.push(row("cost", &format!("{}, to make them good (papers `{MISSING}...`)", cost(&done.plan))));
            lines
        }
        Err(faults) => rows("buy", faults.iter().map(|fault| format!("they cannot be made good: {}", fault.cause))),
    }
}
