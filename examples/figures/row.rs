//! One case: what came out, and how long it took.

use crate::cases::Case;
use crate::clock::{Clock, Took};
use std::collections::BTreeSet;
use yardslip::solve::{Solved, solve};

/// A case and its answer.
pub(crate) struct Row {
    pub(crate) case: Case,
    /// The answer, or the first reason why there is none.
    pub(crate) answer: Result<Solved, String>,
    pub(crate) took: Took,
}

impl Row {
    pub(crate) fn of(case: Case, seconds: f64) -> Row {
        let clock = Clock::new(seconds);
        let answer = solve(&case.job, &clock).map_err(|faults| faults[0].cause.clone());
        Row { case, answer, took: clock.took() }
    }

    /// Seconds that the same case takes once more.
    pub(crate) fn again(&self, seconds: f64) -> f64 {
        let clock = Clock::new(seconds);
        // What comes out is known.
        drop(solve(&self.case.job, &clock));
        clock.took().wall
    }

    /// Whether the solver proved its plan.
    pub(crate) fn proved(&self) -> bool {
        self.answer.as_ref().is_ok_and(|solved| solved.proof.proved)
    }

    /// Whether the plan, where the fewest sheets are known, takes more, or claims what cannot be.
    pub(crate) fn wrong(&self) -> bool {
        let Some(optimum) = self.case.optimum else { return false };
        let Ok(solved) = &self.answer else { return true };
        sheets(solved) < optimum || (solved.proof.proved && sheets(solved) != optimum)
    }

    pub(crate) fn print(&self) {
        let optimum = self.case.optimum.map_or("-".into(), |optimum| optimum.to_string());
        let [wall, processor] = [self.took.wall, self.took.processor].map(|seconds| seconds * 1000.0);
        let name = &self.case.name;
        match &self.answer {
            Ok(solved) => {
                let [cost, bound] = [solved.cost, solved.proof.bound].map(|money| money.to_string());
                let proof = if self.proved() { "proved" } else { "within" };
                let (sheets, layouts, patterns) = (sheets(solved), solved.sheets.len(), patterns(solved));
                println!(
                    "{name:26} {optimum:>7} {sheets:>6} {cost:>11} {bound:>11} {proof:>6} {layouts:>7} {patterns:>8} {wall:>10.1} {processor:>10.1}"
                );
            }
            Err(why) => println!("{name:26} {optimum:>7} {why} {wall:>10.1} {processor:>10.1}"),
        }
    }
}

/// The heads of the columns.
pub(crate) fn print_head() {
    println!(
        "{:26} {:>7} {:>6} {:>11} {:>11} {:>6} {:>7} {:>8} {:>10} {:>10}",
        "case", "optimum", "sheets", "cost", "bound", "proof", "layouts", "patterns", "ms", "all cores"
    );
}

fn sheets(solved: &Solved) -> u32 {
    solved.sheets.iter().map(|sheet| sheet.count).sum()
}

/// Different ways to crosscut a strip in the plan.
fn patterns(solved: &Solved) -> usize {
    let boards = solved.sheets.iter().flat_map(|sheet| &sheet.boards);
    let strips: BTreeSet<_> = boards.flat_map(|board| &board.strips).collect();
    strips.len() + solved.on_hand.len()
}
