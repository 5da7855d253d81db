//! What is on the bench: sheets with their strips and panels, and the panels that are still missing.

use super::super::draft::Draft;
use super::super::layout::{Board, Layout, blank};
use super::super::master::Made;
use super::super::need::Need;
use super::super::pattern::{Blank, Pattern};
use super::tables::{Lie, Tables};
use crate::length::Length;
use crate::model::Problem;
use std::cell::Cell;
use std::collections::BTreeMap;
use std::rc::Rc;

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
    /// Most raw units that nothing is cut from, of any of its strips.
    pub most_left: i64,
    /// Whether it is noted in this cycle what it is made of.
    pub noted: Cell<bool>,
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

/// Whether a plan can be cut anew: no sheet of it is broken down.
pub(in crate::solve) fn can_be_cut(problem: &Problem, plan: &Draft) -> bool {
    plan.layouts.keys().all(|layout| !layout.is_broken() && problem.rippings[layout.ripping].whole)
}

impl Tables<'_> {
    /// A plan on the bench; none where it cannot be cut anew.
    pub(super) fn bench(&self, plan: &Draft, need: &Need) -> Option<Bench> {
        if !can_be_cut(self.problem, plan) {
            return None;
        }
        let mut bench = Bench { sheets: Vec::new(), missing: need.count.clone(), cuts: 0, cost: 0 };
        for ((_, pattern), copies) in &plan.on_hand {
            for (size, each) in pattern.yields(self.problem) {
                bench.missing[size] = bench.missing[size].saturating_sub(each * copies);
            }
        }
        let mut patterns = plan.patterns.clone();
        for (layout, copies) in &plan.layouts {
            let way = self.ways.iter().position(|way| way.index == layout.ripping).expect("a way to rip whole sheets");
            for _ in 0..*copies {
                let mut sheet = self.sheet(way);
                for (width, strips) in layout.boards.iter().flat_map(|board| &board.strips) {
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
        let (spare, noted) = (self.ways[way].room, Cell::new(false));
        let mut sheet = Sheet { way, spare, strips: Vec::new(), most_left: 0, noted, cuts: 0, cost: 0 };
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
        sheet.look_again();
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
        bench.sheets.iter().flat_map(|sheet| self.made_of(sheet)).for_each(|made| plan.add(made, 1));
        plan
    }

    /// The layout of a sheet, and the pattern of each strip that something is cut from.
    pub(super) fn made_of(&self, sheet: &Sheet) -> Vec<Made> {
        let way = &self.ways[sheet.way];
        let mut strips: BTreeMap<usize, u32> = BTreeMap::new();
        sheet.strips.iter().for_each(|strip| *strips.entry(strip.width).or_default() += 1);
        let board = Board { length: way.ripping.board.raw(), strips: strips.into_iter().collect() };
        let layout = Made::Layout(Layout { ripping: way.index, boards: vec![board] });
        let cut = sheet.strips.iter().filter(|strip| !strip.lies.is_empty());
        [layout].into_iter().chain(cut.map(|strip| Made::Pattern(self.pattern(sheet.way, strip)))).collect()
    }

    fn pattern(&self, way: usize, strip: &Strip) -> Pattern {
        let lies = &self.ways[way].widths[strip.width].lies;
        let mut pieces: BTreeMap<usize, u32> = BTreeMap::new();
        strip.lies.iter().for_each(|lie| *pieces.entry(lies[*lie].at).or_default() += 1);
        Pattern { blank: self.blank(way, strip.width), pieces: pieces.into_iter().collect() }
    }
}

impl Sheet {
    /// Its strips are not what they were.
    fn look_again(&mut self) {
        self.most_left = self.strips.iter().map(|strip| strip.left).max().unwrap_or(0);
        self.noted.set(false);
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
        sheet.look_again();
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
