//! `yardslip plan`: from a job file to its papers. The place for them is looked at before the search begins, and
//! nothing is written before every paper is ready; the rack's list changes last.

use super::arguments::Plan as Request;
use super::comparison::table;
use super::failure::Failure;
use super::folder::Place;
use super::printing::{options, target};
use super::summary::summary;
use super::watch::Clock;
use super::{interrupt, machine, rack, source, terminal};
use yardslip::data::Job;
use yardslip::documents;
use yardslip::plan::{Plan, make, make_and_compare};

/// Plans the job, writes its papers and prints the summary; a failure is told to machines too where they listen.
pub(super) fn run(request: &Request) -> Result<(), Failure> {
    let done = plan(request);
    match &done {
        Err(failure) if request.json => terminal::print(&machine::faults(failure.faults()))?,
        _ => {}
    }
    done
}

fn plan(request: &Request) -> Result<(), Failure> {
    let job = source::read_job(&request.job, request.rack.as_deref())?;
    let place = Place::find(&target(&request.papers, &request.job), request.papers.replace)?;
    interrupt::listen();
    let clock = Clock::start(request.time, &job.currency, request.quiet);
    let planned = search(request, &job, &clock);
    clock.finish();
    let short = clock.was_short();
    let plan = planned?;
    let papers = papers(request, &job, &plan)?;
    let kept = interrupt::undisturbed(|| place.fill(&papers))?;
    let mut text = summary(&job, &plan, place.shown(), short);
    text.extend(kept.map(|folder| format!("kept    what stood there is now in {}\n", folder.display())));
    text += &rack::settle(request, &job, &plan)?;
    text += &table(&plan);
    say(request, &text, &papers)
}

fn search(request: &Request, job: &Job, clock: &Clock) -> Result<Plan, Failure> {
    let planned = if request.compare { make_and_compare(job, clock) } else { make(job, clock) };
    planned.map_err(|faults| source::located(&request.job, faults))
}

fn papers(request: &Request, job: &Job, plan: &Plan) -> Result<Vec<(String, Vec<u8>)>, Failure> {
    let mut papers = documents::papers(job, plan, &options(&request.papers, job.units));
    papers.extend(rack::proposal(request, job, plan)?);
    Ok(papers)
}

fn say(request: &Request, summary: &str, papers: &[(String, Vec<u8>)]) -> Result<(), Failure> {
    if request.json {
        let machines = papers.iter().find(|(name, _)| name == machine::NAME);
        return terminal::print_bytes(machines.map_or(&[], |(_, bytes)| bytes));
    }
    if request.quiet { Ok(()) } else { terminal::print(summary) }
}
