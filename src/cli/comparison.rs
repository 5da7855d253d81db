//! The comparison as a table for the terminal: other ways to do the job, solved side by side.

use yardslip::plan::{Alternative, Outcome, Plan};

/// Room for an alternative's name.
const NAME: usize = 34;

/// The table, after an empty line; nothing where nothing was compared.
pub(super) fn table(plan: &Plan) -> String {
    if plan.comparison.len() < 2 {
        return String::new();
    }
    let heading = format!("{:<NAME$} {:>6} {:>10} {:>6} {:>8}", "compared with", "sheets", "cost", "waste", "layouts");
    let rows = plan.comparison.iter().map(|row| line(plan, row));
    let lines: Vec<String> = [String::new(), heading].into_iter().chain(rows).collect();
    lines.join("\n") + "\n"
}

fn line(plan: &Plan, row: &Alternative) -> String {
    match &row.outcome {
        Outcome::Not(why) => format!("{:<NAME$} not possible: {why}", row.name),
        Outcome::Late => format!("{:<NAME$} not found out in the time", row.name),
        Outcome::Done(figures) => {
            let cost = figures.cost.in_currency(&plan.currency);
            let waste = format!("{:.0} %", 100.0 * figures.waste());
            let proved = if figures.proved { "" } else { "  not proved" };
            format!("{:<NAME$} {:>6} {cost:>10} {waste:>6} {:>8}{proved}", row.name, figures.sheets, figures.layouts)
        }
    }
}
