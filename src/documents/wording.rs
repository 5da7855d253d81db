//! Figures of the plan in the words of the papers: sizes, counts, money, weights, shares.

use crate::data::{Cents, KG_PER_POUND};
use crate::length::{Length, Unit};
use crate::plan::{Against, Claim, PanelLine, Plan};

/// `11 7/8 x 15 7/8`, in the plan's units.
pub fn size(plan: &Plan, width: Length, height: Length) -> String {
    format!("{} x {}", width.show(plan.units), height.show(plan.units))
}

/// The size a panel comes out at.
pub fn cut_size(plan: &Plan, line: &PanelLine) -> String {
    size(plan, line.cut_width, line.cut_height)
}

/// What a panel line is called: its name, with the size where the name does not say it.
pub fn called(plan: &Plan, line: &PanelLine) -> String {
    let nominal = size(plan, line.width, line.height);
    let plain = |text: &str| text.replace([' ', '"'], "").to_lowercase();
    if plain(&line.name) == plain(&nominal) || line.name.starts_with(|c: char| c.is_ascii_digit()) {
        line.name.clone()
    } else {
        format!("{} ({nominal})", line.name)
    }
}

/// `1 sheet`, `3 sheets`.
pub fn counted(count: u32, one: &str) -> String {
    if count == 1 { format!("1 {one}") } else { format!("{count} {one}s") }
}

/// An amount with the job's currency sign: `$38.50`.
pub fn money(plan: &Plan, amount: Cents) -> String {
    amount.in_currency(&plan.currency)
}

/// What the cost is for: `for 2 sheets`, with `and the yard's cuts` where they are paid; `nothing to buy`.
pub fn bought(plan: &Plan) -> String {
    if plan.cost.sheets_bought == 0 {
        return "nothing to buy".into();
    }
    let sheets = counted(plan.cost.sheets_bought, "sheet");
    if plan.cost.cuts > Cents::ZERO { format!("for {sheets} and the yard's cuts") } else { format!("for {sheets}") }
}

/// A weight in pounds for jobs in inches, else in kilograms; to the tenth under ten.
pub fn weight(units: Unit, kg: f64) -> String {
    let (figure, sign) = if units == Unit::In { (kg / KG_PER_POUND, "lb") } else { (kg, "kg") };
    if figure < 10.0 { format!("{figure:.1} {sign}") } else { format!("{figure:.0} {sign}") }
}

/// A share as a percentage to the tenth, rounded down: never 100 where anything is missing.
pub fn percent(share: f64) -> String {
    format!("{:.1} %", (share * 1000.0).floor() / 10.0)
}

/// What is proved of the plan, in plain words.
pub fn proof(plan: &Plan) -> String {
    let (bound, cost) = (money(plan, plan.proof.bound), money(plan, plan.cost.total));
    match (plan.claim, plan.proof.proved) {
        (Claim::Cost(against), true) if against == Against::default() => {
            "Proved: no plan for this job costs less.".into()
        }
        (Claim::Cost(against), true) => format!("Proved: no plan{} costs less.{}", with(against), but(against)),
        (Claim::Cost(_), false) if plan.proof.bound <= Cents::ZERO => {
            format!("Not proved: a cheaper plan may exist; this one costs {cost}.")
        }
        (Claim::Cost(against), false) => {
            format!("Not proved: no plan{} can cost less than {bound}; this one costs {cost}.", with(against))
        }
        (Claim::Worth, true) => "Proved: these strips give no panels of more worth.".into(),
        (Claim::Worth, false) => "Not proved: these strips may give panels of more worth.".into(),
    }
}

/// What the plans that a proof is not about might save.
fn but(against: Against) -> String {
    let cut = " Another way to use a sheet up to the last kerf might save one of the yard's cuts.";
    let strip = " A size between might let different panels share a strip.";
    let held = " A size between might make a piece long enough to hold.";
    let way = " Panels of a size that all lie one way might be cut smaller still.";
    let told =
        [(against.last_cut, cut), (against.shared_strips, strip), (against.held_pieces, held), (against.one_way, way)];
    told.into_iter().filter(|(told, _)| *told).map(|(_, words)| words).collect()
}

/// The plans that a proof is about, where it is not about all.
fn with(against: Against) -> String {
    let sizes = "panels at their smallest or at nominal sizes".to_owned();
    let widths = "strips no wider than a panel asks".to_owned();
    let limits: Vec<String> =
        [against.end_sizes.then_some(sizes), against.asked_widths.then_some(widths)].into_iter().flatten().collect();
    if limits.is_empty() { String::new() } else { format!(" with {}", and(&limits)) }
}

/// `Sheet 3`, `Sheets 3 to 5`: the numbers of a group's sheets.
pub fn numbers(number: u32, count: u32) -> String {
    if count == 1 { format!("Sheet {number}") } else { format!("Sheets {number} to {}", number + count - 1) }
}

/// Words one after the other: `A`, `A and B`, `A, B and C`.
pub fn and(words: &[String]) -> String {
    match words {
        [] => String::new(),
        [one] => one.clone(),
        [first @ .., last] => format!("{} and {last}", first.join(", ")),
    }
}

/// Equal neighbours counted together, in their order.
pub fn runs<T: PartialEq + Copy>(values: impl IntoIterator<Item = T>) -> Vec<(T, u32)> {
    let mut runs: Vec<(T, u32)> = Vec::new();
    for value in values {
        match runs.last_mut() {
            Some((last, count)) if *last == value => *count += 1,
            _ => runs.push((value, 1)),
        }
    }
    runs
}

/// The panels of a strip in cutting order: `6 of 12 x 16, 2 of 8 x 10`.
pub fn panels(plan: &Plan, pieces: impl IntoIterator<Item = usize>) -> String {
    let run = |(panel, count): (usize, u32)| format!("{count} of {}", plan.panels[panel].name);
    runs(pieces).into_iter().map(run).collect::<Vec<_>>().join(", ")
}
