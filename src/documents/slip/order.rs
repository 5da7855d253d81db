//! What the yard is asked for, group by group, in the order it is cut.

use crate::data::Job;
use crate::documents::wording;
use crate::length::Length;
use crate::plan::{Plan, Rip, SheetGroup, YardCut, YardGroup};
use crate::solve::Direction;
use std::collections::BTreeMap;

/// The order for sheets that the yard cuts alike.
pub(super) struct Order<'a> {
    /// `3 sheets like this`, with the kind where there are several.
    pub(super) title: String,
    /// What comes before the rips.
    pub(super) first: Vec<String>,
    /// The rips, equal neighbours together.
    pub(super) steps: Vec<Step>,
    /// The first of the sheets, for the sketch.
    pub(super) group: &'a SheetGroup,
    /// True where the letters on it hold for all the sheets.
    pub(super) lettered: bool,
}

/// One width to set, or another cut in its place.
pub(super) struct Step {
    /// The width.
    pub(super) figure: String,
    /// How many strips, and their letters: `3 strips: A A B`; empty where the step is no rip.
    pub(super) letters: String,
    /// What is refused, or what the step is.
    pub(super) notes: Vec<String>,
}

/// One order a yard group.
pub(super) fn orders(plan: &Plan) -> Vec<Order<'_>> {
    let kinds = plan.sheets.iter().any(|group| group.sheet != plan.sheets[0].sheet);
    let alike = |yard: &YardGroup| yard.sheets.iter().map(|at| &plan.sheets[*at]).collect::<Vec<_>>();
    plan.yard.iter().filter_map(|yard| order(plan, &alike(yard), yard.count, kinds)).collect()
}

