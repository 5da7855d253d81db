//! The offcut rack after a plan: its new state goes beside the papers as a proposal, and into the list itself only
//! where the user asks for it; the old list is then kept beside the new one.

use super::arguments::Plan as Request;
use super::disk::{exchange, read, reason};
use super::failure::Failure;
use super::interrupt;
use std::path::Path;
use yardslip::data::{Fault, Job, read_strips, write_strips};
use yardslip::plan::{Plan, rack_after};

/// The proposal's name among the papers.
const NAME: &str = "rack-after.csv";

/// The rack's new state as a paper, where there is a rack.
pub(super) fn proposal(request: &Request, job: &Job, plan: &Plan) -> Result<Option<(String, Vec<u8>)>, Failure> {
    let list = request.rack.as_deref().map(|rack| after(rack, job, plan)).transpose()?;
    Ok(list.map(|list| (NAME.to_owned(), list.into_bytes())))
}

/// Writes the new state into the list where asked; returns what to say about the rack.
pub(super) fn settle(request: &Request, job: &Job, plan: &Plan) -> Result<String, Failure> {
    let Some(rack) = &request.rack else { return Ok(String::new()) };
    if !request.update_rack {
        return Ok(format!("rack    its new state is proposed in {NAME}; `{}` is unchanged\n", rack.display()));
    }
    let list = after(rack, job, plan)?;
    let kept = interrupt::undisturbed(|| exchange(rack, list.as_bytes())).map_err(|error| {
        let cause = format!("the rack `{}` cannot be written: {}", rack.display(), reason(&error));
        let remedy = format!("take its new state from {NAME} among the papers; the list is unchanged");
        Failure::undoable(vec![Fault::anywhere(cause, remedy)])
    })?;
    Ok(format!("rack    `{}` is updated, the old list is kept as {}\n", rack.display(), kept.display()))
}

/// The new state as a list. A job's strips are those of the job file, then those of the rack.
fn after(rack: &Path, job: &Job, plan: &Plan) -> Result<String, Failure> {
    let on_rack = read_strips(&read(rack), job.units, &job.sheets).map_err(Failure::input)?;
    let state = rack_after(job, plan, job.strips.len().saturating_sub(on_rack.len()));
    Ok(write_strips(&state, job.units, &job.sheets))
}
