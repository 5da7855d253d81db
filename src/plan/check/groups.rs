//! Numbers and letters that people call things by: sheets numbered without gaps, the yard's view of them complete and
//! no finer than it need be, every strip with a letter of its own.

use super::Rule;
use super::findings::Findings;
use crate::data::Job;
use crate::length::Length;
use crate::plan::{Origin, Plan, SheetGroup};
use crate::solve::Direction;
use std::collections::BTreeSet;

/// Checks names, numbers and groups.
pub(super) fn check(job: &Job, plan: &Plan, found: &mut Findings) {
    found.copied("the plan", "the title", &plan.title, &job.title);
    found.copied("the plan", "the unit", &plan.units, &job.units);
    found.copied("the plan", "the currency", &plan.currency, &job.currency);
    found.copied("the plan", "the list of assumptions", &plan.assumptions, &job.assumptions);
    letters(plan, found);
    numbers(plan, found);
    yard(plan, found);
}

fn letters(plan: &Plan, found: &mut Findings) {
    let mut seen = BTreeSet::new();
    for strip in &plan.strips {
        let fresh = !strip.letter.is_empty() && seen.insert(&strip.letter);
        found.hold(Rule::Letter, fresh, "strips", || format!("the letter `{}` is missing or used twice", strip.letter));
    }
    let hand_last = plan.strips.is_sorted_by_key(|strip| matches!(strip.origin, Origin::OnHand { .. }));
    found.hold(Rule::Letter, hand_last, "strips", || "strips on hand come last".into());
}

fn numbers(plan: &Plan, found: &mut Findings) {
    let mut next = 1;
    for group in &plan.sheets {
        let place = format!("sheet {}", group.number);
        found.equal(Rule::Group, &place, "its number", u64::from(group.number), next);
        found.hold(Rule::Group, group.count > 0, &place, || "there is no such sheet".into());
        next += u64::from(group.count);
    }
}

/// What the yard sees of a sheet: its kind, the way it is ripped, and each board's rips.
type Seen = (usize, Direction, Vec<(Length, Length, Vec<Length>)>);

fn seen(group: &SheetGroup) -> Seen {
    let rips = |board: &crate::plan::Board| board.rips.iter().map(|rip| rip.width).collect();
    let boards = group.boards.iter().map(|board| (board.start, board.length, rips(board))).collect();
    (group.sheet, group.direction, boards)
}

/// Each sheet group stands in one yard group, with all those that look the same to the yard and no other.
fn yard(plan: &Plan, found: &mut Findings) {
    let (mut listed, mut faces) = (BTreeSet::new(), BTreeSet::new());
    for (at, yard) in plan.yard.iter().enumerate() {
        let place = format!("yard group {}", at + 1);
        let groups: Vec<&SheetGroup> = yard.sheets.iter().map(|sheet| &plan.sheets[*sheet]).collect();
        let count: u64 = groups.iter().map(|group| u64::from(group.count)).sum();
        found.equal(Rule::Group, &place, "sheets", u64::from(yard.count), count);
        let once = yard.sheets.iter().all(|sheet| listed.insert(*sheet));
        found.hold(Rule::Group, once, &place, || "a sheet stands in two groups".into());
        let alike: BTreeSet<Seen> = groups.iter().map(|group| seen(group)).collect();
        found.hold(Rule::Group, alike.len() == 1, &place, || "its sheets are not ripped alike".into());
        let fresh = alike.into_iter().all(|face| faces.insert(face));
        found.hold(Rule::Group, fresh, &place, || "another group is ripped alike".into());
    }
    found.equal(Rule::Group, "yard groups", "sheet groups listed", listed.len(), plan.sheets.len());
}
