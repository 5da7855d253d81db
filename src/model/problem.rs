//! The whole problem of a job: panel sizes, families of strips, ways to rip, strips on hand, charges.

use super::breakdown;
use super::charges::Charges;
use super::family::Family;
use super::faults;
use super::ripping::Ripping;
use super::sizes::{self, PanelSides, yard_rips};
use crate::data::{Fault, Grain, Job, Keeper};
use crate::length::Length;

/// Panel lines that are alike in everything that cutting can see.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Size {
    /// Indices into `Job::panels`, ascending.
    pub lines: Vec<usize>,
    /// Smallest and nominal sides.
    pub sides: PanelSides,
    /// Face grain on the panel.
    pub grain: Grain,
    /// Sheet kinds it may be cut from, empty for any.
    pub sheets: Vec<usize>,
    /// How many are wanted, all lines together.
    pub count: u32,
    /// Extra panels that would be welcome, most worth first.
    pub wishes: Vec<Wish>,
}

/// Extra panels that a line would welcome.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Wish {
    /// Index into `Job::panels`.
    pub line: usize,
    /// Most of them.
    pub most: u32,
    /// What one is worth, in cents.
    pub worth: i64,
}

/// Strips on hand that are alike.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct OnHand {
    /// Index into `Job::strips`.
    pub strip: usize,
    /// Index into [`Problem::families`]; the family has this one width.
    pub family: usize,
    /// What it gives to panels, its first end squared.
    pub usable: Length,
    /// How many.
    pub count: u32,
}

/// A job as the solver sees it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Problem {
    /// Panel sizes wanted.
    pub sizes: Vec<Size>,
    /// Strips that take the same panels.
    pub families: Vec<Family>,
    /// Ways to rip sheets.
    pub rippings: Vec<Ripping>,
    /// Strips on hand that something can be cut from.
    pub on_hand: Vec<OnHand>,
    /// What it costs.
    pub charges: Charges,
    /// Most sheets of each kind.
    pub stock: Vec<Option<u32>>,
    /// Width of the saw's cut at home.
    pub kerf: Length,
    /// Shortest piece that is safe to hold.
    pub shortest: Length,
    /// Offcuts worth keeping.
    pub keepers: Vec<Keeper>,
}

/// The problem of a job.
///
/// # Errors
/// For each panel that cannot be made at all: which limit stops it and what value would do.
pub fn build(job: &Job) -> Result<Problem, Vec<Fault>> {
    let problem = assemble(job);
    let faults: Vec<Fault> = (0..problem.sizes.len())
        .filter(|size| !problem.makes(*size))
        .flat_map(|size| faults::explain(job, &problem.sizes[size].lines))
        .collect();
    if faults.is_empty() { Ok(problem) } else { Err(faults) }
}

/// The problem of a job, whether or not its panels can be made.
pub(super) fn assemble(job: &Job) -> Problem {
    assemble_at(job, &sizes::of(job))
}

/// The same, its panels having these sides.
pub(super) fn assemble_at(job: &Job, sides: &[PanelSides]) -> Problem {
    let sizes = merge(job, sides);
    let mut problem = Problem {
        families: Vec::new(),
        rippings: Vec::new(),
        on_hand: Vec::new(),
        charges: Charges::of(job),
        stock: job.sheets.iter().map(|sheet| sheet.stock).collect(),
        kerf: job.saw.kerf,
        shortest: job.saw.shortest,
        keepers: job.keepers.clone(),
        sizes,
    };
    for sheet in (0..job.sheets.len()).filter(|sheet| job.sheets[*sheet].stock != Some(0)) {
        for along in [true, false].into_iter().filter(|along| yard_rips(job.yard.rips, *along)) {
            problem.add_ripping(job, sheet, along);
        }
    }
    (0..job.strips.len()).for_each(|strip| problem.add_on_hand(job, strip));
    problem
}

