//! Other ways to do the same job, solved side by side.

use super::blocks::{Column, Paper, Table};
use super::wording;
use crate::plan::{Alternative, Figures, Outcome, Plan};

/// Adds the comparison to a paper, where one was made.
pub fn add(paper: &mut Paper, plan: &Plan) {
    if plan.comparison.is_empty() {
        return;
    }
    paper.heading("Side by side");
    let words = [Column::left("way").bold(), Column::right("sheets").bold(), Column::right("cost").bold()];
    let figures =
        [Column::right("waste"), Column::right("layouts"), Column::left("panels come out at"), Column::left("proved")];
    let mut table = Table::new(words.into_iter().chain(figures));
    for alternative in &plan.comparison {
        table.row(row(plan, alternative));
    }
    paper.table(table);
    paper.text("The same job done in other ways; where nothing is proved, it may be done for less.");
}

fn row(plan: &Plan, alternative: &Alternative) -> [String; 7] {
    let name = alternative.name.clone();
    match &alternative.outcome {
        Outcome::Done(figures) => [
            name,
            figures.sheets.to_string(),
            wording::money(plan, figures.cost),
            wording::percent(figures.waste()),
            figures.layouts.to_string(),
            sizes(plan, figures),
            if figures.proved { "yes" } else { "no" }.into(),
        ],
        Outcome::Not(why) => said(name, format!("cannot be done: {why}")),
        Outcome::Late => said(name, "not found out in the time".into()),
    }
}

/// A row without figures.
fn said(name: String, words: String) -> [String; 7] {
    let none = String::new;
    [name, none(), none(), none(), none(), words, none()]
}

/// The sizes in a few words where they are the nominal ones or those of this plan, else all that are not nominal.
fn sizes(plan: &Plan, figures: &Figures) -> String {
    let planned = plan.panels.iter().map(|line| (line.cut_width, line.cut_height));
    let cut = plan.panels.iter().zip(&figures.sizes);
    let scant = cut.filter(|(line, (width, height))| (line.width, line.height) != (*width, *height));
    let sizes: Vec<String> = scant.map(|(_, (width, height))| wording::size(plan, *width, *height)).collect();
    match sizes.is_empty() {
        true => "nominal size".into(),
        false if planned.eq(figures.sizes.iter().copied()) => "the sizes of this plan".into(),
        false => sizes.join(", "),
    }
}
