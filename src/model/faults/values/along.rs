//! Limits on how long a strip or a piece may be, and on what is lost of a strip or a sheet.

use super::across::widths;
use super::{Change, change, least};
use crate::data::{Job, Sheet};
use crate::length::Length;

/// Both extents of every sheet, ascending.
fn extents(job: &Job) -> Vec<Length> {
    let mut extents: Vec<Length> = job.sheets.iter().flat_map(|sheet| [sheet.length, sheet.width]).collect();
    extents.sort_unstable();
    extents
}

/// A part of a sheet, where the yard may break it down, else the whole of it.
pub(in crate::model::faults) fn room_along(_: &Job, lifted: &Job) -> Vec<Change> {
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

pub(in crate::model::faults) fn shortest(_: &Job, lifted: &Job) -> Vec<Change> {
    let to = |length: Length| {
        let words = format!("a shortest piece of {}, held by a clamp or jig,", length.say(lifted.units));
        change("saw.shortest", words, lifted, |job| job.saw.shortest = length)
    };
    least(lifted).into_iter().rev().map(to).collect()
}

/// What the longest strips leave beside the panel.
pub(in crate::model::faults) fn squaring(job: &Job, lifted: &Job) -> Vec<Change> {
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

pub(in crate::model::faults) fn edge_trim(job: &Job, lifted: &Job) -> Vec<Change> {
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
