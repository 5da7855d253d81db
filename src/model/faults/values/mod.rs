//! Values of a limit that might let a panel through, the least change first. Which of them really do is tried by the
//! caller: here stands only where it is worth looking.

mod across;
mod along;

pub(super) use across::{crosses, narrowest, rip_widths, room_across, scant, widest};
pub(super) use along::{edge_trim, room_along, shortest, squaring};

use super::super::sizes::{self, PanelSides};
use crate::data::{Breakdown, Grain, Job, Rips};
use crate::length::Length;

/// A job with one limit changed.
pub(super) struct Change {
    /// The limit's key, with the number of its section where there are several.
    pub(super) key: String,
    /// The new value in words, so that `would do` can follow.
    pub(super) words: String,
    /// The job with it.
    pub(super) job: Job,
}

fn change(key: &str, words: String, job: &Job, set: impl FnOnce(&mut Job)) -> Change {
    let mut job = job.clone();
    set(&mut job);
    Change { key: key.into(), words, job }
}

fn sides(job: &Job) -> PanelSides {
    sizes::of(job)[0]
}

/// The smallest permitted sides of the panel, the smaller first.
fn least(job: &Job) -> [Length; 2] {
    let sides = sides(job);
    let (width, height) = (sides.width.least, sides.height.least);
    [width.min(height), width.max(height)]
}

pub(super) fn breakdown(_: &Job, lifted: &Job) -> Vec<Change> {
    let ways = [
        (Breakdown::IfNeeded, "a breakdown crosscut where strips are too long for the car"),
        (Breakdown::Allowed, "a breakdown crosscut wherever it helps"),
    ];
    let to = |(breakdown, words): (Breakdown, &str)| {
        change("yard.breakdown", words.into(), lifted, |job| job.yard.breakdown = breakdown)
    };
    ways.map(to).into()
}

pub(super) fn rips(_: &Job, lifted: &Job) -> Vec<Change> {
    vec![change("yard.rips", "a yard that rips \"either\" way".into(), lifted, |job| job.yard.rips = Rips::Either)]
}

pub(super) fn grain(_: &Job, lifted: &Job) -> Vec<Change> {
    vec![change("panel.grain", "a grain of \"any\"".into(), lifted, |job| job.panels[0].grain = Grain::Any)]
}

pub(super) fn stock(job: &Job, lifted: &Job) -> Vec<Change> {
    let gone = job.sheets.iter().enumerate().filter(|(_, sheet)| sheet.stock == Some(0));
    let change = gone.map(|(index, sheet)| {
        change(&format!("sheet[{index}].stock"), format!("a stock of `{}`", sheet.name), lifted, |changed| {
            let stocks = job.sheets.iter().map(|sheet| sheet.stock);
            changed.sheets.iter_mut().zip(stocks).for_each(|(sheet, stock)| sheet.stock = stock);
            changed.sheets[index].stock = Some(1);
        })
    });
    change.collect()
}

pub(super) fn kinds(_: &Job, lifted: &Job) -> Vec<Change> {
    let any = |index: usize| {
        let words = format!("letting it be cut from `{}`", lifted.sheets[index].name);
        change("panel.sheets", words, lifted, |job| job.panels[0].sheets = vec![index])
    };
    let words = "letting it be cut from any kind, strips of an unknown kind included,".into();
    let all = change("panel.sheets", words, lifted, |job| job.panels[0].sheets = Vec::new());
    (0..lifted.sheets.len()).map(any).chain([all]).collect()
}

pub(super) fn most_cuts(job: &Job, lifted: &Job) -> Vec<Change> {
    let now = job.yard.most_cuts.unwrap_or_default();
    let to = |cuts: u32| {
        change("yard.most_cuts", format!("{cuts} cuts a sheet"), lifted, |job| job.yard.most_cuts = Some(cuts))
    };
    (1..=3).map(|more| to(now.saturating_add(more))).collect()
}
