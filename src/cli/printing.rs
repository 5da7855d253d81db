//! Where a job's papers go and what they are printed on, from what the user asked and what the job is.

use super::arguments::{Paper, Papers};
use std::path::{Path, PathBuf};
use yardslip::documents::Options;
use yardslip::documents::page_size::PageSize;
use yardslip::length::Unit;

/// The folder asked for, or one beside the job and named after it.
pub(super) fn target(papers: &Papers, job: &Path) -> PathBuf {
    papers.out.clone().unwrap_or_else(|| {
        let beside = job.with_extension("");
        if beside == job { job.with_extension("papers") } else { beside }
    })
}

/// The page size asked for, or the one that goes with the units. No date: the same job gives the same bytes.
pub(super) fn options(papers: &Papers, units: Unit) -> Options {
    let page = match (papers.paper, units) {
        (Some(Paper::Letter), _) | (None, Unit::In) => PageSize::Letter,
        (Some(Paper::A4), _) | (None, Unit::Mm | Unit::Cm) => PageSize::A4,
    };
    Options { page, date: None }
}
