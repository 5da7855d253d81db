//! What to say where there are too few sheets: how many more would do.

use super::layout::Layout;
use super::money::{Money, NoPlan, least};
use super::watch::{Progress, Watch};
use crate::data::{Cents, Fault, Job, Place};
use crate::model;

/// Seconds to find out how many sheets are missing.
const MOMENT: f64 = 1.0;

/// A watch that stops after a moment.
struct Moment<'a> {
    watch: &'a dyn Watch,
    until: f64,
}

impl Watch for Moment<'_> {
    fn stop(&self) -> bool {
        self.watch.stop() || self.seconds() > self.until
    }
    fn seconds(&self) -> f64 {
        self.watch.seconds()
    }
    fn allowed(&self) -> f64 {
        self.until
    }
    fn report(&self, progress: Progress) {
        self.watch.report(progress);
    }
}

/// The fault of a job for which there are too few sheets, or no plan was found in the time.
pub(super) fn too_few(job: &Job, why: NoPlan, watch: &dyn Watch) -> Fault {
    let place = Place { key: "sheet.stock".into(), ..Place::default() };
    let missing = missing(job, &Moment { watch, until: watch.seconds() + MOMENT });
    let about = match &missing {
        Some((sheets, true)) => sheets.to_string(),
        Some((sheets, false)) => format!("up to {sheets}"),
        None => "some".into(),
    };
    let sheets = if about == "1" { "sheet is" } else { "sheets are" };
    let (cause, remedy) = match why {
        NoPlan::Impossible => (
            format!("{about} more {sheets} needed than can be had"),
            "raise `stock`, add a sheet kind, or ask for fewer panels",
        ),
        NoPlan::NotFound => (
            format!("no plan was found in the time with the sheets that can be had; with {about} more there is one"),
            "allow more time, raise `stock`, add a sheet kind, or ask for fewer panels",
        ),
    };
    Fault { place, excerpt: String::new(), cause, remedy: remedy.into() }
}

/// The least number of sheets beyond the stock that would do, and whether it is proved to be the least.
fn missing(job: &Job, watch: &dyn Watch) -> Option<(u32, bool)> {
    let more = with_more(job);
    let stocked = job.sheets.len();
    let problem = model::build(&more).ok()?;
    let Money { draft, cost, bound } = least(&problem, watch).ok()?;
    let beyond = |layout: &Layout| problem.rippings[layout.ripping].sheet >= stocked;
    let sheets = draft.layouts.iter().filter(|(layout, _)| beyond(layout)).map(|(_, copies)| copies).sum();
    Some((sheets, bound >= cost || bound / BEYOND == cost / BEYOND))
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