fn order<'a>(plan: &'a Plan, alike: &[&'a SheetGroup], count: u32, kinds: bool) -> Option<Order<'a>> {
    let group = *alike.first()?;
    let kind = if kinds { format!(" of {}", group.kind) } else { String::new() };
    let title = if count == 1 { format!("1 sheet{kind} like this") } else { format!("{count} sheets{kind} like this") };
    let mut first = Vec::new();
    if group.measure_first {
        first.push(format!("MEASURE FIRST: needs {}", group.needs.say(plan.units)));
    }
    if group.direction == Direction::Across {
        first.push("Rips run ACROSS the sheet.".into());
    }
    Some(Order { title, first, steps: steps(plan, alike), group, lettered: alike.len() == 1 })
}

/// The cuts in order, and after each board what is left over.
fn steps(plan: &Plan, alike: &[&SheetGroup]) -> Vec<Step> {
    let group = alike[0];
    let mut steps = Vec::new();
    for cut in &group.cuts {
        if let YardCut::Breakdown { at } = cut {
            steps.push(words(at.show(plan.units), "crosscut the sheet here first".into()));
        }
    }
    for (at, board) in group.boards.iter().enumerate() {
        let piece = format!("the piece {} long", board.length.show(plan.units));
        if group.boards.len() > 1 && board.rips.is_empty() {
            steps.push(words(String::new(), format!("{piece} stays whole: left over")));
            continue;
        }
        if group.boards.len() > 1 {
            steps.push(words(String::new(), format!("from {piece}:")));
        }
        steps.extend(trim(plan, group, at));
        steps.extend(rips(plan, alike, at));
        if board.fall_off.is_positive() {
            steps.push(words(board.fall_off.show(plan.units), "left over".into()));
        }
    }
    steps
}

/// A step that is no rip.
fn words(figure: String, note: String) -> Step {
    Step { figure, letters: String::new(), notes: vec![note] }
}

/// The cut that takes a bad factory edge off, where there is one.
fn trim(plan: &Plan, group: &SheetGroup, at: usize) -> Option<Step> {
    let off = group.cuts.iter().find_map(|cut| match cut {
        YardCut::EdgeTrim { board, off } if *board == at => Some(*off),
        _ => None,
    })?;
    Some(words(off.show(plan.units), "trim off the reference edge, blade included".into()))
}

/// Rips of one width together, with the letters of their strips.
fn rips(plan: &Plan, alike: &[&SheetGroup], board: usize) -> Vec<Step> {
    let mut at = 0;
    let step = |(width, count): (Length, u32)| {
        let stretch = at..at + count as usize;
        at = stretch.end;
        let run =
            |group: &&SheetGroup| Some((group.boards.get(board)?.rips.get(stretch.clone())?.to_vec(), group.count));
        let runs: Vec<(Vec<Rip>, u32)> = alike.iter().filter_map(run).collect();
        let strips = wording::counted(count, "strip");
        let (letters, over_all) = match runs.as_slice() {
            [(only, _)] => (format!("{strips}: {}", lettered(plan, only)), None),
            several => (strips, Some(format!("letters over all sheets: {}", totals(plan, several)))),
        };
        let notes = refuse(plan, &runs[0].0).into_iter().chain(over_all).collect();
        Step { figure: width.show(plan.units), letters, notes }
    };
    wording::runs(alike[0].boards[board].rips.iter().map(|rip| rip.width)).into_iter().map(step).collect()
}

/// `A A B`, or `5 A, 3 B` where there are many.
fn lettered(plan: &Plan, rips: &[Rip]) -> String {
    let letters = rips.iter().map(|rip| plan.strips[rip.strip].letter.as_str());
    if rips.len() <= 4 {
        return letters.collect::<Vec<_>>().join(" ");
    }
    let run = |(letter, count): (&str, u32)| format!("{count} {letter}");
    wording::runs(letters).into_iter().map(run).collect::<Vec<_>>().join(", ")
}

/// Strips of one width on sheets that are ripped alike can stand in for each other: how many of each letter in all.
fn totals(plan: &Plan, runs: &[(Vec<Rip>, u32)]) -> String {
    let mut totals: BTreeMap<usize, u32> = BTreeMap::new();
    for (rips, sheets) in runs {
        for rip in rips {
            *totals.entry(rip.strip).or_default() += sheets;
        }
    }
    totals.iter().map(|(strip, count)| format!("{count} {}", plan.strips[*strip].letter)).collect::<Vec<_>>().join(", ")
}

/// What the maker cannot use; nothing where only the exact width will do.
fn refuse(plan: &Plan, run: &[Rip]) -> Option<String> {
    let strips = || run.iter().map(|rip| &plan.strips[rip.strip]);
    let narrowest = strips().map(|strip| strip.narrowest).max()?;
    let widest = strips().map(|strip| strip.widest).min()?;
    let (narrowest, widest) = (narrowest.show(plan.units), widest.show(plan.units));
    (narrowest != widest).then(|| format!("refuse under {narrowest}, over {widest}"))
}

/// What to bring to the saw: `5 sheets birch plywood 1/4, 48 x 96 in.`
pub(super) fn sheets_wanted(job: &Job, plan: &Plan) -> Vec<String> {
    let wanted = |(at, kind): (usize, &crate::data::Sheet)| {
        let count: u32 = plan.sheets.iter().filter(|group| group.sheet == at).map(|group| group.count).sum();
        let size = wording::size(plan, kind.width.min(kind.length), kind.length.max(kind.width));
        (count > 0)
            .then(|| format!("{} of {}, {size} {}", wording::counted(count, "sheet"), kind.name, plan.units.sign()))
    };
    job.sheets.iter().enumerate().filter_map(wanted).collect()
}

/// What was assumed of the yard's saw, and what is asked of it.
pub(super) fn terms(job: &Job, plan: &Plan) -> String {
    let kerf = job.yard.kerf.say(plan.units);
    let kerf = kerf.trim_end_matches('.');
    let good = if job.yard.tolerance.is_zero() {
        "as exact as the saw allows".to_string()
    } else {
        format!("good to {}", job.yard.tolerance.say(plan.units))
    };
    let good = good.trim_end_matches('.');
    format!(
        "Rips in this order from the reference edge. Blade {kerf}. Rips {good}. Please pencil its letter on each strip."
    )
}
