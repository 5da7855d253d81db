//! How missing panels are cut: from strips that there are, then from new strips, each chosen so that all that its sheet
//! still gives makes most of the sheet's room.

use super::Anew;
use super::bench::{Bench, Sheet};
use super::fill::Fill;

/// Of a hundred strips that would do, those that are overlooked.
const OVERLOOKED: u32 = 2;
/// How far the worth of panels and the choice of strips are off, at most.
const NOISE: [f64; 2] = [0.15, 0.025];

impl Anew<'_> {
    /// Cuts missing panels: from strips that there are, then from new strips and new sheets.
    pub(super) fn cut(&mut self, bench: &mut Bench) {
        let spread = NOISE[0] * self.dice.f64();
        for (now, worth) in self.now.iter_mut().zip(&self.worth) {
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
        self.fills.iter_mut().flatten().for_each(|fill| *fill = None);
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
            let widths = &self.tables.ways[sheet.way].widths;
            self.looks += sheet.strips.len() as u64;
            for (index, strip) in sheet.strips.iter().enumerate() {
                let Some((lie, taken)) = widths[strip.width].lie(size) else { continue };
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
        let mut best: Option<(f64, usize, usize)> = None;
        let mut seen: Vec<(usize, i64)> = Vec::new();
        for (at, sheet) in bench.sheets.iter().enumerate() {
            if seen.contains(&(sheet.way, sheet.spare)) {
                continue;
            }
            seen.push((sheet.way, sheet.spare));
            let fill = self.strips(bench, sheet);
            let Some(first) = fill.cut.first() else { continue };
            let dense = fill.worth / (sheet.spare as f64 * self.tables.ways[sheet.way].usable as f64);
            if best.is_none_or(|(most, ..)| dense > most) {
                best = Some((dense, at, *first));
            }
        }
        let Some((_, sheet, width)) = best else { return false };
        let way = bench.sheets[sheet].way;
        let lies = self.fills[way][width].take().expect("it was just looked at").cut;
        let cut: Vec<usize> = lies.iter().map(|lie| self.tables.ways[way].widths[width].lies[*lie].size).collect();
        bench.add_strip(&self.tables, sheet, width, lies);
        // What was found for others may want what is no longer missing.
        for (way, fills) in self.tables.ways.iter().zip(&mut self.fills) {
            for (width, fill) in way.widths.iter().zip(fills) {
                let wants = |fill: &Fill| fill.cut.iter().any(|lie| cut.contains(&width.lies[*lie].size));
                if fill.as_ref().is_some_and(wants) {
                    *fill = None;
                }
            }
        }
        true
    }

    /// The strips that together make most of a sheet's room, each as it is best cut on its own; that which makes most of
    /// its own room comes first.
    #[allow(clippy::cast_precision_loss)] // only weighs one strip against another
    fn strips(&mut self, bench: &Bench, sheet: &Sheet) -> Fill {
        let Anew { tables, fills, filler, dice, .. } = self;
        let (way, money) = (&tables.ways[sheet.way], tables.money(bench));
        let mut strips = Vec::new();
        for (index, width) in way.widths.iter().enumerate().take_while(|(_, width)| width.takes <= sheet.spare) {
            self.looks += 1;
            let Some(with) = tables.with_strip(sheet, index) else { continue };
            let after = tables.money_after(bench, sheet, with);
            if after > self.target {
                continue;
            }
            let known = &mut fills[sheet.way][index];
            let fill = known.get_or_insert_with(|| filler.panels(width, way.usable, &bench.missing, &self.now));
            let noise = 1.0 + NOISE[1] * (2.0 * dice.f64() - 1.0);
            let worth = (fill.worth - (after - money) as f64) * noise;
            strips.push((index, worth, width.takes, width.copies(fill, &bench.missing)));
        }
        filler.strips(sheet.spare, strips.into_iter())
    }

    /// Begins a sheet, if there is money for one; false where there is not, or the last is still whole.
    fn begin_sheet(&mut self, bench: &mut Bench) -> bool {
        let left = self.target - self.tables.money(bench);
        let ways = self.tables.to_be_had(bench, left);
        if ways.is_empty() || bench.sheets.iter().any(|sheet| sheet.strips.is_empty()) {
            return false;
        }
        let way = ways[self.dice.usize(0..ways.len())];
        bench.add_sheet(self.tables.sheet(way));
        true
    }
}
