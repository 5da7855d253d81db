//! The yard slip: one page for the people at the yard's saw, understood at a glance, with nothing on it that they don't
//! need. The same orders feed the printed page (`page`) and the screen.

mod order;
mod page;

use super::blocks::{Block, Column, Paper, Table};
use super::drawing;
use super::page_size::PageSize;
use crate::data::Job;
use crate::plan::Plan;
use order::Order;

/// The slip, on one page of this size.
pub fn paper(job: &Job, plan: &Plan, size: PageSize) -> Option<Paper> {
    let orders = order::orders(plan);
    if orders.is_empty() {
        return None;
    }
    let mut paper = Paper::new("yard-slip", "Yard slip");
    for line in order::sheets_wanted(job, plan) {
        paper.heading(line);
    }
    paper.text(order::terms(job, plan));
    for order in &orders {
        screen(&mut paper, plan, order);
    }
    paper.printed = vec![page::page(job, plan, &orders, size)];
    Some(paper)
}

fn screen(paper: &mut Paper, plan: &Plan, order: &Order) {
    paper.heading(order.title.clone());
    for line in &order.first {
        paper.text(line.clone());
    }
    let mut table =
        Table::new([Column::right("width").big(), Column::left("strips").bold(), Column::left("")]).ticked();
    for step in &order.steps {
        table.row([step.figure.clone(), step.letters.clone(), step.notes.join("; ")]);
    }
    paper.table(table);
    paper.blocks.push(Block::Drawing(drawing::sketch(plan, order.group, (120.0, 70.0), order.lettered), String::new()));
}
