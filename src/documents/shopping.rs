//! The shopping list: sheets and cuts, what they cost, what the car carries home.

use super::blocks::{Column, Paper, Table};
use super::{assumptions, cautions, week, wording};
use crate::data::{Cents, Job};
use crate::length::Length;
use crate::plan::{Note, Origin, Plan, Stage, Strip};

/// The shopping list.
pub fn paper(job: &Job, plan: &Plan) -> Paper {
    let mut paper = Paper::new("shopping-list", "Shopping list");
    match &plan.week.shopping {
        Some(list) => week::add_shopping(&mut paper, plan, list),
        None if plan.sheets.is_empty() => paper.text("Nothing to buy."),
        None => paper.table(purchases(job, plan)),
    }
    let about = if plan.week.shopping.is_some() { "Sheets and cuts: " } else { "" };
    paper.text(format!("{about}{}", wording::proof(plan)));
    match &plan.week.shopping {
        Some(list) => week::panel_costs(&mut paper, plan, list),
        None => each(plan).into_iter().for_each(|sentence| paper.text(sentence)),
    }
    paper.list(false, on_hand(job, plan));
    paper.list(false, notes(plan, &[Stage::Shop, Stage::Yard]));
    let load = load(plan);
    if !load.rows.is_empty() {
        paper.heading("For the car");
        paper.table(load);
    }
    paper.list(false, notes(plan, &[Stage::Car]));
    if !plan.sheets.is_empty() {
        paper.caution(cautions::lifting());
    }
    assumptions::add(&mut paper, plan, &["sheet", "strip", "yard", "car", "keep", "finish", "canvas", "glue"]);
    paper
}

/// Sheets by kind, then the yard's cuts, then the total.
fn purchases(job: &Job, plan: &Plan) -> Table {
    let columns = [Column::left("buy").bold(), Column::left("size"), Column::right("how many").big()];
    let mut table = Table::new(columns.into_iter().chain([Column::right("each"), Column::right("together")])).ticked();
    for (at, kind) in job.sheets.iter().enumerate() {
        let count: u32 = plan.sheets.iter().filter(|group| group.sheet == at).map(|group| group.count).sum();
        if count > 0 {
            let sides = (kind.width.min(kind.length), kind.width.max(kind.length));
            let size = format!("{} {}", wording::size(plan, sides.0, sides.1), plan.units.sign());
            let (each, together) = (kind.price, kind.price * i64::from(count));
            table.row([kind.name.clone(), size, count.to_string(), money(plan, each), money(plan, together)]);
        }
    }
    let (cuts, paid) = (plan.cost.yard_cuts, plan.cost.paid_cuts);
    if cuts > 0 {
        let charged = plan.cost.cuts > Cents::ZERO;
        let which = if charged { format!("{paid} of them paid") } else { "nothing charged".into() };
        let each = if charged { money(plan, job.yard.cut_price) } else { String::new() };
        table.row(["the yard's cuts".into(), which, cuts.to_string(), each, money(plan, plan.cost.cuts)]);
    }
    table.total(["total".into(), String::new(), String::new(), String::new(), money(plan, plan.cost.total)]);
    table
}

fn money(plan: &Plan, amount: Cents) -> String {
    wording::money(plan, amount)
}

/// The cost shared equally among the panels; nothing where nothing is bought.
fn each(plan: &Plan) -> Option<String> {
    if plan.cost.total == Cents::ZERO {
        return None;
    }
    let panels: i64 = plan.panels.iter().map(|line| i64::from(line.count + line.extras)).sum();
    let cents = (2 * plan.cost.total.0 + panels).checked_div(2 * panels)?;
    Some(format!("That is {} a panel on average, for {panels} panels.", money(plan, Cents(cents))))
}

/// What is taken from the rack instead of bought.
fn on_hand(job: &Job, plan: &Plan) -> Vec<String> {
    let taken = |strip: &Strip| match strip.origin {
        Origin::Sheet { .. } => None,
        Origin::OnHand { strip: at } => {
            let size = wording::size(plan, strip.width, strip.length);
            let name = &job.strips[at].name;
            let known = name.trim().eq_ignore_ascii_case(&strip.letter);
            let letter = if known { String::new() } else { format!(", as strip {}", strip.letter) };
            let called = format!("{name} {size}");
            Some(format!("Take from what is on hand: {} of {}{letter}.", strip.count, called.trim()))
        }
    };
    plan.strips.iter().filter_map(taken).collect()
}

fn notes(plan: &Plan, stages: &[Stage]) -> Vec<String> {
    let here = |note: &&Note| stages.contains(&note.stage);
    plan.notes.iter().filter(here).map(|note| note.text.clone()).collect()
}

fn load(plan: &Plan) -> Table {
    let mut table = Table::new([Column::left("load"), Column::right("figure").bold()]);
    let say = |length: Length| length.say(plan.units);
    if !plan.load.longest.is_positive() {
        return table;
    }
    table.row(["longest piece".into(), say(plan.load.longest)]);
    table.row(["widest piece".into(), say(plan.load.widest)]);
    if let Some(kg) = plan.load.weight {
        table.row(["strips and what is left over, together".into(), wording::weight(plan.units, kg)]);
    }
    if plan.load.trips > 1 {
        table.row(["trips".into(), plan.load.trips.to_string()]);
    }
    table
}
