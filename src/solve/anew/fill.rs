//! What makes most of some room: missing panels of a strip's length, or strips of a sheet's width. A depth-first search
//! through their counts, which is broken off where it takes long.

use super::tables::Width;

/// Most turns of one search.
const TURNS: u32 = 100;

/// What to cut from some room.
#[derive(Clone, Default)]
pub(super) struct Fill {
    /// What it is worth.
    pub worth: f64,
    /// Indices into the width's lies, or into the way's widths.
    pub cut: Vec<usize>,
}

/// A panel or a strip that may be cut.
struct Item {
    index: usize,
    worth: f64,
    takes: i64,
    most: i64,
    /// What a raw unit is worth at most, of this and all that follow.
    density: f64,
}

/// Finds fillings, and keeps its memory from one to the next.
#[derive(Default)]
pub(super) struct Filler {
    items: Vec<Item>,
    /// What is laid out now.
    now: Vec<usize>,
    left: u32,
    /// Turns of all searches so far.
    pub turns: u64,
}

impl Filler {
    /// What is worth most on a strip of this width with so much room, of the panels missing, at this worth of each.
    pub(super) fn panels(&mut self, width: &Width, room: i64, missing: &[u32], worth: &[f64]) -> Fill {
        self.items.clear();
        for (index, lie) in width.lies.iter().enumerate() {
            if missing[lie.size] > 0 && lie.takes <= room {
                let (worth, takes, most) = (worth[lie.size], lie.takes, i64::from(missing[lie.size]));
                self.items.push(Item { index, worth, takes, most, density: 0.0 });
            }
        }
        self.fill(room)
    }

    /// What is worth most in so much room of a sheet, of strips: index, worth, room that one takes, most of them. That
    /// which is worth most for its room comes first.
    pub(super) fn strips(&mut self, room: i64, strips: impl Iterator<Item = (usize, f64, i64, i64)>) -> Fill {
        self.items.clear();
        let items = strips.filter(|(_, worth, takes, most)| *worth > 0.0 && *takes <= room && *most > 0);
        self.items.extend(items.map(|(index, worth, takes, most)| Item { index, worth, takes, most, density: 0.0 }));
        self.items.sort_by(|a, b| dense(b).total_cmp(&dense(a)));
        self.fill(room)
    }

    fn fill(&mut self, room: i64) -> Fill {
        self.items.iter_mut().rev().fold(0.0_f64, |most, item| {
            item.density = most.max(dense(item));
            item.density
        });
        let mut best = Fill::default();
        self.left = TURNS;
        self.go(0, room, 0.0, &mut best);
        self.turns += u64::from(TURNS - self.left) + 1;
        best
    }

    #[allow(clippy::cast_precision_loss)] // lengths weigh worths against each other
    fn go(&mut self, at: usize, room: i64, worth: f64, best: &mut Fill) {
        if worth > best.worth {
            best.worth = worth;
            best.cut.clone_from(&self.now);
        }
        let Some(item) = self.items.get(at) else { return };
        if self.left == 0 || worth + room as f64 * item.density <= best.worth * (1.0 + 1e-9) {
            return;
        }
        self.left -= 1;
        let (each, takes, index, before) = (item.worth, item.takes, item.index, self.now.len());
        let most = (room / takes).min(item.most);
        self.now.extend((0..most).map(|_| index));
        for copies in (0..=most).rev() {
            self.go(at + 1, room - copies * takes, worth + copies as f64 * each, best);
            self.now.pop();
            if self.left == 0 {
                break;
            }
        }
        self.now.truncate(before);
    }
}

#[allow(clippy::cast_precision_loss)] // as above
fn dense(item: &Item) -> f64 {
    item.worth / item.takes as f64
}
