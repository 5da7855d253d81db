//! Values of a limit that might let a panel through, the least change first. Which of them really do is tried by the
//! caller: here stands only where it is worth looking.

use super::super::sizes::{self, PanelSides};
use crate::data::{Breakdown, Grain, Job, RipWidths, Rips, Sheet};
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

/// Strip widths that the panel could be cut from, ascending.
fn widths(job: &Job) -> Vec<Length> {
    let sides = sides(job);
    let mut widths: Vec<Length> = [sides.width.asked, sides.height.asked].into_iter().flatten().collect();
    if job.saw.trims {
        let wide =
            least(job).map(|side| sizes::permitted(&job.yard.rip_widths, side + job.yard.tolerance, Length::MAX));
        widths.extend(wide.into_iter().flatten());
    }
    widths.sort_unstable();
    widths
}

/// Both extents of every sheet, ascending.
fn extents(job: &Job) -> Vec<Length> {
    let mut extents: Vec<Length> = job.sheets.iter().flat_map(|sheet| [sheet.length, sheet.width]).collect();
    extents.sort_unstable();
    extents
}

pub(super) fn narrowest(_: &Job, lifted: &Job) -> Vec<Change> {
    let to = |width: Length| {
        let words = format!("a narrowest rip of {}", width.say(lifted.units));
        change("yard.narrowest", words, lifted, |job| job.yard.narrowest = width)
    };
    widths(lifted).into_iter().rev().map(to).collect()
}

pub(super) fn widest(_: &Job, lifted: &Job) -> Vec<Change> {
    let to = |width: Length| {
        let words = format!("a widest rip of {}", width.say(lifted.units));
        change("yard.widest", words, lifted, |job| job.yard.widest = Some(width))
    };
    widths(lifted).into_iter().map(to).collect()
}

/// For strips on hand too, whose widths are what they are.
pub(super) fn crosses(_: &Job, lifted: &Job) -> Vec<Change> {
    let to = |width: Length| {
        let words = format!("a saw that crosses {}", width.say(lifted.units));
        change("saw.crosses", words, lifted, |job| job.saw.crosses = Some(width))
    };
    let mut widths: Vec<Length> = widths(lifted);
    widths.extend(lifted.strips.iter().map(|strip| strip.width));
    widths.sort_unstable();
    widths.into_iter().map(to).collect()
}

pub(super) fn room_across(_: &Job, lifted: &Job) -> Vec<Change> {
    let to = |width: Length| {
        let words = format!("room for strips {} wide", width.say(lifted.units));
        change("car.widest", words, lifted, |job| job.car.widest = Some(width))
    };
    widths(lifted).into_iter().map(to).collect()
}

