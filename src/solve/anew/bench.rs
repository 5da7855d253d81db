//! What is on the bench: sheets with their strips and panels, the panels that are still missing, and the tables of all
//! that can be cut from what.

use super::super::draft::Draft;
use super::super::layout::{Board, Layout, blank};
use super::super::master::Made;
use super::super::need::Need;
use super::super::pattern::{Blank, Pattern};
use super::fill::Fill;
use crate::length::Length;
use crate::model::{Problem, Ripping};
use std::collections::BTreeMap;
use std::rc::Rc;

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
    /// How often this can be cut, of the panels missing; none where it is nothing.
    pub(super) fn copies(&self, fill: &Fill, missing: &[u32]) -> i64 {
        let each = |lie: &usize| fill.cut.iter().filter(|other| *other == lie).count();
        let copies = |lie: &usize| missing[self.lies[*lie].size] as usize / each(lie);
        fill.cut.iter().map(copies).min().map_or(0, |copies| i64::try_from(copies).expect("panels are few"))
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
    index: usize,
    /// Widths of its strips, ascending.
    pub widths: Vec<Width>,
    /// Raw units that its strips give to panels and their kerfs.
    pub usable: i64,
    /// Raw units that a sheet gives to strips and their kerfs.
    room: i64,
}

/// A strip and the panels cut from it.
#[derive(Clone)]
pub(super) struct Strip {
    /// Index into the way's widths.
    pub width: usize,
    /// Raw units that nothing is cut from.
    pub left: i64,
    /// Indices into the width's lies.
    pub lies: Vec<usize>,
}

/// A sheet and its strips.
#[derive(Clone)]
pub(super) struct Sheet {
    /// Index into the ways.
    pub way: usize,
    /// Raw units that no strip is ripped from.
    pub spare: i64,
    pub strips: Vec<Strip>,
    /// The yard's cuts.
    cuts: u32,
    /// What it costs, in units: itself, and its cuts where free cuts are counted by the sheet.
    cost: i64,
}

/// What is on the bench.
#[derive(Clone)]
pub(super) struct Bench {
    pub sheets: Vec<Rc<Sheet>>,
    /// Panels of each size that are still to be cut.
    pub missing: Vec<u32>,
    /// Cuts of all sheets.
    cuts: u32,
    /// What all sheets cost, cuts of the order left out.
    cost: i64,
}

/// All that can be cut from what.
pub(super) struct Tables<'a> {
    problem: &'a Problem,
    pub ways: Vec<Way<'a>>,
}

