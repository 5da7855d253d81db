//! Every panel that comes off: its grain, its size against its line and its strip, the sheet kind it is cut from;
//! and how many there are of each line.

use super::Rule;
use super::findings::Findings;
use super::strips::place;
use crate::data::{Grain, Job, Panel};
use crate::length::Length;
use crate::plan::{Origin, PanelLine, Piece, Plan, Strip, Trim};
use std::collections::BTreeMap;

/// Checks all panels, line by line and strip by strip.
pub(super) fn check(job: &Job, plan: &Plan, found: &mut Findings) {
    for (asked, line) in job.panels.iter().zip(&plan.panels) {
        heading(asked, line, found);
    }
    for strip in &plan.strips {
        for (number, piece) in strip.pieces.iter().enumerate() {
            let place = format!("{}, panel {} ({})", place(strip), number + 1, job.panels[piece.panel].name);
            grain(job, strip, piece, &place, found);
            kind(job, strip, piece, &place, found);
            size(job, plan, strip, piece, &place, found);
        }
    }
    counts(job, plan, found);
    trims(plan, found);
}

/// What the line repeats from the job, and its cut size within what the job allows.
fn heading(asked: &Panel, line: &PanelLine, found: &mut Findings) {
    let place = format!("panel {}", asked.name);
    found.copied(&place, "the name", &line.name, &asked.name);
    found.copied(&place, "the nominal width", &line.width, &asked.width);
    found.copied(&place, "the nominal height", &line.height, &asked.height);
    found.copied(&place, "the count", &line.count, &asked.count);
    for (name, cut, nominal) in [("wide", line.cut_width, asked.width), ("high", line.cut_height, asked.height)] {
        let holds = cut <= nominal && cut >= nominal - asked.scant;
        let words = format!("{} {name} is not within what {} allows", found.say(cut), found.say(nominal));
        found.hold(Rule::PanelSize, holds, &place, || words);
    }
}

/// Upright panels have their grain along their height, level ones along their width.
fn grain(job: &Job, strip: &Strip, piece: &Piece, place: &str, found: &mut Findings) {
    let along_strip = match strip.origin {
        Origin::Sheet { grain_along, .. } => grain_along,
        Origin::OnHand { strip } => job.strips[strip].grain_along,
    };
    // Not turned, the height lies along the strip.
    let along_height = along_strip != piece.turned;
    let runs_right = match job.panels[piece.panel].grain {
        Grain::Any => true,
        Grain::Upright => along_height,
        Grain::Level => !along_height,
    };
    found.hold(Rule::Grain, runs_right, place, || "the face grain runs the wrong way".into());
}

fn kind(job: &Job, strip: &Strip, piece: &Piece, place: &str, found: &mut Findings) {
    let sheet = match strip.origin {
        Origin::Sheet { sheet, .. } => Some(sheet),
        Origin::OnHand { strip } => job.strips[strip].sheet,
    };
    let from = &job.panels[piece.panel].sheets;
    let holds = from.is_empty() || sheet.is_some_and(|sheet| from.contains(&sheet));
    found.hold(Rule::SheetKind, holds, place, || "it may not be cut from this kind of sheet".into());
}

/// A panel's size against its line's and its strip's.
fn size(job: &Job, plan: &Plan, strip: &Strip, piece: &Piece, place: &str, found: &mut Findings) {
    let (line, asked) = (&plan.panels[piece.panel], &job.panels[piece.panel]);
    let (along, across, nominal) = if piece.turned {
        (line.cut_width, line.cut_height, asked.height)
    } else {
        (line.cut_height, line.cut_width, asked.width)
    };
    found.same(Rule::PanelSize, place, "its extent along the strip", piece.length, along);
    let on_hand = matches!(strip.origin, Origin::OnHand { .. });
    // A strip from the yard is counted on only as wide as it is sure to be.
    let sure = if on_hand { strip.width } else { strip.width - job.yard.tolerance };
    if piece.trimmed {
        found.hold(Rule::Trim, job.saw.trims, place, || "nothing can be trimmed at home".into());
        found.same(Rule::PanelSize, place, "its extent across the strip", piece.width, across);
        found.hold(Rule::Trim, piece.width <= sure, place, || "it is wider than its strip is sure to be".into());
        return;
    }
    found.same(Rule::Trim, place, "its extent across the strip, untrimmed,", piece.width, sure);
    if on_hand {
        let holds = piece.width <= nominal && piece.width >= nominal - asked.scant;
        found.hold(Rule::PanelSize, holds, place, || "the strip on hand is not as wide as this panel may be".into());
    } else {
        found.same(Rule::PanelSize, place, "its extent across the strip", piece.width, across);
    }
}

/// Exactly what was asked, and at most the extras.
fn counts(job: &Job, plan: &Plan, found: &mut Findings) {
    let (mut made, mut extras) = (vec![0_u64; job.panels.len()], vec![0_u64; job.panels.len()]);
    for strip in &plan.strips {
        for piece in &strip.pieces {
            let of = if piece.extra { &mut extras } else { &mut made };
            of[piece.panel] += u64::from(strip.count);
        }
    }
    for (at, asked) in job.panels.iter().enumerate() {
        let place = format!("panel {}", asked.name);
        found.equal(Rule::Count, &place, "panels made", made[at], u64::from(asked.count));
        found.equal(Rule::Extra, &place, "extra panels", u64::from(plan.panels[at].extras), extras[at]);
        let holds = extras[at] <= u64::from(asked.extra);
        found.hold(Rule::Extra, holds, &place, || format!("{} extra where {} are wanted", extras[at], asked.extra));
    }
}

/// The list of trims holds every panel that is trimmed, once.
fn trims(plan: &Plan, found: &mut Findings) {
    let mut due: BTreeMap<(usize, usize, Length, Length), u64> = BTreeMap::new();
    for (at, strip) in plan.strips.iter().enumerate() {
        for piece in strip.pieces.iter().filter(|piece| piece.trimmed) {
            *due.entry((piece.panel, at, strip.width, piece.width)).or_default() += u64::from(strip.count);
        }
    }
    let mut listed: BTreeMap<(usize, usize, Length, Length), u64> = BTreeMap::new();
    for Trim { panel, strip, count, from, to } in &plan.trims {
        *listed.entry((*panel, *strip, *from, *to)).or_default() += u64::from(*count);
    }
    found.hold(Rule::Trim, due == listed, "trims", || "the list is not what the strips need".into());
}
