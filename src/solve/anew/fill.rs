//! The missing panels that make most of one strip: a depth-first search through their counts, which is broken off where
//! it takes long.

use super::bench::Width;

/// Most turns of the search for one strip.
const TURNS: u32 = 100;

/// What to cut from a strip.
#[derive(Clone, Default)]
pub(super) struct Fill {
    /// What it is worth.
    pub worth: f64,
    /// Indices into the width's lies.
    pub lies: Vec<usize>,
}

/// A size that may be cut.
struct Item {
    worth: f64,
    takes: i64,
    most: i64,
    lie: usize,
    /// What a raw unit is worth at most, of this and all that follow.
    density: f64,
}

/// Finds fillings, and keeps its memory from one to the next.
#[derive(Default)]
pub(super) struct Filler {
    items: Vec<Item>,
    /// What is laid on the strip now.
    now: Vec<usize>,
    left: u32,
    /// Turns of all searches so far.
    pub turns: u64,
}

impl Filler {
    /// What is worth most on a strip of this width with so much room, of the panels missing, at this worth of each.
    #[allow(clippy::cast_precision_loss)] // lengths weigh worths against each other
    pub(super) fn fill(&mut self, width: &Width, room: i64, missing: &[u32], worth: &[f64], best: &mut Fill) {
        self.items.clear();
        for (index, lie) in width.lies.iter().enumerate() {
            if missing[lie.size] > 0 && lie.takes <= room {
                let (worth, takes, most) = (worth[lie.size], lie.takes, i64::from(missing[lie.size]));
                self.items.push(Item { worth, takes, most, lie: index, density: 0.0 });
            }
        }
        self.items.iter_mut().rev().fold(0.0_f64, |most, item| {
            item.density = most.max(item.worth / item.takes as f64);
            item.density
        });
        best.worth = 0.0;
        best.lies.clear();
        self.left = TURNS;
        self.go(0, room, 0.0, best);
        self.turns += u64::from(TURNS - self.left) + 1;
    }

    #[allow(clippy::cast_precision_loss)] // as above
    fn go(&mut self, at: usize, room: i64, worth: f64, best: &mut Fill) {
        if worth > best.worth {
            best.worth = worth;
            best.lies.clone_from(&self.now);
        }
        let Some(item) = self.items.get(at) else { return };
        if self.left == 0 || worth + room as f64 * item.density <= best.worth * (1.0 + 1e-9) {
            return;
        }
        self.left -= 1;
        let (each, takes, lie, before) = (item.worth, item.takes, item.lie, self.now.len());
        let most = (room / takes).min(item.most);
        self.now.extend((0..most).map(|_| lie));
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
