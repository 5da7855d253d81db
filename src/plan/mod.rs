//! The plan: numbered sheets, lettered strips, positioned panels, cuts in order, and every figure the papers print.
//!
//! In reading order: [`types`] what a plan holds; `sizes` and `grow` what each panel comes out at; `order` what is cut
//! when; `lettering`, `sheet_groups`, `saw_order` where it lies; then money, offcuts, weights and notes.

mod types;
mod alternative;
mod sides;
mod sizes;
mod measure;
mod grow;
mod order;
mod lettering;
mod sheet_groups;
mod saw_order;
mod money;
mod offcuts;
mod weigh;
mod lines;
mod load;
mod notes;
pub mod week;

pub use alternative::{Alternative, Figures, Outcome};
pub use types::*;

use crate::data::Job;
use crate::solve::Solved;

/// Lays a solved job out: grows scant panels back, orders the rips and cuts, letters, positions and adds up.
pub fn lay_out(job: &Job, solved: &Solved) -> Plan {
    let sizes = grow::grow(job, solved);
    let sheets = order::sheets(job, solved, &sizes);
    let on_hand = order::on_hand(job, solved, &sizes);
    let lettered = lettering::letter(job, &sheets, &on_hand, &sizes);
    let strips = lettered.strips;
    let groups = sheet_groups::groups(job, &sheets, &lettered.places);
    let offcuts = offcuts::offcuts(job, &groups, &strips);
    let plan = Plan {
        title: job.title.clone(),
        units: job.units,
        currency: job.currency.clone(),
        cost: money::cost(job, &sheets, &sizes),
        proof: solved.proof,
        levels: solved.levels.clone(),
        yard: sheet_groups::yard(&sheets),
        panels: lines::lines(job, &strips, &sizes),
        stops: saw_order::stops(job, &strips),
        trims: saw_order::trims(&strips),
        areas: lines::areas(&groups, &strips, &offcuts),
        load: load::load(job, &groups, &strips),
        notes: Vec::new(),
        comparison: Vec::new(),
        week: week::Week::default(),
        assumptions: job.assumptions.clone(),
        sheets: groups,
        strips,
        offcuts,
    };
    Plan { notes: notes::notes(job, &plan), ..plan }
}
