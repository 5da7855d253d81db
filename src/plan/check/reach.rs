//! First of all: every index of the plan leads somewhere and every number is of a size that sums cannot overflow,
//! so that the replay itself cannot break on a damaged plan.

use super::Rule;
use super::findings::Findings;
use crate::data::Job;
use crate::length::Length;
use crate::plan::{Origin, Plan, SheetGroup, Strip, YardCut};

/// More of anything than a job can hold.
const MOST: usize = 10_000_000;

/// Checks indices and magnitudes.
pub(super) fn check(job: &Job, plan: &Plan, found: &mut Findings) {
    let mut reach = Reach { found };
    reach.count("panel lines", "the plan", job.panels.len() == plan.panels.len());
    for (at, group) in plan.sheets.iter().enumerate() {
        reach.sheet_group(job, plan, group, &format!("sheet group {}", at + 1));
    }
    for group in &plan.yard {
        reach.many("yard groups", group.count);
        for sheet in &group.sheets {
            reach.index("yard groups", *sheet, plan.sheets.len());
        }
    }
    for strip in &plan.strips {
        reach.strip(job, plan, strip);
    }
    reach.lists(job, plan);
}

/// What is looked at, and what was found.
struct Reach<'a> {
    found: &'a mut Findings,
}

impl Reach<'_> {
    fn count(&mut self, name: &str, place: &str, holds: bool) {
        self.found.hold(Rule::Heading, holds, place, || format!("the {name} are not those of the job"));
    }

    fn index(&mut self, place: &str, index: usize, len: usize) {
        self.found.hold(Rule::Reference, index < len, place, || format!("number {index} does not exist among {len}"));
    }

    fn many(&mut self, place: &str, count: u32) {
        let holds = usize::try_from(count).is_ok_and(|count| count <= MOST);
        self.found.hold(Rule::Magnitude, holds, place, || format!("{count} is more than any job holds"));
    }

    fn length(&mut self, place: &str, length: Length) {
        let holds = (Length::ZERO..=Length::MAX).contains(&length);
        self.found.hold(Rule::Magnitude, holds, place, || format!("{length:?} is not a length of a piece"));
    }

    fn sheet_group(&mut self, job: &Job, plan: &Plan, group: &SheetGroup, place: &str) {
        self.index(place, group.sheet, job.sheets.len());
        self.many(place, group.count);
        self.many(place, group.number);
        for length in [group.length, group.width, group.edge_trim, group.needs, group.leaves] {
            self.length(place, length);
        }
        for board in &group.boards {
            for length in [board.start, board.length, board.fall_off] {
                self.length(place, length);
            }
            for rip in &board.rips {
                self.index(place, rip.strip, plan.strips.len());
                self.length(place, rip.across);
                self.length(place, rip.width);
            }
        }
        for cut in &group.cuts {
            self.yard_cut(group, cut, place);
        }
    }

    fn yard_cut(&mut self, group: &SheetGroup, cut: &YardCut, place: &str) {
        match *cut {
            YardCut::Breakdown { at } => self.length(place, at),
            YardCut::EdgeTrim { board, off } => {
                self.index(place, board, group.boards.len());
                self.length(place, off);
            }
            YardCut::Rip { board, rip, width, left } => {
                self.index(place, board, group.boards.len());
                self.index(place, rip, group.boards.get(board).map_or(0, |board| board.rips.len()));
                self.length(place, width);
                self.length(place, left);
            }
        }
    }

    fn strip(&mut self, job: &Job, plan: &Plan, strip: &Strip) {
        let place = format!("strip {}", strip.letter);
        match strip.origin {
            Origin::Sheet { sheet, .. } => self.index(&place, sheet, job.sheets.len()),
            Origin::OnHand { strip } => self.index(&place, strip, job.strips.len()),
        }
        self.many(&place, strip.count);
        let sizes = [strip.width, strip.narrowest, strip.widest, strip.length, strip.squaring, strip.fall_off];
        for length in sizes {
            self.length(&place, length);
        }
        for piece in &strip.pieces {
            self.index(&place, piece.panel, plan.panels.len());
            for length in [piece.along, piece.length, piece.width] {
                self.length(&place, length);
            }
        }
    }

    fn lists(&mut self, job: &Job, plan: &Plan) {
        for stop in &plan.stops {
            self.length("saw order", stop.setting);
            for cut in &stop.cuts {
                self.index("saw order", cut.strip, plan.strips.len());
                self.length("saw order", cut.left);
                for panel in &cut.pieces {
                    self.index("saw order", *panel, plan.panels.len());
                }
            }
        }
        for trim in &plan.trims {
            self.index("trims", trim.panel, plan.panels.len());
            self.index("trims", trim.strip, plan.strips.len());
        }
        for offcut in &plan.offcuts {
            self.length("offcuts", offcut.width);
            self.length("offcuts", offcut.length);
            if let Some(sheet) = offcut.sheet {
                self.index("offcuts", sheet, job.sheets.len());
            }
        }
        for panel in &plan.panels {
            self.length(&panel.name, panel.cut_width);
            self.length(&panel.name, panel.cut_height);
        }
    }
}