/// A part of a sheet, where the yard may break it down, else the whole of it.
pub(super) fn room_along(_: &Job, lifted: &Job) -> Vec<Change> {
    let to = |length: Length| {
        let words = format!("room for strips {} long", length.say(lifted.units));
        change("car.longest", words, lifted, |job| job.car.longest = Some(length))
    };
    let squared = lifted.sheets.iter().flat_map(|sheet| {
        let lost = lifted.saw.squaring.max(sheet.edge_trim);
        least(lifted).map(|side| side + lost)
    });
    let mut lengths: Vec<Length> = squared.chain(extents(lifted)).collect();
    lengths.sort_unstable();
    lengths.into_iter().map(to).collect()
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

/// As much scant as a frame forgives, where one of the yard's widths then fits; else one more width, whichever side it is
/// for.
pub(super) fn rip_widths(job: &Job, lifted: &Job) -> Vec<Change> {
    let mut changes = scant_for_a_width(job, lifted);
    changes.extend(one_more_width(job, lifted));
    changes
}

/// Frames leave about 1/8 in. of play (common practice, no source).
const FORGIVEN: Length = Length::sixty_fourths(8);

/// What each side lacks to the next narrower width that the yard cuts.
fn scant_for_a_width(job: &Job, lifted: &Job) -> Vec<Change> {
    let panel = &job.panels[0];
    let lacks = |side: Length| {
        let most = side + job.yard.tolerance;
        let width = match &job.yard.rip_widths {
            RipWidths::Any => None,
            RipWidths::Step(step) => Some(most.round_down(*step)),
            RipWidths::Only(list) => list.iter().copied().filter(|width| *width <= most).max(),
        };
        width.map(|width| most - width)
    };
    let mut scants: Vec<Length> = [panel.width, panel.height].into_iter().filter_map(lacks).collect();
    scants.retain(|scant| (panel.scant..=FORGIVEN).contains(scant));
    scants.sort_unstable();
    let to = |scant: Length| {
        change("panel.scant", format!("a scant of {}", scant.say(lifted.units)), lifted, |changed| {
            changed.panels[0].scant = scant;
            changed.yard.rip_widths = job.yard.rip_widths.clone();
        })
    };
    scants.into_iter().map(to).collect()
}

fn one_more_width(job: &Job, lifted: &Job) -> Vec<Change> {
    let to = |width: Length| {
        let said = width.say(lifted.units);
        let (words, list) = match &job.yard.rip_widths {
            RipWidths::Only(list) => (format!("a rip of {said} too"), [list.as_slice(), &[width]].concat()),
            _ => (format!("a rip of {said}, listed in place of the step,"), vec![width]),
        };
        change("yard.rip_widths", words, lifted, |job| job.yard.rip_widths = RipWidths::Only(list))
    };
    let mut asked = widths(lifted);
    asked.dedup();
    asked.into_iter().map(to).collect()
}

pub(super) fn scant(job: &Job, lifted: &Job) -> Vec<Change> {
    let more = job.panels[0].scant + job.yard.tolerance;
    let words = format!("a scant of {}", more.say(lifted.units));
    vec![change("panel.scant", words, lifted, |changed| {
        changed.panels[0].scant = more;
        changed.yard.tolerance = job.yard.tolerance;
    })]
}

pub(super) fn shortest(_: &Job, lifted: &Job) -> Vec<Change> {
    let to = |length: Length| {
        let words = format!("a shortest piece of {}, held by a clamp or jig,", length.say(lifted.units));
        change("saw.shortest", words, lifted, |job| job.saw.shortest = length)
    };
    least(lifted).into_iter().rev().map(to).collect()
}

pub(super) fn rips(_: &Job, lifted: &Job) -> Vec<Change> {
    vec![change("yard.rips", "a yard that rips \"either\" way".into(), lifted, |job| job.yard.rips = Rips::Either)]
}

pub(super) fn grain(_: &Job, lifted: &Job) -> Vec<Change> {
    vec![change("panel.grain", "a grain of \"any\"".into(), lifted, |job| job.panels[0].grain = Grain::Any)]
}

/// What the longest strips leave beside the panel.
pub(super) fn squaring(job: &Job, lifted: &Job) -> Vec<Change> {
    let to = |length: Length| {
        let words = amount("a", "squaring cut", length, lifted);
        change("saw.squaring", words, lifted, |job| job.saw.squaring = length)
    };
    let spare = |extent: Length, trim: Length| least(lifted).map(|side| extent - trim - side);
    let of_sheet = |sheet: &Sheet| [spare(sheet.length, sheet.edge_trim), spare(sheet.width, sheet.edge_trim)].concat();
    let sheets = lifted.sheets.iter().flat_map(of_sheet);
    let strips = lifted.strips.iter().flat_map(|strip| spare(strip.length, Length::ZERO));
    smaller(sheets.chain(strips).collect(), job.saw.squaring, job.rule).into_iter().map(to).collect()
}

pub(super) fn edge_trim(job: &Job, lifted: &Job) -> Vec<Change> {
    let mut changes = Vec::new();
    for (index, sheet) in lifted.sheets.iter().enumerate() {
        let sides = least(lifted).into_iter().chain(widths(lifted));
        let spares = sides.flat_map(|side| [sheet.length - side, sheet.width - side]);
        let trims = spares.flat_map(|spare| [Length::from_raw(spare.raw() / 2), spare - lifted.saw.squaring]).collect();
        for trim in smaller(trims, job.sheets[index].edge_trim, job.rule) {
            let words = format!("{} on `{}`", amount("an", "edge trim", trim, lifted), sheet.name);
            // The other kinds of sheet keep theirs.
            changes.push(change(&format!("sheet[{index}].edge_trim"), words, lifted, |changed| {
                let trims = job.sheets.iter().map(|sheet| sheet.edge_trim);
                changed.sheets.iter_mut().zip(trims).for_each(|(sheet, trim)| sheet.edge_trim = trim);
                changed.sheets[index].edge_trim = trim;
            }));
        }
    }
    changes
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
    (0..lifted.sheets.len()).map(any).collect()
}

pub(super) fn most_cuts(job: &Job, lifted: &Job) -> Vec<Change> {
    let now = job.yard.most_cuts.unwrap_or_default();
    let to = |cuts: u32| {
        change("yard.most_cuts", format!("{cuts} cuts a sheet"), lifted, |job| job.yard.most_cuts = Some(cuts))
    };
    (1..=3).map(|more| to(now.saturating_add(more))).collect()
}

/// These lengths, rounded down to a step that can be read off, and zero, as far as they are smaller than what is asked
/// now; the largest first.
fn smaller(lengths: Vec<Length>, than: Length, step: Length) -> Vec<Length> {
    let rounded = lengths.into_iter().filter(|length| length.is_positive()).map(|length| length.round_down(step));
    let mut lengths: Vec<Length> = rounded.chain([Length::ZERO]).collect();
    lengths.retain(|length| (Length::ZERO..than).contains(length));
    lengths.sort_unstable();
    lengths.reverse();
    lengths
}

/// `a squaring cut of 1/8 in.`, `no squaring cut`
fn amount(one: &str, of: &str, length: Length, job: &Job) -> String {
    if length.is_zero() { format!("no {of}") } else { format!("{one} {of} of {}", length.say(job.units)) }
}
