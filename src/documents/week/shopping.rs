//! One shopping list for the run: sheets, cuts, canvas, filler, sealer, glue, paper; one total, and what a panel costs.

use crate::data::SQUARE_FOOT;
use crate::data::week::{Amount, Measure};
use crate::documents::blocks::{Column, Paper, Table};
use crate::documents::wording;
use crate::length::Unit;
use crate::plan::Plan;
use crate::plan::week::{Need, Shopping, ShoppingLine};

/// Adds the list and how each need was reckoned.
pub(crate) fn add(paper: &mut Paper, plan: &Plan, list: &Shopping) {
    paper.table(purchases(plan, list));
    let unpriced: Vec<String> = list.lines.iter().filter(|line| !line.priced).map(|line| line.what.clone()).collect();
    if !unpriced.is_empty() {
        paper.text(format!(
            "Not in the total, since the job names no packages and prices: {}.",
            wording::and(&unpriced)
        ));
    }
    let reckoned = list.lines.iter().map(|line| format!("{}: {}", line.what, line.reckoned));
    paper.list(false, reckoned.collect());
}

/// What a panel of each line costs.
pub(crate) fn each(paper: &mut Paper, plan: &Plan, list: &Shopping) {
    let mut table = Table::new([Column::left("panel").bold(), Column::right("how many"), Column::right("each costs")]);
    for cost in &list.each {
        let line = &plan.panels[cost.panel];
        let count = (line.count + line.extras).to_string();
        table.row([wording::called(plan, line), count, wording::money(plan, cost.each)]);
    }
    paper.heading("What a panel costs");
    paper.table(table);
    paper.text("Each panel's share, by area, of everything it uses; rounded to the cent.");
}

fn purchases(plan: &Plan, list: &Shopping) -> Table {
    let columns = [Column::left("for").bold(), Column::right("needed"), Column::left("buy").big()];
    let mut table = Table::new(columns.into_iter().chain([Column::right("each"), Column::right("together")])).ticked();
    for line in &list.lines {
        for row in rows(plan, line) {
            table.row(row);
        }
    }
    let blank = String::new;
    table.total(["total".into(), blank(), blank(), blank(), wording::money(plan, list.total)]);
    table
}

/// A row for each package; what is needed stands on the first.
fn rows(plan: &Plan, line: &ShoppingLine) -> Vec<[String; 5]> {
    let needed = need(plan, line.need);
    if line.buy.is_empty() {
        let cost = if line.priced { wording::money(plan, line.cost) } else { "?".into() };
        return vec![[line.what.clone(), needed, String::new(), String::new(), cost]];
    }
    let row = |(at, bought): (usize, &crate::plan::week::Bought)| {
        let first = at == 0;
        let together = bought.each * i64::from(bought.count);
        let buy = match line.need {
            Need::Count(_) => bought.count.to_string(),
            Need::Length(_) if bought.count == 1 => bought.name.clone(),
            _ => format!("{} x {}", bought.count, bought.name),
        };
        [
            if first { line.what.clone() } else { String::new() },
            if first { needed.clone() } else { String::new() },
            buy,
            wording::money(plan, bought.each),
            wording::money(plan, together),
        ]
    };
    line.buy.iter().enumerate().map(row).collect()
}

fn need(plan: &Plan, need: Need) -> String {
    match need {
        Need::Count(count) => count.to_string(),
        Need::Length(length) => length.say(plan.units),
        Need::Amount(amount, measure) => say(amount, measure, plan.units),
    }
}

/// Quarts and gallons, or litres; square feet or square metres.
fn say(amount: Amount, measure: Measure, units: Unit) -> String {
    let metric = amount.to_metric(measure);
    match (measure, units) {
        (Measure::Volume, Unit::In) if metric < 0.946_352_946 => format!("{:.1} fl oz", metric / 0.029_573_53),
        (Measure::Volume, Unit::In) => format!("{:.2} qt", metric / 0.946_352_946),
        (Measure::Volume, _) => format!("{metric:.2} l"),
        (Measure::Area, Unit::In) => format!("{:.1} sq ft", metric / SQUARE_FOOT),
        (Measure::Area, _) => format!("{metric:.2} m2"),
        (Measure::Sheets, _) => {
            if metric > 1.0 {
                format!("{metric:.0} sheets")
            } else {
                "1 sheet".into()
            }
        }
    }
}
