//! The batch on one paper: what it costs, what each size comes out at, what is proved, what is left over, how other
//! ways to do it compare.

use super::blocks::{Column, Paper, Table};
use super::{assumptions, comparison, later_aims, trouble, wording};
use crate::data::Cents;
use crate::length::{Length, Unit};
use crate::plan::{Offcut, Plan};

/// The overview.
pub fn paper(plan: &Plan) -> Paper {
    let mut paper = Paper::new("overview", "The batch");
    paper.figure(wording::money(plan, plan.cost.total), wording::bought(plan));
    for trouble in trouble::troubles(plan) {
        paper.text(trouble);
    }
    paper.list(false, points(plan));
    paper.heading("Panels");
    paper.table(panels(plan));
    left_over(&mut paper, plan);
    comparison::add(&mut paper, plan);
    assumptions::add(&mut paper, plan, &["panel", "rule", "units", "currency", "title"]);
    paper
}

/// Shares and proofs in sentences.
fn points(plan: &Plan) -> Vec<String> {
    let share = wording::percent(plan.areas.panels.share_of(plan.areas.stock));
    let mut points = vec![format!("{share} of the material becomes panels."), wording::proof(plan)];
    if let Some(shopping) = &plan.week.shopping {
        let all = wording::money(plan, shopping.total);
        points.insert(0, format!("{all} with everything else on the shopping list."));
    }
    points.extend(later_aims::sentences(plan).into_iter().map(|(_, sentence)| sentence));
    points
}

fn panels(plan: &Plan) -> Table {
    let extras = plan.panels.iter().any(|line| line.extras > 0);
    let weights = plan.panels.iter().any(|line| line.weight.is_some());
    let mut columns = vec![Column::left("panel").bold(), Column::left("comes out at"), Column::right("wanted")];
    columns.extend(extras.then(|| Column::right("extra")));
    columns.extend(weights.then(|| Column::right("weight of one")));
    let mut table = Table::new(columns);
    for line in &plan.panels {
        let mut cells = vec![wording::called(plan, line), wording::cut_size(plan, line), line.count.to_string()];
        cells.extend(extras.then(|| line.extras.to_string()));
        cells.extend(weights.then(|| line.weight.map_or_else(String::new, |kg| wording::weight(plan.units, kg))));
        table.row(cells);
    }
    table
}

/// Offcuts that somebody may pick up; slivers are counted out in a sentence.
fn left_over(paper: &mut Paper, plan: &Plan) {
    let least = if plan.units == Unit::In { Length::inches(1) } else { Length::mm(25) };
    let sliver = |left: &&Offcut| left.worth == Cents::ZERO && left.width.min(left.length) < least;
    let (slivers, listed): (Vec<&Offcut>, Vec<&Offcut>) = plan.offcuts.iter().partition(sliver);
    if listed.is_empty() {
        return;
    }
    paper.heading("Left over");
    paper.table(offcuts(plan, &listed));
    if !slivers.is_empty() {
        paper.text(format!("Slivers narrower than {} are not listed.", least.say(plan.units)));
    }
}

fn offcuts(plan: &Plan, listed: &[&Offcut]) -> Table {
    let kept = listed.iter().any(|offcut| offcut.worth > Cents::ZERO);
    let mut columns = vec![Column::left("size").bold(), Column::right("how many"), Column::left("from")];
    columns.extend(kept.then(|| Column::right("worth keeping")));
    let mut table = Table::new(columns);
    for offcut in listed {
        let worth = if offcut.worth > Cents::ZERO { wording::money(plan, offcut.worth) } else { String::new() };
        let size = wording::size(plan, offcut.width, offcut.length);
        let mut cells = vec![size, offcut.count.to_string(), offcut.from.clone()];
        cells.extend(kept.then_some(worth));
        table.row(cells);
    }
    table
}
