//! What the proof of a plan is about. Panels are decided on at their smallest sizes, on strips no wider than they ask; where
//! the yard's cuts are paid for, using a sheet up to the last kerf in another way might save one of them.

use crate::data::{Cents, Job, RipWidths};

/// What is proved of a plan, or would be.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Claim {
    /// Its cost, against every plan for the job but those left out here.
    Cost(Against),
    /// The worth of the panels that strips on hand give.
    Worth,
}

/// The plans that a proof of cost is about; all of them, unless said.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Against {
    /// Only those whose panels come out at their smallest or at nominal sizes.
    pub end_sizes: bool,
    /// Only those whose strips are no wider than a panel asks, before it is trimmed at home.
    pub asked_widths: bool,
}

/// What a proof of this job's cost is about.
pub(super) fn claim(job: &Job) -> Claim {
    let paid = job.yard.cut_price > Cents::ZERO
        && job.sheets.iter().any(|sheet| sheet.edge_trim.is_zero() && sheet.stock != Some(0));
    Claim::Cost(Against { end_sizes: paid && sizes_may_vary(job), asked_widths: paid && job.saw.trims })
}

fn sizes_may_vary(job: &Job) -> bool {
    job.yard.rip_widths == RipWidths::Any && job.panels.iter().any(|panel| panel.scant.is_positive())
}
