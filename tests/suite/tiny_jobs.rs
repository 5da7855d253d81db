//! Jobs so tiny that everything can be tried: one to three lines of a few panels on sheets that take only some of them,
//! with every shop rule of the made-up jobs.

use crate::jobs::{len, sheet};
use crate::made_up_jobs::jobs;
use proptest::option;
use proptest::prelude::*;
use proptest::sample::select;
use yardslip::data::*;
use yardslip::length::{Length, Unit};

/// Tiny jobs that no sheet is broken down for.
pub(crate) fn tiny_jobs() -> impl Strategy<Value = Job> {
    (jobs(), sheet_kinds(), prop::collection::vec(option::weighted(0.6, usual()), 3)).prop_map(
        |(mut job, sheets, usual)| {
            job.sheets = sheets;
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
        },
    )
}

/// Tiny jobs for which sheets may be crosscut before they are ripped, some of them because the car asks for it.
pub(crate) fn jobs_to_break_down() -> impl Strategy<Value = Job> {
    let longest = option::of(select(vec!["20", "24", "30", "36"]).prop_map(len));
    (tiny_jobs(), longest, select(vec![Breakdown::Allowed, Breakdown::IfNeeded])).prop_map(
        |(mut job, longest, breakdown)| {
            (job.car.longest, job.yard.breakdown) = (longest, breakdown);
            job
        },
    )
}

/// A sheet kind that takes only some of the panels of a tiny job.
pub(crate) fn sheet_kind() -> impl Strategy<Value = Sheet> {
    let trims = prop_oneof![3 => Just(Length::ZERO), 1 => select(vec!["1/4", "1/2"]).prop_map(len)];
    (sheet_size(), price(), option::weighted(0.2, 1..5_u32), trims).prop_map(
        |((length, width), price, stock, edge_trim)| Sheet {
            length,
            width,
            price,
            stock,
            edge_trim,
            ..sheet("", "1", "1")
        },
    )
}

/// One to three kinds, each with a name of its own.
fn sheet_kinds() -> impl Strategy<Value = Vec<Sheet>> {
    prop::collection::vec(sheet_kind(), 1..4).prop_map(|mut kinds| {
        for (at, kind) in kinds.iter_mut().enumerate() {
            kind.name = format!("kind {}", at + 1);
        }
        kinds
    })
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
