//! The papers of the finishing week: canvas plan, press plan, calendar, labels, packing; each only where the job asks
//! for it. Their figures all stand in [`Plan::week`].

mod calendar;
mod canvas;
mod cautions;
mod chart;
mod labels;
mod machine;
mod moments;
mod names;
mod packing;
mod press;
mod roll;
mod shopping;
mod small_print;
mod stacks;

pub(super) use machine::week as machine_copy;
pub(super) use moments::duration;
pub(super) use shopping::{add as add_shopping, each as panel_costs};

use super::blocks::Paper;
use super::page_size::PageSize;
use crate::data::Job;
use crate::plan::Plan;

/// The papers of the week in the order of the work.
pub fn papers(job: &Job, plan: &Plan, size: PageSize) -> Vec<Paper> {
    let mut papers: Vec<Paper> = Vec::new();
    papers.extend(canvas::paper(job, plan));
    papers.extend(press::paper(job, plan));
    papers.extend(calendar::paper(plan));
    papers.extend(labels::papers(plan, size));
    papers.extend(packing::paper(job, plan));
    papers
}
