//! Tables of all that can be cut from what: ways to rip whole sheets, widths of their strips, ways to lie on these.

use crate::model::{Problem, Ripping};

/// One way to lie on a strip, with the kerf behind it.
pub(super) struct Lie {
    /// Index into the width's ways to lie.
    pub at: usize,
    /// Index into `Problem::sizes`.
    pub size: usize,
    /// Raw units of the strip that it takes, its kerf included.
    pub takes: i64,
}

/// A width of strips and what can be cut from it.
pub(super) struct Width {
    /// Raw units of the sheet that a strip takes, its kerf included.
    pub takes: i64,
    /// The shortest way to lie of each size, that which is worth most for its length first.
    pub lies: Vec<Lie>,
    /// The same by size.
    of_size: Vec<Option<usize>>,
}

impl Width {
    /// How often this can be cut, of the panels missing; not at all where it is nothing.
    pub(super) fn copies(&self, cut: &[(usize, u32)], missing: &[u32]) -> u32 {
        cut.iter().map(|(lie, each)| missing[self.lies[*lie].size] / each).min().unwrap_or(0)
    }

    /// The way in which a size lies, if it does.
    pub(super) fn lie(&self, size: usize) -> Option<(usize, &Lie)> {
        self.of_size[size].map(|lie| (lie, &self.lies[lie]))
    }
}

/// A way to rip whole sheets.
pub(super) struct Way<'a> {
    pub ripping: &'a Ripping,
    /// Index into `Problem::rippings`.
    pub index: usize,
    /// Widths of its strips, ascending.
    pub widths: Vec<Width>,
    /// Raw units that its strips give to panels and their kerfs.
    pub usable: i64,
    /// Raw units that a sheet gives to strips and their kerfs.
    pub room: i64,
    /// Of each size, the least raw units that it takes of any strip; more than any has where it cannot be cut.
    pub shortest: Vec<i64>,
    /// Of each size, the raw units that the narrowest strip for it takes; more than any sheet has where it cannot be cut.
    pub narrowest: Vec<i64>,
}

/// All that can be cut from what.
pub(super) struct Tables<'a> {
    pub problem: &'a Problem,
    pub ways: Vec<Way<'a>>,
}

impl<'a> Tables<'a> {
    /// Tables of the ways to rip whole sheets, where a panel of each size is worth so much.
    pub(super) fn new(problem: &'a Problem, worth: &[f64]) -> Tables<'a> {
        let ways = problem.rippings.iter().enumerate().filter(|(_, ripping)| ripping.whole);
        let ways = ways.map(|(index, ripping)| {
            let widths = widths(problem, ripping, worth);
            Way {
                ripping,
                index,
                usable: (ripping.usable(ripping.board) + problem.kerf).raw(),
                room: (ripping.room + ripping.kerf).raw(),
                shortest: least(problem, &widths, |_, lie| lie.takes),
                narrowest: least(problem, &widths, |width, _| width.takes),
                widths,
            }
        });
        Tables { problem, ways: ways.collect() }
    }
}

#[allow(clippy::cast_precision_loss)] // only puts lies in order
fn widths(problem: &Problem, ripping: &Ripping, worth: &[f64]) -> Vec<Width> {
    let widths = problem.families[ripping.family].widths.iter().map(|width| {
        let mut lies: Vec<Lie> = Vec::new();
        // Of pieces too short to hold, a strip of their own might be left with nothing to hold; longer pieces hold.
        let held = width.laid.iter().enumerate().filter(|(_, laid)| laid.along >= problem.shortest);
        for (at, laid) in held {
            let lie = Lie { at, size: laid.size, takes: (laid.along + problem.kerf).raw() };
            match lies.iter_mut().find(|other| other.size == lie.size) {
                Some(other) if other.takes <= lie.takes => {}
                Some(other) => *other = lie,
                None => lies.push(lie),
            }
        }
        let density = |lie: &Lie| worth[lie.size] / lie.takes as f64;
        lies.sort_by(|a, b| density(b).total_cmp(&density(a)));
        let mut of_size = vec![None; problem.sizes.len()];
        lies.iter().enumerate().for_each(|(index, lie)| of_size[lie.size] = Some(index));
        Width { takes: (width.width + ripping.kerf).raw(), lies, of_size }
    });
    widths.collect()
}

/// The least of what is taken where a size lies, over all widths that it lies on, for each size.
fn least(problem: &Problem, widths: &[Width], taken: impl Fn(&Width, &Lie) -> i64) -> Vec<i64> {
    let of = |size: usize| widths.iter().filter_map(|width| width.lie(size).map(|(_, lie)| taken(width, lie))).min();
    (0..problem.sizes.len()).map(|size| of(size).unwrap_or(i64::MAX)).collect()
}
