//! First of all in the week too: every index leads somewhere, and every number is of a size that sums cannot overflow.

use super::super::Rule;
use super::super::findings::Findings;
use crate::length::Length;
use crate::plan::Plan;
use crate::plan::week::{CanvasPlan, Packing, PressPlan, Shopping, Spot, WeekPlan};

/// More than any job holds of anything.
const MOST: u32 = 10_000_000;
/// More cents than any list comes to.
const DEAREST: i64 = 1_000_000_000_000_000;

/// Checks indices and magnitudes of all parts that are there.
pub(super) fn check(plan: &Plan, found: &mut Findings) {
    let mut reach = Reach { panels: plan.panels.len(), found };
    let week = &plan.week;
    week.canvas.iter().for_each(|canvas| reach.canvas(canvas));
    week.press.iter().for_each(|press| reach.press(press));
    week.packing.iter().for_each(|packing| reach.packing(packing));
    week.shopping.iter().for_each(|list| reach.shopping(list));
    week.calendar.iter().for_each(|calendar| reach.calendar(calendar));
}

struct Reach<'a> {
    panels: usize,
    found: &'a mut Findings,
}

impl Reach<'_> {
    fn index(&mut self, place: &str, index: usize, len: usize) {
        self.found.hold(Rule::Reference, index < len, place, || format!("number {index} does not exist among {len}"));
    }

    fn panel(&mut self, place: &str, panel: usize) {
        self.index(place, panel, self.panels);
    }

    fn many(&mut self, place: &str, count: u32) {
        self.found.hold(Rule::Magnitude, count <= MOST, place, || format!("{count} is more than any job holds"));
    }

    fn lengths(&mut self, place: &str, lengths: &[Length]) {
        let good = lengths.iter().all(|length| (Length::ZERO..=Length::MAX).contains(length));
        self.found.hold(Rule::Magnitude, good, place, || format!("{lengths:?} are no lengths"));
    }

    fn cents(&mut self, place: &str, cents: i64) {
        let good = (0..=DEAREST).contains(&cents);
        self.found.hold(Rule::Magnitude, good, place, || format!("{cents} cents are no price"));
    }

    fn canvas(&mut self, plan: &CanvasPlan) {
        const PLACE: &str = "canvas";
        self.lengths(PLACE, &[plan.needs, plan.bound]);
        self.lengths(PLACE, &plan.lengths);
        self.cents(PLACE, plan.cost.0);
        plan.misfits.iter().for_each(|panel| self.panel(PLACE, *panel));
        for strip in &plan.strips {
            self.index(PLACE, strip.from, plan.lengths.len());
            self.lengths(PLACE, &[strip.at, strip.depth]);
            for piece in &strip.pieces {
                self.panel(PLACE, piece.panel);
                self.lengths(PLACE, &[piece.left, piece.across, piece.along]);
            }
        }
    }

    fn spot(&mut self, place: &str, spot: &Spot) {
        self.lengths(place, &[spot.along, spot.across, spot.length, spot.width]);
    }

    fn press(&mut self, plan: &PressPlan) {
        const PLACE: &str = "press";
        plan.misfits.iter().for_each(|misfit| self.panel(PLACE, misfit.panel));
        for load in &plan.loads {
            self.many(PLACE, load.panels);
            for stack in &load.stacks {
                self.panel(PLACE, stack.panel);
                self.many(PLACE, stack.count);
                self.lengths(PLACE, &[stack.height]);
                self.spot(PLACE, &stack.spot);
            }
        }
    }

    fn packing(&mut self, packing: &Packing) {
        const PLACE: &str = "packing";
        for misfit in &packing.misfits {
            self.panel(PLACE, misfit.panel);
            self.many(PLACE, misfit.count);
        }
        for stack in packing.parcels.iter().flat_map(|parcel| &parcel.stacks) {
            self.lengths(PLACE, &[stack.height]);
            self.spot(PLACE, &stack.spot);
            for (panel, count) in &stack.layers {
                self.panel(PLACE, *panel);
                self.many(PLACE, *count);
            }
        }
    }

    fn shopping(&mut self, list: &Shopping) {
        const PLACE: &str = "shopping list";
        self.cents(PLACE, list.total.0);
        for line in &list.lines {
            self.cents(PLACE, line.cost.0);
            for bought in &line.buy {
                self.many(PLACE, bought.count);
                self.cents(PLACE, bought.each.0);
            }
        }
        for cost in &list.each {
            self.panel(PLACE, cost.panel);
            self.cents(PLACE, cost.each.0);
        }
    }

    fn calendar(&mut self, week: &WeekPlan) {
        const PLACE: &str = "calendar";
        for row in &week.rows {
            self.index(PLACE, row.step, week.steps.len());
            self.many(PLACE, row.panels);
            let years = |year: i16| (1800..=2300).contains(&year);
            let sane = [row.begin, row.free, row.ready].iter().all(|at| years(at.year()));
            self.found.hold(Rule::Magnitude, sane, PLACE, || format!("{} is out of any calendar", row.begin));
        }
    }
}
