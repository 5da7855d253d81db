//! Jobs so tiny that everything can be tried: one to three lines of a few panels on sheets that take only some of them,
//! with every shop rule of the made-up jobs.

use crate::jobs::len;
use crate::made_up_jobs::jobs;
use proptest::option;
use proptest::prelude::*;
use proptest::sample::select;
use yardslip::data::*;
use yardslip::length::{Length, Unit};

/// Tiny jobs that no sheet is broken down for.
pub(crate) fn tiny_jobs() -> impl Strategy<Value = Job> {
    let sheets = prop::collection::vec((sheet_size(), price(), option::weighted(0.2, 1..5_u32)), 1..4);
    (jobs(), sheets, prop::collection::vec(option::weighted(0.6, usual()), 3)).prop_map(|(mut job, sheets, usual)| {
        job.sheets = kinds(&job, &sheets);
        job.panels.truncate(3);
        let most = [6, 6, 4, 3][job.panels.len()];
        for (panel, usual) in job.panels.iter_mut().zip(usual) {
            panel.count = (panel.count - 1) % most + 1;
            panel.sheets.retain(|kind| *kind < job.sheets.len());
            if let Some((width, height)) = usual {
                let name = format!("{}, in fact {} x {}", panel.name, width.show(Unit::In), height.show(Unit::In));
                (panel.width, panel.height, panel.name) = (width, height, name);
            }
        }
        job.strips.iter_mut().for_each(|strip| strip.count = strip.count.min(2));
        job
    })
}

/// The sheets of a job as many and as large as these.
fn kinds(job: &Job, sheets: &[((Length, Length), Cents, Option<u32>)]) -> Vec<Sheet> {
    let trims = |at: usize| job.sheets[at % job.sheets.len()].clone();
    let kinds = sheets.iter().enumerate().map(|(at, ((length, width), price, stock))| Sheet {
        name: format!("kind {}", at + 1),
        length: *length,
        width: *width,
        price: *price,
        stock: *stock,
        ..trims(at)
    });
    kinds.collect()
}

fn sheet_size() -> impl Strategy<Value = (Length, Length)> {
    let among = |texts: &'static [&'static str]| select(texts).prop_map(len);
    (among(&["36", "24", "30", "48", "60"]), among(&["24", "20", "18", "23 15/16", "32"]))
}

fn price() -> impl Strategy<Value = Cents> {
    prop_oneof![select(vec![1000, 1500, 1800]).prop_map(Cents), (500..3000_i64).prop_map(Cents)]
}

/// Sides that share strips more often than any would.
fn usual() -> impl Strategy<Value = (Length, Length)> {
    let size = select(vec![(8, 10), (5, 7), (6, 8), (6, 6), (9, 12), (10, 10), (11, 14), (12, 16), (8, 8)]);
    size.prop_map(|(width, height)| (Length::inches(width), Length::inches(height)))
}