impl<'a> Tables<'a> {
    /// Tables of the ways to rip whole sheets, where a panel of each size is worth so much.
    pub(super) fn new(problem: &'a Problem, worth: &[f64]) -> Tables<'a> {
        let ways = problem.rippings.iter().enumerate().filter(|(_, ripping)| ripping.whole);
        let ways = ways.map(|(index, ripping)| Way {
            ripping,
            index,
            widths: widths(problem, ripping, worth),
            usable: (ripping.usable(ripping.board) + problem.kerf).raw(),
            room: (ripping.room + ripping.kerf).raw(),
        });
        Tables { problem, ways: ways.collect() }
    }

    /// A plan on the bench; none where a sheet of it is broken down.
    pub(super) fn bench(&self, plan: &Draft, need: &Need) -> Option<Bench> {
        let mut bench = Bench { sheets: Vec::new(), missing: need.count.clone(), cuts: 0, cost: 0 };
        for ((_, pattern), copies) in &plan.on_hand {
            for (size, each) in pattern.yields(self.problem) {
                bench.missing[size] = bench.missing[size].saturating_sub(each * copies);
            }
        }
        let mut patterns = plan.patterns.clone();
        for (layout, copies) in &plan.layouts {
            let [board] = layout.boards.as_slice() else { return None };
            let way = self.ways.iter().position(|way| way.index == layout.ripping)?;
            for _ in 0..*copies {
                let mut sheet = self.sheet(way);
                for (width, strips) in &board.strips {
                    for _ in 0..*strips {
                        let lies = self.taken(way, *width, &mut patterns, &mut bench.missing);
                        self.add_strip(&mut sheet, *width, lies);
                    }
                }
                if !sheet.strips.is_empty() {
                    bench.add_sheet(sheet);
                }
            }
        }
        Some(bench)
    }

    /// The panels of one of these patterns for the strip, as far as they are missing.
    fn taken(
        &self,
        way: usize,
        width: usize,
        patterns: &mut BTreeMap<Pattern, u32>,
        missing: &mut [u32],
    ) -> Vec<usize> {
        let (blank, way) = (self.blank(way, width), &self.ways[way]);
        let next = patterns.iter_mut().find(|(pattern, left)| pattern.blank == blank && **left > 0);
        let Some((pattern, left)) = next else { return Vec::new() };
        *left -= 1;
        let mut lies = Vec::new();
        for (size, copies) in pattern.yields(self.problem) {
            let Some((lie, _)) = way.widths[width].lie(size) else { continue };
            let copies = copies.min(missing[size]);
            missing[size] -= copies;
            lies.extend((0..copies).map(|_| lie));
        }
        lies
    }

    fn blank(&self, way: usize, width: usize) -> Blank {
        let ripping = self.ways[way].ripping;
        blank(ripping, ripping.board.raw(), width)
    }

    /// A sheet that nothing is ripped from yet.
    pub(super) fn sheet(&self, way: usize) -> Sheet {
        let mut sheet = Sheet { way, spare: self.ways[way].room, strips: Vec::new(), cuts: 0, cost: 0 };
        self.settle(&mut sheet);
        sheet
    }

    /// What a sheet like this costs with one more strip of this width and how many cuts it then is; none where those
    /// are too many.
    pub(super) fn with_strip(&self, sheet: &Sheet, width: usize) -> Option<(u32, i64)> {
        let way = &self.ways[sheet.way];
        let spare = Length::from_raw(sheet.spare - way.widths[width].takes);
        let cuts = way.ripping.cuts(count(&sheet.strips) + 1, spare);
        let few = self.problem.charges.most_cuts.is_none_or(|most| cuts <= most);
        few.then(|| (cuts, self.cost(sheet.way, cuts)))
    }

    /// Rips a strip and cuts panels from it.
    pub(super) fn add_strip(&self, sheet: &mut Sheet, width: usize, lies: Vec<usize>) {
        let way = &self.ways[sheet.way];
        let taken: i64 = lies.iter().map(|lie| way.widths[width].lies[*lie].takes).sum();
        sheet.spare -= way.widths[width].takes;
        sheet.strips.push(Strip { width, left: way.usable - taken, lies });
        self.settle(sheet);
    }

    /// Takes a strip off a sheet.
    pub(super) fn take_strip(&self, sheet: &mut Sheet, strip: usize) -> Strip {
        let strip = sheet.strips.swap_remove(strip);
        sheet.spare += self.ways[sheet.way].widths[strip.width].takes;
        self.settle(sheet);
        strip
    }

    fn settle(&self, sheet: &mut Sheet) {
        sheet.cuts = self.ways[sheet.way].ripping.cuts(count(&sheet.strips), Length::from_raw(sheet.spare));
        sheet.cost = self.cost(sheet.way, sheet.cuts);
    }

    fn cost(&self, way: usize, cuts: u32) -> i64 {
        let charges = &self.problem.charges;
        charges.sheets[self.ways[way].ripping.sheet] + charges.of_cuts(cuts)
    }

    /// The part of a sheet that no panel is cut from.
    #[allow(clippy::cast_precision_loss)] // only weighs one sheet against another
    pub(super) fn waste(&self, sheet: &Sheet) -> f64 {
        let way = &self.ways[sheet.way];
        let left = sheet.strips.iter().map(|strip| strip.left as f64 * way.widths[strip.width].takes as f64);
        let all = way.usable as f64 * way.room as f64;
        (sheet.spare as f64 * way.usable as f64 + left.sum::<f64>()) / all
    }

    /// What all costs, in units.
    pub(super) fn money(&self, bench: &Bench) -> i64 {
        bench.cost + self.problem.charges.of_order(i64::from(bench.cuts))
    }

    /// What all costs once a sheet has so many cuts and this cost.
    pub(super) fn money_after(&self, bench: &Bench, sheet: &Sheet, (cuts, cost): (u32, i64)) -> i64 {
        bench.cost - sheet.cost + cost + self.problem.charges.of_order(i64::from(bench.cuts - sheet.cuts + cuts))
    }

    /// Ways to rip a sheet that can still be had for so much.
    pub(super) fn to_be_had(&self, bench: &Bench, money: i64) -> Vec<usize> {
        let kind = |way: usize| self.ways[way].ripping.sheet;
        let bought = |sheet: usize| bench.sheets.iter().filter(|bought| kind(bought.way) == sheet).count();
        let had = |way: &usize| {
            let sheet = kind(*way);
            let stocked = self.problem.stock[sheet].is_none_or(|stock| bought(sheet) < stock as usize);
            self.problem.charges.sheets[sheet] <= money && stocked
        };
        (0..self.ways.len()).filter(had).collect()
    }

    /// The plan that is on the bench; strips that nothing is cut from are spare in it.
    pub(super) fn plan(&self, bench: &Bench) -> Draft {
        let mut plan = Draft::default();
        for sheet in &bench.sheets {
            let way = &self.ways[sheet.way];
            let mut strips: BTreeMap<usize, u32> = BTreeMap::new();
            for strip in &sheet.strips {
                *strips.entry(strip.width).or_default() += 1;
                if strip.lies.is_empty() {
                    continue;
                }
                let mut pieces: BTreeMap<usize, u32> = BTreeMap::new();
                for lie in &strip.lies {
                    *pieces.entry(way.widths[strip.width].lies[*lie].at).or_default() += 1;
                }
                let (blank, pieces) = (self.blank(sheet.way, strip.width), pieces.into_iter().collect());
                plan.add(Made::Pattern(Pattern { blank, pieces }), 1);
            }
            let board = Board { length: way.ripping.board.raw(), strips: strips.into_iter().collect() };
            plan.add(Made::Layout(Layout { ripping: way.index, boards: vec![board] }), 1);
        }
        plan
    }
}

impl Bench {
    /// Lays a sheet on the bench.
    pub(super) fn add_sheet(&mut self, sheet: Sheet) {
        self.cuts += sheet.cuts;
        self.cost += sheet.cost;
        self.sheets.push(Rc::new(sheet));
    }

