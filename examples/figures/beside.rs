//! Our solver and a general-purpose one on the textbook's integer program, one case after the other on one machine.

use crate::cases::Case;
use crate::clock::Clock;
use crate::row::Row;
use crate::summary::median;
use crate::textbook::{Answer, least_money};
use yardslip::data::Cents;
use yardslip::solve::Watch;

/// Both answers to a case.
struct Pair {
    ours: Row,
    theirs: Answer,
    /// That the other solver took, its model's making included.
    seconds: f64,
}

/// Prints both side by side, each with so many seconds for a case, then what they come to.
///
/// # Errors
/// Names the cases in which ours cost more, or one of the two proofs is false.
pub(crate) fn print(cases: impl Iterator<Item = Case>, seconds: f64) -> Result<(), String> {
    println!("{:26} {:>11} {:>6} {:>10}   {:>11} {:>6} {:>10}", "case", "ours", "proof", "ms", "HiGHS", "proof", "ms");
    let mut pairs = Vec::new();
    for case in cases {
        let pair = Pair::of(case, seconds);
        pair.print();
        pairs.push(pair);
    }
    summary(&pairs);
    let worse: Vec<&str> = pairs.iter().filter(|pair| pair.worse()).map(|pair| pair.ours.case.name.as_str()).collect();
    if worse.is_empty() {
        Ok(())
    } else {
        Err(format!("dearer than HiGHS, or one proof is false: {}", worse.join(", ")))
    }
}

impl Pair {
    fn of(case: Case, seconds: f64) -> Pair {
        let clock = Clock::new(seconds);
        let theirs = least_money(&case.job, seconds);
        let took = clock.seconds();
        Pair { ours: Row::of(case, seconds), theirs, seconds: took }
    }

    fn our_cost(&self) -> Option<Cents> {
        self.ours.answer.as_ref().ok().map(|solved| solved.cost)
    }

    fn their_cost(&self) -> Option<Cents> {
        match self.theirs {
            Answer::Least(cost) | Answer::Found(cost) => Some(cost),
            Answer::Impossible | Answer::Nothing => None,
        }
    }

    fn solved_by_both(&self) -> bool {
        self.ours.proved() && matches!(self.theirs, Answer::Least(_))
    }

    /// Whether ours is dearer, or something that is said to be proved is not so.
    fn worse(&self) -> bool {
        let (ours, theirs) = (self.our_cost(), self.their_cost());
        let dearer = theirs.is_some_and(|theirs| ours.is_none_or(|ours| ours > theirs));
        dearer || (matches!(self.theirs, Answer::Least(_)) && ours != theirs)
    }

    fn print(&self) {
        let say = |cost: Option<Cents>| cost.map_or("-".into(), |cost| cost.to_string());
        let proof = |proved: bool| if proved { "proved" } else { "within" };
        println!(
            "{:26} {:>11} {:>6} {:>10.1}   {:>11} {:>6} {:>10.1}",
            self.ours.case.name,
            say(self.our_cost()),
            proof(self.ours.proved()),
            self.ours.seconds * 1000.0,
            say(self.their_cost()),
            proof(matches!(self.theirs, Answer::Least(_))),
            self.seconds * 1000.0,
        );
    }
}

fn summary(pairs: &[Pair]) {
    let ours: Vec<f64> = pairs.iter().map(|pair| pair.ours.seconds).collect();
    let theirs: Vec<f64> = pairs.iter().map(|pair| pair.seconds).collect();
    let proved = pairs.iter().filter(|pair| pair.ours.proved()).count();
    let least = pairs.iter().filter(|pair| matches!(pair.theirs, Answer::Least(_))).count();
    let both: Vec<&Pair> = pairs.iter().filter(|pair| pair.solved_by_both()).collect();
    let ratios: Vec<f64> = both.iter().map(|pair| pair.seconds / pair.ours.seconds).collect();
    println!();
    println!("ours  proves {proved:>3} of {}, median {:>8.1} ms", pairs.len(), median(&ours) * 1000.0);
    println!("HiGHS proves {least:>3} of {}, median {:>8.1} ms", pairs.len(), median(&theirs) * 1000.0);
    println!("{} proved by both: ours is {:.0} times as fast at the median", both.len(), median(&ratios));
}
