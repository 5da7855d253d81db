//! What is torn up in a round: whole sheets, the wasteful ones sooner, or single strips here and there.

use super::Anew;
use super::bench::Bench;

/// How often whole sheets are torn up; of these, how often more than one, and how often more than two.
const SHEETS: [f64; 3] = [0.5, 0.5, 0.3];
/// Most strips that are torn up elsewhere.
const STRIPS: usize = 5;

impl Anew<'_> {
    /// Tears up some sheets or strips, and more where the rest costs too much.
    pub(super) fn tear_up(&mut self, bench: &mut Bench) {
        if self.dice.f64() < SHEETS[0] {
            let more = SHEETS[1..].iter().take_while(|part| self.dice.f64() < **part).count();
            (0..=more).for_each(|_| self.tear_up_sheet(bench));
        } else {
            for _ in 0..self.dice.usize(1..=STRIPS) {
                if !bench.sheets.is_empty() {
                    let sheet = self.dice.usize(0..bench.sheets.len());
                    let strip = self.dice.usize(0..bench.sheets[sheet].strips.len());
                    bench.take_strip(&self.tables, sheet, strip);
                }
            }
        }
        while self.tables.money(bench) > self.target && !bench.sheets.is_empty() {
            self.tear_up_sheet(bench);
        }
    }

    /// Of two sheets by chance, tears up that of which more is wasted.
    fn tear_up_sheet(&mut self, bench: &mut Bench) {
        if !bench.sheets.is_empty() {
            let [one, other] = [0, 1].map(|_| self.dice.usize(0..bench.sheets.len()));
            let [waste, others] = [one, other].map(|sheet| self.tables.waste(&bench.sheets[sheet]));
            bench.take_sheet(&self.tables, if others > waste { other } else { one });
        }
    }
}
