//! A job with the sides of its panels settled: as small as each may come out, or as long as the hand needs where the
//! panel cannot be made otherwise.

use super::least_money_in;
use super::sides::{Side, side};
use std::ops::Deref;
use yardslip::data::{Job, Panel};
use yardslip::length::Length;

/// A job and the sides of its panels.
pub(super) struct Shop<'a> {
    job: &'a Job,
    /// Width and height of each line.
    pub(super) sides: Vec<[Side; 2]>,
}

impl<'a> Shop<'a> {
    pub(super) fn of(job: &'a Job) -> Self {
        Shop { job, sides: job.panels.iter().map(|panel| sides(job, panel)).collect() }
    }
}

impl Deref for Shop<'_> {
    type Target = Job;
    fn deref(&self) -> &Job {
        self.job
    }
}

/// Each side may be cut as long as the hand needs if scant alone makes it too short; first it is tried without.
fn sides(job: &Job, panel: &Panel) -> [Side; 2] {
    let need = job.saw.shortest;
    let at = |held: [bool; 2]| {
        let from = |nominal: Length, held: bool| if held { need } else { nominal - panel.scant };
        [side(job, panel, from(panel.width, held[0]), false), side(job, panel, from(panel.height, held[1]), true)]
    };
    let may = [panel.width, panel.height].map(|nominal| nominal >= need && nominal - panel.scant < need);
    let alone = Job { panels: vec![Panel { count: 1, ..panel.clone() }], ..job.clone() };
    let can_be_made = |sides: &[Side; 2]| least_money_in(&Shop { job: &alone, sides: vec![*sides] }).is_some();
    let ways = [[false, false], [true, false], [false, true], [true, true]];
    let ways: Vec<_> = ways.into_iter().filter(|held| (!held[0] || may[0]) && (!held[1] || may[1])).collect();
    if let [only] = ways.as_slice() {
        return at(*only);
    }
    ways.into_iter().map(at).find(can_be_made).unwrap_or_else(|| at([false, false]))
}
