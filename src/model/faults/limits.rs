//! The limits that can stop a panel, in the order in which one would rather hear of them.

use super::values::{self, Change};
use crate::data::{Breakdown, Grain, Job, RipWidths, Rips};
use crate::length::Length;

/// A limit that can be lifted.
pub(super) struct Limit {
    /// Its key in the job file, to tell limits apart.
    pub(super) key: &'static str,
    /// What stops the panel, in words.
    pub(super) says: fn(&Job) -> String,
    /// Takes it out of the way altogether.
    pub(super) lift: fn(&mut Job),
    /// Values that might do, the least change first: from the job as it is, and the job with limits lifted.
    pub(super) values: fn(&Job, &Job) -> Vec<Change>,
}

pub(super) const LIMITS: [Limit; 16] = [
    Limit {
        key: "yard.narrowest",
        says: |job| format!("the yard rips nothing narrower than {}", job.yard.narrowest.say(job.units)),
        lift: |job| job.yard.narrowest = Length::from_raw(1),
        values: values::narrowest,
    },
    Limit {
        key: "yard.widest",
        says: |job| format!("the yard rips nothing wider than {}{}", said(job, job.yard.widest), asked_wider(job)),
        lift: |job| job.yard.widest = None,
        values: values::widest,
    },
    Limit {
        key: "saw.crosses",
        says: |job| format!("the saw crosses nothing wider than {}", said(job, job.saw.crosses)),
        lift: |job| job.saw.crosses = None,
        values: values::crosses,
    },
    Limit {
        key: "car.widest",
        says: |job| format!("the car takes nothing wider than {}", said(job, job.car.widest)),
        lift: |job| job.car.widest = None,
        values: values::room_across,
    },
    Limit {
        key: "yard.breakdown",
        says: |_| "the strips are too long for the car, and the yard makes no crosscut first".into(),
        lift: |job| job.yard.breakdown = Breakdown::Allowed,
        values: values::breakdown,
    },
    Limit {
        key: "car.longest",
        says: |job| format!("the car takes nothing longer than {}", said(job, job.car.longest)),
        lift: |job| job.car.longest = None,
        values: values::room_along,
    },
    Limit {
        key: "yard.rip_widths",
        says: |_| "the yard cuts no strip width that fits either side within its scant".into(),
        lift: |job| job.yard.rip_widths = RipWidths::Any,
        values: values::rip_widths,
    },
    Limit {
        key: "panel.scant",
        says: |job| {
            let tolerance = job.yard.tolerance.say(job.units);
            format!("the yard cuts good to {tolerance}, and a strip asked that much wider than the panel is too wide")
        },
        lift: |job| job.yard.tolerance = Length::ZERO,
        values: values::scant,
    },
    Limit {
        key: "saw.shortest",
        says: |job| {
            let limit = job.saw.shortest.say(job.units);
            format!("it is shorter than the {limit} that the hand needs, and no strip leaves more to hold")
        },
        lift: |job| job.saw.shortest = Length::ZERO,
        values: values::shortest,
    },
    Limit {
        key: "saw.squaring",
        says: |job| format!("the squaring cut takes {} off each strip", job.saw.squaring.say(job.units)),
        lift: |job| job.saw.squaring = Length::ZERO,
        values: values::squaring,
    },
    Limit {
        key: "yard.rips",
        says: |_| "the yard rips sheets one way only".into(),
        lift: |job| job.yard.rips = Rips::Either,
        values: values::rips,
    },
    Limit {
        key: "panel.grain",
        says: |_| "its face grain lets it lie one way only".into(),
        lift: |job| job.panels[0].grain = Grain::Any,
        values: values::grain,
    },
    Limit {
        key: "yard.most_cuts",
        says: |job| format!("the yard makes no more than {} cuts a sheet", job.yard.most_cuts.unwrap_or(u32::MAX)),
        lift: |job| job.yard.most_cuts = None,
        values: values::most_cuts,
    },
    Limit {
        key: "sheet.edge_trim",
        says: |_| "too little is left of a sheet whose edges are trimmed".into(),
        lift: |job| job.sheets.iter_mut().for_each(|sheet| sheet.edge_trim = Length::ZERO),
        values: values::edge_trim,
    },
    Limit {
        key: "sheet.stock",
        says: |_| "no sheet that holds it can be had".into(),
        lift: |job| job.sheets.iter_mut().for_each(|sheet| sheet.stock = None),
        values: values::stock,
    },
    Limit {
        key: "panel.sheets",
        says: |_| "the sheet kinds it may be cut from do not hold it".into(),
        lift: |job| job.panels[0].sheets = Vec::new(),
        values: values::kinds,
    },
];

fn said(job: &Job, limit: Option<Length>) -> String {
    limit.unwrap_or(Length::MAX).say(job.units)
}

/// Why a strip must be wider than its panel, where the yard is not exact.
fn asked_wider(job: &Job) -> String {
    if job.yard.tolerance.is_zero() {
        return String::new();
    }
    format!(", and a strip is asked for {} wider than its panel (its tolerance)", job.yard.tolerance.say(job.units))
}
