//! What the terminal says about a finished plan: what to buy, what it costs, how much of the wood becomes panels,
//! what is proved, where the papers are. Every figure comes from the plan.

use super::interrupt;
use std::collections::BTreeMap;
use std::path::Path;
use yardslip::data::{Cents, Job};
use yardslip::documents::trouble::troubles;
use yardslip::documents::{later_aims, wording};
use yardslip::plan::{Origin, PanelLine, Plan};

/// Words stand in a column of this width, so that what follows can be found at a glance.
const COLUMN: usize = 8;

/// The summary of a plan whose papers are in a folder; `short` where more time might have helped.
pub(super) fn summary(job: &Job, plan: &Plan, folder: &Path, short: bool) -> String {
    let mut lines = vec![plan.title.clone(), String::new()];
    lines.extend(rows("take", take(job, plan)));
    lines.extend(rows("buy", buy(job, plan)));
    lines.push(row("cost", &cost(plan)));
    lines.extend(rows("in all", in_all(plan)));
    lines.extend(rows("panels", plan.panels.iter().map(|line| panels(plan, line))));
    lines.push(row("use", &format!("{} of the material becomes panels", wording::percent(share(plan)))));
    lines.extend(later_aims::sentences(plan).iter().map(|(word, sentence)| row(word, sentence)));
    lines.push(row("proof", &proof(plan, short)));
    lines.extend(rows("mind", troubles(plan)));
    lines.push(row("papers", &folder.display().to_string()));
    lines.join("\n") + "\n"
}

/// A word and what it stands for.
pub(super) fn row(word: &str, text: &str) -> String {
    format!("{word:<COLUMN$}{text}")
}

/// The word on the first of several rows, nothing on the others.
pub(super) fn rows(word: &str, texts: impl IntoIterator<Item = String>) -> Vec<String> {
    texts.into_iter().enumerate().map(|(n, text)| row(if n == 0 { word } else { "" }, &text)).collect()
}

/// Strips to take from what is on hand, a text for each.
fn take(job: &Job, plan: &Plan) -> Vec<String> {
    let mut counts: BTreeMap<usize, u32> = BTreeMap::new();
    for strip in &plan.strips {
        if let Origin::OnHand { strip: from } = strip.origin {
            *counts.entry(from).or_default() += strip.count;
        }
    }
    let words = |(strip, count): (&usize, &u32)| {
        let strip = &job.strips[*strip];
        let called = format!("{} {}", strip.name, wording::size(plan, strip.width, strip.length));
        format!("{count} x {} from what is on hand", called.trim())
    };
    counts.iter().map(words).collect()
}

/// What everything on the shopping list comes to, where the week takes more than sheets and cuts.
fn in_all(plan: &Plan) -> Option<String> {
    let list = plan.week.shopping.as_ref()?;
    let total = wording::money(plan, list.total);
    let open = list.lines.iter().filter(|line| !line.priced).count();
    let open = if open > 0 { format!(", but for {open} of its lines without a price") } else { String::new() };
    Some(format!("{total} with everything else on the shopping list{open}"))
}

/// Sheets to buy, a text for each kind.
pub(super) fn buy(job: &Job, plan: &Plan) -> Vec<String> {
    let mut counts: BTreeMap<usize, u32> = BTreeMap::new();
    for group in &plan.sheets {
        *counts.entry(group.sheet).or_default() += group.count;
    }
    let kinds: Vec<String> =
        counts.iter().map(|(sheet, count)| format!("{count} x {}", job.sheets[*sheet].name)).collect();
    if kinds.is_empty() { vec!["nothing: the strips on hand are enough".into()] } else { kinds }
}

/// What it costs, and for what.
pub(super) fn cost(plan: &Plan) -> String {
    let money = |cents: Cents| wording::money(plan, cents);
    let cost = plan.cost;
    let cuts = if cost.cuts == Cents::ZERO {
        format!("nothing for the yard's {}", wording::counted(cost.yard_cuts, "cut"))
    } else {
        let all = wording::counted(cost.yard_cuts, "cut");
        format!("{} for {} of the yard's {all}", money(cost.cuts), cost.paid_cuts)
    };
    format!("{}: {} for sheets, {cuts}", money(cost.total), money(cost.sheets))
}

/// How many of a size, and what it comes out at.
pub(super) fn panels(plan: &Plan, line: &PanelLine) -> String {
    let (nominal, cut) = (wording::size(plan, line.width, line.height), wording::cut_size(plan, line));
    let name = wording::called(plan, line);
    let comes_out = if cut == nominal { String::new() } else { format!(", cut {cut}") };
    let extras = if line.extras > 0 { format!(", and {} extra", line.extras) } else { String::new() };
    format!("{} of {name}{extras}{comes_out}", line.count)
}

fn share(plan: &Plan) -> f64 {
    plan.areas.panels.share_of(plan.areas.stock)
}

fn proof(plan: &Plan, short: bool) -> String {
    let advice = match (plan.proof.proved, interrupt::asked()) {
        (false, true) => " You stopped the search.",
        (false, false) if short => " A longer `--time` may settle it.",
        _ => "",
    };
    wording::proof(plan) + advice
}