/// Lines that cutting cannot tell apart become one size.
fn merge(job: &Job, sides: &[PanelSides]) -> Vec<Size> {
    let mut sizes: Vec<Size> = Vec::new();
    for (line, (panel, sides)) in job.panels.iter().zip(sides.iter().copied()).enumerate() {
        let like = |size: &Size| (size.sides, size.grain, &size.sheets) == (sides, panel.grain, &panel.sheets);
        let at = sizes.iter().position(like).unwrap_or_else(|| {
            let (grain, sheets) = (panel.grain, panel.sheets.clone());
            sizes.push(Size { lines: Vec::new(), sides, grain, sheets, count: 0, wishes: Vec::new() });
            sizes.len() - 1
        });
        sizes[at].lines.push(line);
        sizes[at].count += panel.count;
        if panel.extra > 0 {
            sizes[at].wishes.push(Wish { line, most: panel.extra, worth: panel.worth.0 });
        }
    }
    for size in &mut sizes {
        size.wishes.sort_by_key(|wish| (-wish.worth, wish.line));
    }
    sizes
}

impl Problem {
    fn add_ripping(&mut self, job: &Job, sheet: usize, along: bool) {
        let takes = self.taken_from(Some(sheet));
        let family = self.family(Family::of_yard(job, &self.sizes, takes, along));
        if let Some(mut ripping) = Ripping::of(job, sheet, along, family) {
            if ripping.broken {
                let saw = breakdown::Saw { kerf: job.saw.kerf, shortest: job.saw.shortest };
                ripping.breaks = breakdown::first_boards(&ripping, &self.families[family], &self.sizes, saw);
            }
            self.rippings.push(ripping);
        }
    }

    fn add_on_hand(&mut self, job: &Job, strip: usize) {
        let on_hand = &job.strips[strip];
        let takes = self.taken_from(on_hand.sheet);
        let family = Family::of_strip(job, &self.sizes, takes, on_hand.grain_along, on_hand.width);
        if on_hand.count == 0 || on_hand.length < job.saw.shortest || family.widths.is_empty() {
            return;
        }
        let (usable, count) = (on_hand.length - job.saw.squaring, on_hand.count);
        let family = self.family(family);
        self.on_hand.push(OnHand { strip, family, usable, count });
    }

    /// Which sizes may be cut from a sheet kind, or from a strip of unknown kind.
    fn taken_from(&self, sheet: Option<usize>) -> Vec<bool> {
        let takes = |size: &Size| size.sheets.is_empty() || sheet.is_some_and(|kind| size.sheets.contains(&kind));
        self.sizes.iter().map(takes).collect()
    }

    fn family(&mut self, family: Family) -> usize {
        self.families.iter().position(|known| *known == family).unwrap_or_else(|| {
            self.families.push(family);
            self.families.len() - 1
        })
    }

    /// Whether a single panel of this size can be made at all.
    pub(super) fn makes(&self, size: usize) -> bool {
        let yard = self.rippings.iter().any(|ripping| self.rips(ripping, size));
        let on_hand = |strip: &OnHand| self.fits(strip.family, size, |_| true, strip.usable, Length::ZERO);
        yard || self.on_hand.iter().any(on_hand)
    }

    fn rips(&self, ripping: &Ripping, size: usize) -> bool {
        let mut boards = vec![ripping.board];
        if ripping.broken {
            boards.push(ripping.longest.min(ripping.board - ripping.kerf - Length::from_raw(1)));
        }
        let ripped = |width: Length| {
            let cuts = u32::from(!ripping.whole) + ripping.cuts(1, ripping.room - width);
            width <= ripping.room && self.charges.most_cuts.is_none_or(|most| cuts <= most)
        };
        let first = usize::from(!ripping.whole);
        boards[first..]
            .iter()
            .any(|board| self.fits(ripping.family, size, ripped, ripping.usable(*board), ripping.stub(*board)))
    }

    /// Whether a panel of this size fits a strip of the family that is of a permitted width, with so much usable.
    fn fits(
        &self,
        family: usize,
        size: usize,
        permitted: impl Fn(Length) -> bool,
        usable: Length,
        stub: Length,
    ) -> bool {
        let widths = self.families[family].widths.iter().filter(|width| permitted(width.width));
        widths.flat_map(|width| &width.laid).any(|laid| {
            let held = laid.along >= self.shortest
                || (usable - laid.along - self.kerf).max(Length::ZERO) + stub >= self.shortest;
            laid.size == size && laid.along <= usable && held
        })
    }
}
