//! What to say where there are too few sheets: how many more would do.

use super::money::{Money, NoPlan, least};
use super::share::Share;
use super::watch::Watch;
use crate::data::{Cents, Fault, Job, Place, Sheet};
use crate::model;
use std::collections::BTreeMap;

/// How a fault begins that time alone may mend.
pub(crate) const NOT_FOUND: &str = "no plan was found in the time";

/// Seconds to find out how many sheets are missing.
const MOMENT: f64 = 1.0;

/// Sheets beyond the stock that would do.
struct Missing {
    /// How many of each kind.
    kinds: BTreeMap<usize, u32>,
    /// Whether fewer would not do.
    least: bool,
}

/// The fault of a job for which there are too few sheets, or no plan was found in the time.
pub(super) fn too_few(job: &Job, why: NoPlan, watch: &dyn Watch) -> Fault {
    if job.sheets.is_empty() {
        let cause = "the strips on hand do not give all panels, and there is no sheet to cut the rest from";
        return Fault::anywhere(cause, "add a section `[[sheet]]`, or ask for fewer panels");
    }
    let unlimited = |sheet: &Sheet| sheet.stock.is_none();
    if matches!(why, NoPlan::NotFound) && job.sheets.iter().all(unlimited) {
        return Fault::anywhere(NOT_FOUND, "allow more time");
    }
    let missing = missing(job, &Share::of(MOMENT, watch));
    let about = about(missing.as_ref());
    let sheets = if about == "1" { "sheet is" } else { "sheets are" };
    let (cause, first) = match why {
        NoPlan::Impossible => (format!("{about} more {sheets} needed than can be had"), ""),
        NoPlan::NotFound => (
            format!("{NOT_FOUND} with the sheets that can be had; with {about} more there is one"),
            "allow more time, ",
        ),
    };
    let kinds = missing.map(|missing| missing.kinds).unwrap_or_default();
    let key = kinds.keys().next().map_or_else(|| "sheet.stock".into(), |kind| format!("sheet[{kind}].stock"));
    let remedy = format!("{first}raise {}, add a sheet kind, or ask for fewer panels", stocks(job, &kinds));
    Fault::at(Place::key(key), cause, remedy)
}

fn about(missing: Option<&Missing>) -> String {
    let Some(Missing { kinds, least }) = missing else { return "some".into() };
    let sheets: u32 = kinds.values().sum();
    if *least { sheets.to_string() } else { format!("up to {sheets}") }
}

/// `` `stock` to 4 ``, with the sheets' names where there are several kinds.
fn stocks(job: &Job, kinds: &BTreeMap<usize, u32>) -> String {
    let to = |(kind, more): (&usize, &u32)| {
        let sheet = &job.sheets[*kind];
        let of = if job.sheets.len() > 1 { format!(" of `{}`", sheet.name) } else { String::new() };
        format!("`stock`{of} to {}", sheet.stock.unwrap_or_default() + more)
    };
    let stocks: Vec<String> = kinds.iter().map(to).collect();
    if stocks.is_empty() { "`stock`".into() } else { stocks.join(" and ") }
}

/// The fewest sheets beyond the stock that would do, as far as the time allows.
fn missing(job: &Job, watch: &dyn Watch) -> Option<Missing> {
    let more = with_more(job);
    let stocked = job.sheets.len();
    let problem = model::build(&more).ok()?;
    let Money { draft, cost, bound } = least(&problem, watch).ok()?;
    let mut kinds = BTreeMap::new();
    for (layout, copies) in &draft.layouts {
        if let Some(kind) = problem.rippings[layout.ripping].sheet.checked_sub(stocked) {
            *kinds.entry(kind).or_default() += copies;
        }
    }
    Some(Missing { kinds, least: bound >= cost || bound / BEYOND == cost / BEYOND })
}

/// What a sheet beyond the stock counts, where one in stock counts 1.
const BEYOND: i64 = 1_000_000;

/// The job with as many sheets as needed beyond the stock, each dearer than all in stock.
fn with_more(job: &Job) -> Job {
    let mut more = job.clone();
    more.yard.cut_price = Cents::ZERO;
    let stocked = more.sheets.len();
    for at in 0..stocked {
        let mut beyond = more.sheets[at].clone();
        more.sheets[at].price = Cents(1);
        beyond.price = Cents(BEYOND);
        beyond.stock = None;
        more.sheets.push(beyond);
    }
    for panel in &mut more.panels {
        let twins: Vec<usize> = panel.sheets.iter().map(|sheet| sheet + stocked).collect();
        panel.sheets.extend(twins);
    }
    more
}