    /// Takes a sheet off the bench; its panels are missing then.
    pub(super) fn take_sheet(&mut self, tables: &Tables, sheet: usize) {
        let sheet = self.sheets.swap_remove(sheet);
        self.cuts -= sheet.cuts;
        self.cost -= sheet.cost;
        sheet.strips.iter().for_each(|strip| self.miss(tables, sheet.way, strip));
    }

    /// Takes a strip off a sheet, and the sheet where it was the last; its panels are missing then.
    pub(super) fn take_strip(&mut self, tables: &Tables, sheet: usize, strip: usize) {
        if self.sheets[sheet].strips.len() == 1 {
            return self.take_sheet(tables, sheet);
        }
        let strip = self.change(sheet, |sheet| tables.take_strip(sheet, strip));
        self.miss(tables, self.sheets[sheet].way, &strip);
    }

    /// Rips a strip and cuts missing panels from it.
    pub(super) fn add_strip(&mut self, tables: &Tables, sheet: usize, width: usize, lies: Vec<usize>) {
        let way = &tables.ways[self.sheets[sheet].way];
        for lie in &lies {
            self.missing[way.widths[width].lies[*lie].size] -= 1;
        }
        self.change(sheet, |sheet| tables.add_strip(sheet, width, lies));
    }

    /// Cuts a missing panel from a strip.
    pub(super) fn add_panel(&mut self, tables: &Tables, sheet: usize, strip: usize, lie: usize) {
        let sheet = Rc::make_mut(&mut self.sheets[sheet]);
        let strip = &mut sheet.strips[strip];
        let Lie { size, takes, .. } = &tables.ways[sheet.way].widths[strip.width].lies[lie];
        strip.left -= takes;
        strip.lies.push(lie);
        self.missing[*size] -= 1;
    }

    fn change<T>(&mut self, sheet: usize, change: impl FnOnce(&mut Sheet) -> T) -> T {
        let sheet = Rc::make_mut(&mut self.sheets[sheet]);
        self.cuts -= sheet.cuts;
        self.cost -= sheet.cost;
        let done = change(sheet);
        self.cuts += sheet.cuts;
        self.cost += sheet.cost;
        done
    }

    fn miss(&mut self, tables: &Tables, way: usize, strip: &Strip) {
        let lies = &tables.ways[way].widths[strip.width].lies;
        strip.lies.iter().for_each(|lie| self.missing[lies[*lie].size] += 1);
    }
}

fn count(strips: &[Strip]) -> u32 {
    u32::try_from(strips.len()).expect("a sheet has few strips")
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
