//! Where the yard makes a breakdown crosscut. The solver puts it where one board is just long enough; here it moves to
//! a round measure near the middle of what both boards leave, so that it is easy to lay out and panels of either board
//! can grow back towards their nominal size.

use super::{BoardUse, Direction, PieceCut, SheetUse};
use crate::data::Job;
use crate::length::{Length, Unit};
use crate::model::sizes::{self, PanelSides};
use std::collections::{BTreeMap, BTreeSet};

/// All that makes a layout, but where its crosscut lies.
type Alike = (usize, Direction, Vec<Vec<Length>>);

/// Moves the crosscuts; sheets that were ripped alike stay alike, and those that were not stay different.
pub(super) fn settle(job: &Job, sheets: &mut [SheetUse]) {
    let sides = sizes::of(job);
    let mut groups: BTreeMap<(Alike, Vec<Length>), Vec<usize>> = BTreeMap::new();
    for (at, used) in sheets.iter().enumerate().filter(|(_, used)| used.boards.len() == 2) {
        groups.entry((alike(used), lengths(used))).or_default().push(at);
    }
    let mut taken: BTreeSet<(Alike, Vec<Length>)> = groups.keys().cloned().collect();
    for ((alike, before), group) in groups {
        let used: Vec<&SheetUse> = group.iter().map(|at| &sheets[*at]).collect();
        let rest = before[0] + before[1];
        let Some(first) = place(job, &sides, &used, rest) else { continue };
        let after = vec![first, rest - first];
        if taken.contains(&(alike.clone(), after.clone())) {
            continue;
        }
        taken.remove(&(alike.clone(), before));
        for at in group {
            sheets[at].boards.iter_mut().zip(&after).for_each(|(board, length)| board.length = *length);
        }
        taken.insert((alike, after));
    }
}

fn alike(used: &SheetUse) -> Alike {
    let widths = |board: &BoardUse| {
        let mut widths: Vec<Length> = board.strips.iter().map(|strip| strip.width).collect();
        widths.sort_unstable();
        widths
    };
    (used.sheet, used.direction, used.boards.iter().map(widths).collect())
}

fn lengths(used: &SheetUse) -> Vec<Length> {
    used.boards.iter().map(|board| board.length).collect()
}

/// A round measure for the first board of these sheets in the middle half of what is possible, `rest` being what both
/// boards have together; none where there is no such measure.
fn place(job: &Job, sides: &[PanelSides], sheets: &[&SheetUse], rest: Length) -> Option<Length> {
    let first_end = job.saw.squaring.max(job.sheets[sheets[0].sheet].edge_trim);
    let needs = |at: usize| {
        let strips = sheets.iter().flat_map(|used| &used.boards[at].strips);
        strips.map(|strip| first_end + row(job, sides, &strip.pieces)).max()
    };
    let (one, other) = (needs(0), needs(1));
    let longest = job.car.longest.unwrap_or(rest);
    let bare = Length::from_raw(1).max(job.sheets[sheets[0].sheet].edge_trim - job.yard.kerf);
    let least = one.unwrap_or(bare).max(if other.is_some() { rest - longest } else { bare });
    let most = (rest - other.unwrap_or(bare)).min(if one.is_some() { longest } else { rest - bare });
    let slack = most - least;
    let (from, to) = (least.raw() + slack.raw() / 4, most.raw() - slack.raw() / 4);
    // The yard measures the longer board.
    let second = least + least < rest;
    let (from, to) = if second { (rest.raw() - to, rest.raw() - from) } else { (from, to) };
    let round = |unit: Length| to.div_euclid(unit.raw()) * unit.raw();
    let measure = measures(job.units).into_iter().map(round).find(|board| from <= *board && *board > 0);
    measure.map(Length::from_raw).map(|board| if second { rest - board } else { board })
}

/// What a strip of these pieces needs, its first end squared.
fn row(job: &Job, sides: &[PanelSides], pieces: &[PieceCut]) -> Length {
    let along = |piece: &PieceCut| {
        let sides = &sides[piece.panel];
        if piece.turned { sides.width.least } else { sides.height.least }
    };
    let kerfs = i64::try_from(pieces.len()).expect("pieces are few") - 1;
    let row = pieces.iter().map(along).fold(job.saw.kerf * kerfs.max(0), |sum, along| sum + along);
    let held = pieces.iter().map(along).any(|along| along >= job.saw.shortest);
    if held { row } else { row + job.saw.kerf + job.saw.shortest }
}

/// Round measures, the roundest first.
fn measures(units: Unit) -> Vec<Length> {
    match units {
        Unit::In => [64, 32, 16, 8, 4].into_iter().map(Length::sixty_fourths).collect(),
        _ => [100, 50, 10, 5, 1].into_iter().map(Length::mm).collect(),
    }
}
