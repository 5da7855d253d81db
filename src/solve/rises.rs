//! What is known about how much the bound rises where a count that is not whole is kept below or above its value: the
//! branching of the tree and of the search through a list go by it. Counts are probed until enough is known of them
//! (reliability branching, Achterberg, Koch and Martin 2005).

/// How much the bound rises, for each one that a count is kept below or above its value, summed over so many probes.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Rises {
    down: f64,
    up: f64,
    times: u32,
}

/// Probes after which what is known of a count is trusted.
const TRUSTED: u32 = 4;

impl Rises {
    /// Whether enough probes were made.
    pub(super) fn are_trusted(self) -> bool {
        self.times >= TRUSTED
    }

    /// The same with another probe, of a value `part` above a whole number: how much the bound rose below and above it.
    pub(super) fn with(self, (down, up): (f64, f64), part: f64) -> Rises {
        Rises { down: self.down + down / part, up: self.up + up / (1.0 - part), times: self.times + 1 }
    }

    /// What to expect where the value is `part` above a whole number.
    pub(super) fn expected(self, part: f64) -> (f64, f64) {
        let times = f64::from(self.times.max(1));
        (self.down / times * part, self.up / times * (1.0 - part))
    }
}

/// How good it is to split where the bound rises so much below and above; `least` stands for no rise at all.
pub(super) fn score((down, up): (f64, f64), least: f64) -> f64 {
    (down + least) * (up + least)
}
