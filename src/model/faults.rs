//! Why a panel cannot be made: the limits of yard, car and saw are lifted one at a time, and those that would let it
//! through are named, each with a value that would do.

use super::problem::assemble;
use crate::data::{Breakdown, Fault, Job, Place, RipWidths, Rips};
use crate::length::Length;

/// A limit that can be lifted: its key, how to lift it, and what to say.
struct Limit {
    key: &'static str,
    lift: fn(&mut Job),
    says: fn(&Job, &Sides) -> (String, String),
}

/// What a panel asks for, in text.
struct Sides {
    /// The sides as the strip widths they ask for, smaller first.
    asks: [Length; 2],
    longer: Length,
}

/// One fault for each line: the first limit that alone stops it, or that no sheet is large enough.
pub(super) fn explain(job: &Job, lines: &[usize]) -> Vec<Fault> {
    lines.iter().map(|line| explain_line(job, *line)).collect()
}

fn explain_line(job: &Job, line: usize) -> Fault {
    let panel = &job.panels[line];
    let (least_width, least_height) = (panel.width - panel.scant, panel.height - panel.scant);
    let tolerance = job.yard.tolerance;
    let mut asks = [least_width + tolerance, least_height + tolerance];
    asks.sort();
    let sides = Sides { asks, longer: least_width.max(least_height) };
    let stopped = LIMITS.iter().find(|limit| {
        let mut lifted = Job { panels: vec![panel.clone()], ..job.clone() };
        (limit.lift)(&mut lifted);
        assemble(&lifted).makes(0)
    });
    match stopped {
        Some(limit) => {
            let (why, remedy) = (limit.says)(job, &sides);
            let place = Place { key: limit.key.into(), ..Place::default() };
            Fault {
                excerpt: String::new(),
                place,
                cause: format!("panel `{}` cannot be made: {why}", panel.name),
                remedy,
            }
        }
        None => too_large(job, line),
    }
}

fn too_large(job: &Job, line: usize) -> Fault {
    let panel = &job.panels[line];
    let say = |length: Length| length.say(job.units);
    let largest = job.sheets.iter().map(|sheet| (sheet.length, sheet.width)).max();
    let than = largest.map_or("there is no sheet to cut it from".to_string(), |(length, width)| {
        format!("the largest sheet is {} x {}", say(length), say(width))
    });
    Fault {
        excerpt: String::new(),
        place: Place { key: "panel".into(), ..Place::default() },
        cause: format!("panel `{}` is {} x {}, and {than}", panel.name, say(panel.width), say(panel.height)),
        remedy: "ask for a smaller panel, or add a sheet kind that holds it with its ends squared".into(),
    }
}

const LIMITS: [Limit; 12] = [
    Limit {
        key: "yard.narrowest",
        lift: |job| job.yard.narrowest = Length::from_raw(1),
        says: |job, sides| {
            let (limit, need) = (job.yard.narrowest.say(job.units), sides.asks[0].say(job.units));
            (format!("the yard rips nothing narrower than {limit}"), format!("a narrowest rip of {need} would do"))
        },
    },
    Limit {
        key: "yard.widest",
        lift: |job| job.yard.widest = None,
        says: |job, sides| wide("the yard rips nothing wider than", "a widest rip of", job, job.yard.widest, sides),
    },
    Limit {
        key: "saw.crosses",
        lift: |job| job.saw.crosses = None,
        says: |job, sides| {
            wide("the saw crosses nothing wider than", "a saw that crosses", job, job.saw.crosses, sides)
        },
    },
    Limit {
        key: "car.widest",
        lift: |job| job.car.widest = None,
        says: |job, sides| wide("the car takes nothing wider than", "room for", job, job.car.widest, sides),
    },
    Limit {
        key: "car.longest",
        lift: |job| job.car.longest = None,
        says: |job, sides| {
            let limit = job.car.longest.unwrap_or(Length::MAX).say(job.units);
            let need = (sides.longer + job.saw.squaring).say(job.units);
            (
                format!("the car takes nothing longer than {limit}"),
                format!("let the yard make a breakdown crosscut, or find room for {need}"),
            )
        },
    },
    Limit {
        key: "yard.breakdown",
        lift: |job| job.yard.breakdown = Breakdown::Allowed,
        says: |_, _| {
            ("the strips are too long, and the yard makes no crosscut first".into(), "allow the breakdown".into())
        },
    },
    Limit {
        key: "yard.rip_widths",
        lift: |job| job.yard.rip_widths = RipWidths::Any,
        says: |job, sides| {
            let [narrow, wide] = sides.asks.map(|width| width.say(job.units));
            (
                "the yard cuts no strip width that fits either side within its scant".into(),
                format!("a rip of {narrow} or {wide} would do, or more scant, or a saw that trims"),
            )
        },
    },
    Limit {
        key: "saw.shortest",
        lift: |job| job.saw.shortest = Length::ZERO,
        says: |job, sides| {
            let limit = job.saw.shortest.say(job.units);
            let need = (sides.asks[0] - job.yard.tolerance).say(job.units);
            (
                format!("it is shorter than the {limit} that the hand needs, and no strip leaves more to hold"),
                format!("a shortest piece of {need} would do, held by a clamp or jig"),
            )
        },
    },
    Limit {
        key: "yard.rips",
        lift: |job| job.yard.rips = Rips::Either,
        says: |_, _| ("the yard rips sheets one way only".into(), "let it rip \"either\" way".into()),
    },
    Limit {
        key: "panel.grain",
        lift: |job| job.panels[0].grain = crate::data::Grain::Any,
        says: |_, _| ("its face grain lets it lie one way only".into(), "a grain of \"any\" would do".into()),
    },
    Limit {
        key: "saw.squaring",
        lift: |job| job.saw.squaring = Length::ZERO,
        says: |job, sides| {
            let (lost, need) = (job.saw.squaring.say(job.units), sides.longer.say(job.units));
            (
                format!("the squaring cut takes {lost} off each strip"),
                format!("{need} must be left of a strip: less squaring, or a longer sheet"),
            )
        },
    },
    Limit {
        key: "yard.most_cuts",
        lift: |job| job.yard.most_cuts = None,
        says: |_, _| ("the yard makes too few cuts a sheet".into(), "two more cuts would do".into()),
    },
];

/// The words for a limit on how wide a strip may be.
fn wide(limit_says: &str, need_says: &str, job: &Job, limit: Option<Length>, sides: &Sides) -> (String, String) {
    let limit = limit.unwrap_or(Length::MAX).say(job.units);
    let need = sides.asks[0].say(job.units);
    (format!("{limit_says} {limit}"), format!("{need_says} {need} would do"))
}
