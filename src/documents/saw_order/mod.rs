//! The saw order: one stop-block setting after the other, each cut ticked off; as a paper and as a CSV list.

mod csv_list;
mod paper;

pub use csv_list::csv_list;
pub use paper::paper;

use crate::plan::{Plan, StopCut};

/// How many of each panel line are made after each cut, in the order of the cuts.
struct Tally<'a> {
    plan: &'a Plan,
    made: Vec<u32>,
}

impl<'a> Tally<'a> {
    fn new(plan: &'a Plan) -> Self {
        Tally { plan, made: vec![0; plan.panels.len()] }
    }

    /// Counts a cut's pieces; returns each of its panel lines once, with how many come off in all.
    fn count(&mut self, cut: &StopCut) -> Vec<(usize, u32)> {
        let mut off: Vec<(usize, u32)> = Vec::new();
        for panel in &cut.pieces {
            self.made[*panel] += cut.strips;
            match off.iter_mut().find(|(seen, _)| seen == panel) {
                Some((_, count)) => *count += cut.strips,
                None => off.push((*panel, cut.strips)),
            }
        }
        off
    }

    /// Made so far, and to be made in all.
    fn so_far(&self, panel: usize) -> (u32, u32) {
        let line = &self.plan.panels[panel];
        (self.made[panel], line.count + line.extras)
    }
}
