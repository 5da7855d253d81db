//! `yardslip plan`: from a job file to its papers. The place for them is looked at before the search begins, and nothing
//! is written before every paper is ready.

use super::arguments::{Papers, Plan as Request};
use super::failure::Failure;
use super::folder::Place;
use super::summary::summary;
use super::{interrupt, source, terminal, watch::Clock};
use std::path::{Path, PathBuf};
use yardslip::data::Job;
use yardslip::plan::Plan;

/// Plans the job, writes its papers and prints the summary.
pub(super) fn run(request: &Request) -> Result<(), Failure> {
    let job = source::read_job(&request.job, request.rack.as_deref())?;
    let place = Place::find(&target(&request.papers, &request.job), request.papers.replace)?;
    interrupt::listen();
    let clock = Clock::start(request.time, &job.currency, request.quiet);
    let planned = search(&job, &clock);
    let ended = clock.finish();
    let plan = planned?;
    interrupt::undisturbed(|| place.fill(&[]))?;
    terminal::print(&summary(&job, &plan, ended, place.path()))
}

fn search(job: &Job, clock: &Clock) -> Result<Plan, Failure> {
    let solved = yardslip::solve::solve(job, clock).map_err(Failure::undoable)?;
    Ok(yardslip::plan::lay_out(job, &solved))
}

/// The folder asked for, or one beside the job and named after it.
fn target(papers: &Papers, job: &Path) -> PathBuf {
    papers.out.clone().unwrap_or_else(|| {
        let beside = job.with_extension("");
        if beside == job { job.with_extension("papers") } else { beside }
    })
}
