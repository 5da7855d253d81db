//! Defaults that the plan used, printed on the paper where they matter, each with where it comes from.

use super::blocks::{Column, Paper, Table};
use crate::data::Assumption;
use crate::plan::Plan;

/// Adds the defaults of these sections of the job file to a paper, such as `saw` for `saw.kerf`.
pub fn add(paper: &mut Paper, plan: &Plan, sections: &[&str]) {
    let mine = |assumption: &&Assumption| sections.contains(&section(&assumption.key));
    let mut table = Table::new([Column::left("assumed"), Column::left("value"), Column::left("where it comes from")]);
    for assumption in plan.assumptions.iter().filter(mine) {
        table.row([&assumption.key, &assumption.value, &assumption.origin]);
    }
    if !table.rows.is_empty() {
        paper.heading("Assumed, since the job file does not say");
        paper.table(table);
    }
}

/// `sheet` of `sheet.tolerance`.
fn section(key: &str) -> &str {
    key.split('.').next().unwrap_or(key)
}
