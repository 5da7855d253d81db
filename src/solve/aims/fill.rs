//! Extra panels from what would be waste: each fall-off of a strip, and each strip on hand that is still whole, is
//! filled with the welcome panels worth most, as long as that is worth more than keeping it. One strip after the
//! other, each at its best (a knapsack); not the best over all strips together.

use super::super::knapsack::{Choice, Knapsack, Step};
use super::super::solved::{PieceCut, SheetUse, StripUse};
use super::super::tail::Tail;
use super::count::{ripping, room};
use crate::length::Length;
use crate::model::{Family, Problem, StripWidth};
use std::collections::BTreeMap;

/// Welcome panels still to be had: for each line, how many and what one is worth.
pub(super) struct Wishes<'a> {
    problem: &'a Problem,
    left: BTreeMap<usize, (u32, i64)>,
}

/// The answer with extra panels in its fall-offs.
pub(super) fn fill(problem: &Problem, sheets: Vec<SheetUse>, on_hand: &[StripUse]) -> (Vec<SheetUse>, Vec<StripUse>) {
    let mut wishes = Wishes::of(problem);
    let strips = sheets.iter().flat_map(|sheet| sheet.boards.iter().map(move |board| (sheet.count, &board.strips)));
    for (count, strips) in strips {
        for strip in strips {
            wishes.take(&strip.pieces, count);
        }
    }
    for used in on_hand {
        wishes.take(&used.pieces, used.count);
    }
    let on_hand = wishes.fill_on_hand(on_hand);
    (wishes.fill_sheets(sheets), on_hand)
}

impl<'a> Wishes<'a> {
    /// All that is welcome.
    pub(super) fn of(problem: &'a Problem) -> Wishes<'a> {
        let wishes = problem.sizes.iter().flat_map(|size| &size.wishes);
        Wishes { problem, left: wishes.map(|wish| (wish.line, (wish.most, wish.worth))).collect() }
    }

    /// Extra panels that are cut already are welcome no more.
    fn take(&mut self, pieces: &[PieceCut], copies: u32) {
        for piece in pieces.iter().filter(|piece| piece.extra) {
            if let Some((left, _)) = self.left.get_mut(&piece.panel) {
                *left = left.saturating_sub(copies);
            }
        }
    }

    fn fill_sheets(&mut self, sheets: Vec<SheetUse>) -> Vec<SheetUse> {
        let mut filled: BTreeMap<SheetUse, u32> = BTreeMap::new();
        for sheet in sheets {
            for _ in 0..sheet.count {
                *filled.entry(self.fill_sheet(SheetUse { count: 0, ..sheet.clone() })).or_default() += 1;
            }
        }
        let mut sheets: Vec<SheetUse> = filled.into_iter().map(|(sheet, count)| SheetUse { count, ..sheet }).collect();
        sheets.sort_by(|a, b| b.count.cmp(&a.count).then_with(|| a.cmp(b)));
        sheets
    }

    fn fill_sheet(&mut self, mut sheet: SheetUse) -> SheetUse {
        let ripping = ripping(self.problem, &sheet);
        let family = &self.problem.families[ripping.family];
        for board in &mut sheet.boards {
            let usable = ripping.usable(board.length);
            for strip in &mut board.strips {
                self.fill_strip(family, strip.width, usable, &mut strip.pieces);
            }
            board.strips.sort_unstable();
        }
        sheet
    }

    fn fill_on_hand(&mut self, on_hand: &[StripUse]) -> Vec<StripUse> {
        let mut filled: BTreeMap<(usize, Vec<PieceCut>), u32> = BTreeMap::new();
        for strip in &self.problem.on_hand {
            let used = on_hand.iter().filter(|used| used.strip == strip.strip);
            let used = used.flat_map(|used| (0..used.count).map(|_| used.pieces.clone()));
            let blank = std::iter::repeat_with(Vec::new);
            for mut pieces in used.chain(blank).take(strip.count as usize) {
                let family = &self.problem.families[strip.family];
                self.fill_strip(family, family.widths[0].width, strip.usable, &mut pieces);
                if !pieces.is_empty() {
                    *filled.entry((strip.strip, pieces)).or_default() += 1;
                }
            }
        }
        filled.into_iter().map(|((strip, pieces), count)| StripUse { strip, count, pieces }).collect()
    }

    fn fill_strip(&mut self, family: &Family, width: Length, usable: Length, pieces: &mut Vec<PieceCut>) {
        let Some(of) = family.widths.iter().find(|of| of.width == width) else { return };
        for (piece, copies) in self.best(of, room(self.problem, usable, pieces)).1 {
            let Some((left, _)) = self.left.get_mut(&piece.panel) else { continue };
            let copies = copies.min(*left);
            *left -= copies;
            pieces.extend((0..copies).map(|_| piece));
        }
        pieces.sort_unstable();
    }

    /// What is worth most in so much room, its fall-off counted, and what that comes to. Pieces too short to hold are
    /// left out: a longer one is always safe to add.
    pub(super) fn best(&self, width: &StripWidth, room: i64) -> (i64, Vec<(PieceCut, u32)>) {
        let mut pieces = Vec::new();
        let mut choices = Vec::new();
        for laid in width.laid.iter().filter(|laid| laid.along >= self.problem.shortest) {
            for wish in &self.problem.sizes[laid.size].wishes {
                let (most, value) = self.left[&wish.line];
                let length = (laid.along + self.problem.kerf).raw();
                choices.push(Choice { length, most, value, step: Step::Stay });
                let (turned, trimmed) = (laid.turned, laid.trimmed);
                pieces.push(PieceCut { panel: wish.line, turned, trimmed, extra: true });
            }
        }
        let knapsack = Knapsack::new(choices, room, 1, Tail::of_strip(self.problem, width.width, 1));
        let Some(filling) = knapsack.best(pieces.len(), 0, room, 0) else { return (0, Vec::new()) };
        let copies = pieces.into_iter().zip(filling.copies).filter(|(_, copies)| *copies > 0);
        (filling.value, copies.collect())
    }
}
