//! How missing panels are cut: from strips that there are, then from new strips, each chosen so that all that its sheet
//! still gives makes most of the sheet's room.

use super::Anew;
use super::bench::{Bench, Sheet};
use super::tables::Way;
use std::iter::repeat_n;

/// Of a hundred strips that would do, those that are overlooked.
const OVERLOOKED: u32 = 2;
/// How far the worth of panels and the choice of strips are off, at most.
const NOISE: [f64; 2] = [0.15, 0.025];

impl Anew<'_> {
    /// Cuts missing panels: from strips that there are, then from new strips and new sheets.
    pub(super) fn cut(&mut self, bench: &mut Bench) {
        let spread = NOISE[0] * self.dice.f64();
        for (now, worth) in self.now.iter_mut().zip(&self.hints.worth) {
            *now = worth * (1.0 + spread * (2.0 * self.dice.f64() - 1.0));
        }
        let mut sizes: Vec<usize> = (0..bench.missing.len()).filter(|size| bench.missing[*size] > 0).collect();
        sizes.sort_by(|a, b| self.now[*b].total_cmp(&self.now[*a]));
        for size in sizes {
            while bench.missing[size] > 0
                && let Some((sheet, strip, lie)) = self.tightest(bench, size)
            {
                bench.add_panel(&self.tables, sheet, strip, lie);
            }
        }
        self.fills.iter_mut().flatten().for_each(|fill| fill.known = false);
        while bench.missing.iter().any(|missing| *missing > 0) {
            if !self.rip(bench) && !self.begin_sheet(bench) {
                break;
            }
        }
        for sheet in (0..bench.sheets.len()).rev() {
            if bench.sheets[sheet].strips.is_empty() {
                bench.take_sheet(&self.tables, sheet);
            }
        }
    }

    /// The strip that a panel fits with the least left over: sheet, strip, way to lie.
    fn tightest(&mut self, bench: &Bench, size: usize) -> Option<(usize, usize, usize)> {
        let mut best: Option<(i64, (usize, usize, usize))> = None;
        for (at, sheet) in bench.sheets.iter().enumerate() {
            self.looks += 1;
            let way = &self.tables.ways[sheet.way];
            if sheet.most_left < way.shortest[size] {
                continue;
            }
            self.looks += sheet.strips.len() as u64;
            for (index, strip) in sheet.strips.iter().enumerate() {
                let Some((lie, taken)) = way.widths[strip.width].lie(size) else { continue };
                let left = strip.left - taken.takes;
                let tighter = left >= 0 && best.is_none_or(|(least, _)| left < least);
                if tighter && self.dice.u32(0..100) >= OVERLOOKED {
                    best = Some((left, (at, index, lie)));
                }
            }
        }
        best.map(|(_, strip)| strip)
    }

    /// Of the sheet whose strips together make most of its room, rips the strip that makes most of its own; false where
    /// there is none.
    #[allow(clippy::cast_precision_loss)] // only weighs one sheet against another
    fn rip(&mut self, bench: &mut Bench) -> bool {
        let narrowest = |way: &Way| {
            let missing = way.narrowest.iter().zip(&bench.missing).filter(|(_, missing)| **missing > 0);
            missing.map(|(takes, _)| *takes).min().unwrap_or(i64::MAX)
        };
        let narrowest: Vec<i64> = self.tables.ways.iter().map(narrowest).collect();
        let mut best: Option<(f64, usize, usize)> = None;
        let mut seen: Vec<(usize, i64)> = Vec::new();
        for (at, sheet) in bench.sheets.iter().enumerate() {
            if sheet.spare < narrowest[sheet.way] || seen.contains(&(sheet.way, sheet.spare)) {
                continue;
            }
            seen.push((sheet.way, sheet.spare));
            let Some((worth, first)) = self.strips(bench, sheet) else { continue };
            let dense = worth / (sheet.spare as f64 * self.tables.ways[sheet.way].usable as f64);
            if best.is_none_or(|(most, ..)| dense > most) {
                best = Some((dense, at, first));
            }
        }
        let Some((_, sheet, width)) = best else { return false };
        let cut = &self.fills[bench.sheets[sheet].way][width].cut;
        let lies = cut.iter().flat_map(|(lie, copies)| repeat_n(*lie, *copies as usize)).collect();
        bench.add_strip(&self.tables, sheet, width, lies);
        self.forget(bench);
        true
    }

    /// What was found best for a strip may want what is no longer missing.
    fn forget(&mut self, bench: &Bench) {
        for (way, fills) in self.tables.ways.iter().zip(&mut self.fills) {
            for (width, fill) in way.widths.iter().zip(fills) {
                if fill.known && fill.copies > 0 {
                    fill.copies = width.copies(&fill.cut, &bench.missing);
                    fill.known = fill.copies > 0;
                }
            }
        }
    }

    /// The strips that together make most of a sheet's room, each as it is best cut on its own: what they are worth, and
    /// the width of that which makes most of its own room.
    #[allow(clippy::cast_precision_loss)] // only weighs one strip against another
    fn strips(&mut self, bench: &Bench, sheet: &Sheet) -> Option<(f64, usize)> {
        let Anew { tables, fills, filler, dice, .. } = self;
        let (way, fills, money) = (&tables.ways[sheet.way], &mut fills[sheet.way], tables.money(bench));
        let narrow = way.widths.iter().take_while(|width| width.takes <= sheet.spare).count();
        self.looks += narrow as u64;
        for (width, fill) in way.widths[..narrow].iter().zip(&mut *fills).filter(|(_, fill)| !fill.known) {
            filler.panels(fill, width, way.usable, &bench.missing, &self.now);
        }
        let strips = way.widths[..narrow].iter().zip(fills).enumerate().filter_map(|(index, (width, fill))| {
            let with = tables.with_strip(sheet, index).filter(|_| fill.copies > 0)?;
            let after = tables.money_after(bench, sheet, with);
            let noise = 1.0 + NOISE[1] * (2.0 * dice.f64() - 1.0);
            let worth = (fill.worth - (after - money) as f64) * noise;
            (after <= self.target).then_some((index, worth, width.takes, fill.copies))
        });
        filler.strips(sheet.spare, strips)
    }

    /// Begins a sheet, if there is money for one; false where there is not, or the last is still whole.
    pub(super) fn begin_sheet(&mut self, bench: &mut Bench) -> bool {
        let left = self.target - self.tables.money(bench);
        let ways = self.tables.to_be_had(bench, left);
        if ways.is_empty() || bench.sheets.iter().any(|sheet| sheet.strips.is_empty()) {
            return false;
        }
        let all: f64 = ways.iter().map(|way| self.favour[*way]).sum();
        let mut chance = self.dice.f64() * all;
        let drawn = ways.iter().find(|way| {
            chance -= self.favour[**way];
            chance < 0.0
        });
        let way = *drawn.unwrap_or(&ways[0]);
        bench.add_sheet(self.tables.sheet(way));
        true
    }
}
