//! What makes most of some room: missing panels of a strip's length, or strips of a sheet's width. A depth-first search
//! through their counts, which is broken off where it takes long.

use super::tables::Width;

/// Most turns of one search.
const TURNS: u32 = 100;

/// What to cut from a strip.
#[derive(Clone, Default)]
pub(super) struct Fill {
    /// Whether it is known yet: all else tells nothing before.
    pub known: bool,
    /// What it is worth.
    pub worth: f64,
    /// Indices into the width's lies, and how many of each.
    pub cut: Vec<(usize, u32)>,
    /// How often it can be cut, of the panels missing.
    pub copies: u32,
}

/// A panel or a strip that may be cut.
struct Item {
    index: usize,
    worth: f64,
    takes: i64,
    most: u32,
    /// What a raw unit is worth at most, of this and all that follow.
    density: f64,
    /// Raw units that one of this and all that follow takes at least.
    least: i64,
}

/// Finds fillings, and keeps its memory from one to the next.
#[derive(Default)]
pub(super) struct Filler {
    items: Vec<Item>,
    /// How many of each item are laid out now.
    now: Vec<u32>,
    /// What is worth most so far, and how many of each item it takes; those that follow are not in it.
    worth: f64,
    best: Vec<u32>,
    left: u32,
    /// Turns of all searches so far.
    pub turns: u64,
}

impl Filler {
    /// Finds what is worth most on a strip of this width with so much room, of the panels missing, at this worth of each.
    pub(super) fn panels(&mut self, fill: &mut Fill, width: &Width, room: i64, missing: &[u32], worth: &[f64]) {
        self.items.clear();
        for (index, lie) in width.lies.iter().enumerate() {
            self.offer(index, worth[lie.size], lie.takes, missing[lie.size]);
        }
        self.search(room);
        fill.known = true;
        fill.worth = self.worth;
        fill.cut.clear();
        let cut = self.items.iter().zip(&self.best).filter(|(_, copies)| **copies > 0);
        fill.cut.extend(cut.map(|(item, copies)| (item.index, *copies)));
        fill.copies = width.copies(&fill.cut, missing);
    }

    /// What is worth most in so much room of a sheet, of strips: index, worth, room that one takes, most of them. Its
    /// worth, and which of its strips is worth most for its room; none where nothing is worth anything.
    pub(super) fn strips(
        &mut self,
        room: i64,
        strips: impl Iterator<Item = (usize, f64, i64, u32)>,
    ) -> Option<(f64, usize)> {
        self.items.clear();
        strips.for_each(|(index, worth, takes, most)| self.offer(index, worth, takes, most));
        self.items.sort_by(|a, b| dense(b).total_cmp(&dense(a)));
        self.search(room);
        let first = self.best.iter().position(|copies| *copies > 0)?;
        Some((self.worth, self.items[first].index))
    }

    fn offer(&mut self, index: usize, worth: f64, takes: i64, most: u32) {
        if worth > 0.0 && most > 0 {
            self.items.push(Item { index, worth, takes, most, density: 0.0, least: 0 });
        }
    }

    fn search(&mut self, room: i64) {
        self.items.iter_mut().rev().fold((0.0_f64, i64::MAX), |(most, least), item| {
            (item.density, item.least) = (most.max(dense(item)), least.min(item.takes));
            (item.density, item.least)
        });
        self.worth = 0.0;
        self.best.clear();
        self.now.clear();
        self.now.resize(self.items.len(), 0);
        self.left = TURNS;
        self.go(0, room, 0.0);
        self.turns += u64::from(TURNS - self.left) + 1;
    }

    /// Lays out items from this one on, in what room is left beside those laid out before.
    #[allow(clippy::cast_precision_loss)] // lengths weigh worths against each other
    fn go(&mut self, from: usize, room: i64, worth: f64) {
        if worth > self.worth {
            self.worth = worth;
            self.best.clear();
            self.best.extend_from_slice(&self.now[..from]);
        }
        for at in from..self.items.len() {
            let Item { worth: each, takes, most, density, least, .. } = self.items[at];
            if room < least || worth + room as f64 * density <= self.worth * (1.0 + 1e-9) {
                return;
            }
            let most = (room / takes).min(i64::from(most));
            for copies in (1..=most).rev() {
                if self.left == 0 {
                    break;
                }
                self.left -= 1;
                self.now[at] = u32::try_from(copies).expect("no more than there may be");
                self.go(at + 1, room - copies * takes, worth + copies as f64 * each);
            }
            self.now[at] = 0;
        }
    }
}

#[allow(clippy::cast_precision_loss)] // as above
fn dense(item: &Item) -> f64 {
    item.worth / item.takes as f64
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The most that so much room can be worth, every filling tried.
    fn most(items: &[(f64, i64, u32)], room: i64) -> f64 {
        let Some(((worth, takes, most_of_it), others)) = items.split_first() else { return 0.0 };
        let fitting = (0..=*most_of_it).take_while(|copies| i64::from(*copies) * takes <= room);
        let all = fitting.map(|copies| f64::from(copies) * worth + most(others, room - i64::from(copies) * takes));
        all.fold(0.0, f64::max)
    }

    #[test]
    fn no_filling_is_worth_more_where_the_search_comes_to_its_end() {
        let (mut dice, mut filler, mut ended) = (fastrand::Rng::with_seed(7), Filler::default(), 0);
        for _ in 0..500 {
            let several = dice.usize(1..=6);
            let items: Vec<(f64, i64, u32)> =
                (0..several).map(|_| (f64::from(dice.u32(1..=40)), dice.i64(3..=30), dice.u32(0..=4))).collect();
            let room = dice.i64(1..=60);
            let offered = items.iter().enumerate().map(|(index, (worth, takes, most))| (index, *worth, *takes, *most));
            let found = filler.strips(room, offered);
            if filler.left > 0 {
                ended += 1;
                let (worth, most) = (found.map_or(0.0, |(worth, _)| worth), most(&items, room));
                assert!((worth - most).abs() < 1e-6, "{worth}, not {most}: {items:?} in {room}");
            }
            if let Some((_, first)) = found {
                assert!(items[first].1 <= room && items[first].2 > 0, "{items:?} in {room}: {first}");
            }
        }
        assert!(ended > 400, "only {ended} searches came to their end");
    }
}
