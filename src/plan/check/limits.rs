//! What the yard will do and the car will take: rip widths, cuts a sheet, the crosscut before ripping, edge trims,
//! stock, sizes of the pieces, and how much of each sheet a layout needs.

use super::Rule;
use super::findings::Findings;
use super::sheets::{Blank, blank};
use crate::data::{Breakdown, Job, RipWidths, Rips};
use crate::length::Length;
use crate::plan::{Board, Plan, SheetGroup};
use crate::solve::Direction;

/// Checks every sheet group against the yard, the car and what can be had.
pub(super) fn check(job: &Job, plan: &Plan, found: &mut Findings) {
    for group in &plan.sheets {
        let place = format!("sheet {}", group.number);
        let blank = blank(job, group);
        heading(job, group, &place, found);
        direction(job, group, &place, found);
        boards(job, group, blank, &place, found);
        slack(job, group, blank, &place, found);
        for (at, board) in group.boards.iter().enumerate() {
            board_limits(job, board, blank, &place, found);
            found.equal(Rule::Position, &place, "squared from the far end", board.from_far_end, at == 1);
        }
        let cuts = group.cuts.len();
        let most = job.yard.most_cuts.map_or(usize::MAX, |most| most as usize);
        found.hold(Rule::MostCuts, cuts <= most, &place, || format!("{cuts} cuts where the yard makes {most}"));
    }
    stock(job, plan, found);
}

fn heading(job: &Job, group: &SheetGroup, place: &str, found: &mut Findings) {
    let sheet = &job.sheets[group.sheet];
    found.copied(place, "the kind", &group.kind, &sheet.name);
    found.copied(place, "the length", &group.length, &sheet.length);
    found.copied(place, "the width", &group.width, &sheet.width);
    found.copied(place, "the edge trim", &group.edge_trim, &sheet.edge_trim);
}

fn direction(job: &Job, group: &SheetGroup, place: &str, found: &mut Findings) {
    let allowed = match job.yard.rips {
        Rips::Either => true,
        Rips::Along => group.direction == Direction::Along,
        Rips::Across => group.direction == Direction::Across,
    };
    found.hold(Rule::YardCut, allowed, place, || "the yard does not rip this way".into());
}

/// One whole board, or two with exactly a kerf between them.
fn boards(job: &Job, group: &SheetGroup, blank: Blank, place: &str, found: &mut Findings) {
    let longest = job.car.longest.unwrap_or(Length::MAX);
    match group.boards.as_slice() {
        [whole] => {
            found.same(Rule::Position, place, "the board's start", whole.start, Length::ZERO);
            found.same(Rule::Position, place, "the board's length", whole.length, blank.along);
        }
        [first, second] => {
            found.same(Rule::Position, place, "the first board's start", first.start, Length::ZERO);
            let start = first.length + job.yard.kerf;
            found.same(Rule::Position, place, "the second board's start", second.start, start);
            found.same(Rule::Position, place, "the second board's end", second.start + second.length, blank.along);
            let both = first.length.is_positive() && second.length.is_positive();
            found.hold(Rule::Breakdown, both, place, || "the crosscut must leave two boards".into());
            let allowed = match job.yard.breakdown {
                Breakdown::Never => false,
                Breakdown::IfNeeded => blank.along > longest,
                Breakdown::Allowed => true,
            };
            found.hold(Rule::Breakdown, allowed, place, || "the yard makes no crosscut before ripping here".into());
        }
        other => found.hold(Rule::Breakdown, false, place, || format!("a sheet gives no {} boards", other.len())),
    }
}

fn board_limits(job: &Job, board: &Board, blank: Blank, place: &str, found: &mut Findings) {
    let longest = job.car.longest.unwrap_or(Length::MAX);
    let fits = board.rips.is_empty() || board.length <= longest;
    let words = format!("strips of {} where the car takes {}", found.say(board.length), found.say(longest));
    found.hold(Rule::Car, fits, place, || words);
    for rip in &board.rips {
        rip_width(job, rip.width, place, found);
        let inside = rip.across >= blank.trim && rip.across + rip.width <= blank.across - blank.trim;
        found.hold(Rule::Edge, inside, place, || "a strip reaches beyond the sheet's good edges".into());
    }
}

fn rip_width(job: &Job, width: Length, place: &str, found: &mut Findings) {
    let (yard, said) = (&job.yard, found.say(width));
    let permitted = match &yard.rip_widths {
        RipWidths::Any => true,
        RipWidths::Only(widths) => widths.contains(&width),
        RipWidths::Step(step) => step.is_positive() && width.round_down(*step) == width,
    };
    let within = width >= yard.narrowest && width <= yard.widest.unwrap_or(Length::MAX) && width.is_positive();
    found.hold(Rule::RipWidth, permitted && within, place, || format!("the yard rips no strip of {said}"));
    let carried = width <= job.car.widest.unwrap_or(Length::MAX);
    found.hold(Rule::Car, carried, place, || format!("a strip of {said} is too wide for the car"));
    let crossed = width <= job.saw.crosses.unwrap_or(Length::MAX);
    found.hold(Rule::Crosses, crossed, place, || format!("the saw cannot cross a strip of {said}"));
}

/// How much of the ripped side the widest board needs, and whether a sheet a little small would still do.
fn slack(job: &Job, group: &SheetGroup, blank: Blank, place: &str, found: &mut Findings) {
    let need = |board: &Board| {
        let strips: Length = board.rips.iter().map(|rip| rip.width).sum();
        let between: Length = board.rips.iter().skip(1).map(|_| job.yard.kerf).sum();
        strips + between + blank.trim * 2
    };
    let needs = group.boards.iter().filter(|board| !board.rips.is_empty()).map(need).max().unwrap_or_default();
    let leaves = blank.across - needs;
    found.same(Rule::Slack, place, "what the layout needs", group.needs, needs);
    found.same(Rule::Slack, place, "what the layout leaves", group.leaves, leaves);
    let first = leaves < job.sheets[group.sheet].tolerance;
    found.equal(Rule::Slack, place, "\"measure first\"", group.measure_first, first);
    found.hold(Rule::YardCut, needs.is_positive(), place, || "no strip is cut from this sheet".into());
}

fn stock(job: &Job, plan: &Plan, found: &mut Findings) {
    for (at, sheet) in job.sheets.iter().enumerate() {
        let bought: u64 =
            plan.sheets.iter().filter(|group| group.sheet == at).map(|group| u64::from(group.count)).sum();
        let had = sheet.stock.map_or(u64::MAX, u64::from);
        found.hold(Rule::Stock, bought <= had, &sheet.name, || format!("{bought} sheets where {had} can be had"));
    }
}
