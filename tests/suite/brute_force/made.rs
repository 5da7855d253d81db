//! So many panels of each line of a job.

use std::collections::{BTreeMap, BTreeSet};
use yardslip::data::Job;

/// Most lines of a tiny job.
const LINES: usize = 6;

/// So many panels of each line.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Made([u32; LINES]);

impl Made {
    /// What a job asks for.
    pub(super) fn wanted(job: &Job) -> Made {
        let mut made = Made::default();
        for (count, panel) in made.0.iter_mut().zip(&job.panels) {
            *count = panel.count;
        }
        assert!(job.panels.len() <= LINES, "a tiny job has few lines");
        made
    }

    /// One more of a line.
    pub(super) fn and_one(mut self, line: usize) -> Made {
        self.0[line] += 1;
        self
    }

    /// Both together, as far as they are wanted.
    pub(super) fn plus(mut self, other: Made, want: Made) -> Made {
        for ((count, more), most) in self.0.iter_mut().zip(other.0).zip(want.0) {
            *count = (*count + more).min(most);
        }
        self
    }

    /// Whether this is no more than `other` of each line.
    pub(super) fn within(self, other: Made) -> bool {
        self.0.iter().zip(other.0).all(|(count, most)| *count <= most)
    }
}

/// Those that no other one makes all of.
pub(super) fn fullest(all: &BTreeSet<Made>) -> BTreeSet<Made> {
    all.iter().copied().filter(|made| !all.iter().any(|other| other != made && made.within(*other))).collect()
}

/// Those that no other one makes all of with as few cuts.
pub(super) fn fullest_at(all: &BTreeMap<Made, u32>) -> Vec<(Made, u32)> {
    let beaten = |made: Made, cuts: u32| {
        all.iter().any(|(other, fewer)| *other != made && made.within(*other) && *fewer <= cuts)
    };
    all.iter().filter(|(made, cuts)| !beaten(**made, **cuts)).map(|(made, cuts)| (*made, *cuts)).collect()
}
