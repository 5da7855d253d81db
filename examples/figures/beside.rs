//! Our solver and a general-purpose one on the textbook's integer program, one case after the other on one machine.

use crate::cases::Case;
use crate::clock::Clock;
use crate::row::Row;
use crate::summary::median;
use crate::textbook::{Answer, least_money};
use std::collections::BTreeMap;
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
/// Names the cases in which ours cost more, or one of both claims what is not so.
pub(crate) fn print(cases: impl Iterator<Item = Case>, seconds: f64) -> Result<(), String> {
    println!("{:26} {:>11} {:>6} {:>10}   {:>11} {:>6} {:>10}", "case", "ours", "proof", "ms", "HiGHS", "proof", "ms");
    let mut pairs = Vec::new();
    for case in cases {
        let pair = Pair::of(case, seconds);
        pair.print();
        pairs.push(pair);
    }
    summary(&pairs, seconds);
    let named = |holds: fn(&Pair) -> bool| -> Vec<&str> {
        pairs.iter().filter(|pair| holds(pair)).map(|pair| pair.ours.case.name.as_str()).collect()
    };
    let (worse, wrong) = (named(Pair::worse), named(Pair::false_claim));
    if worse.is_empty() && wrong.is_empty() {
        Ok(())
    } else {
        Err(format!("dearer than HiGHS: {}; one of both says what is not so: {}", worse.join(", "), wrong.join(", ")))
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

    /// Whether the other solver proved its plan.
    fn least(&self) -> bool {
        matches!(self.theirs, Answer::Least(_))
    }

    fn solved_by_both(&self) -> bool {
        self.ours.proved() && self.least()
    }

    /// How many times the other solver's time is ours; what is not proved counts as long as it was allowed to take.
    fn ratio(&self, limit: f64) -> f64 {
        let time = |proved: bool, seconds: f64| if proved { seconds } else { limit };
        time(self.least(), self.seconds) / time(self.ours.proved(), self.ours.took.wall)
    }

    /// Whether ours costs more, or there is none.
    fn worse(&self) -> bool {
        self.their_cost().is_some_and(|theirs| self.our_cost().is_none_or(|ours| ours > theirs))
    }

    /// Whether ours costs less, or is the only one.
    fn better(&self) -> bool {
        self.our_cost().is_some_and(|ours| self.their_cost().is_none_or(|theirs| ours < theirs))
    }

    /// Whether what one of both says is not so: a proof beside a cheaper plan, a bound above a plan, no plan beside
    /// one.
    fn false_claim(&self) -> bool {
        let Ok(solved) = &self.ours.answer else { return self.their_cost().is_some() };
        let too_high = self.their_cost().is_some_and(|theirs| solved.proof.bound > theirs);
        too_high || self.theirs == Answer::Impossible || (self.least() && self.better())
    }

    fn print(&self) {
        let say = |cost: Option<Cents>| cost.map_or("-".into(), |cost| cost.to_string());
        let proof = |proved: bool| if proved { "proved" } else { "within" };
        println!(
            "{:26} {:>11} {:>6} {:>10.1}   {:>11} {:>6} {:>10.1}",
            self.ours.case.name,
            say(self.our_cost()),
            proof(self.ours.proved()),
            self.ours.took.wall * 1000.0,
            say(self.their_cost()),
            proof(self.least()),
            self.seconds * 1000.0,
        );
    }
}

/// What each group's pairs come to.
fn summary(pairs: &[Pair], seconds: f64) {
    let mut groups: BTreeMap<&str, Vec<&Pair>> = BTreeMap::new();
    for pair in pairs {
        groups.entry(pair.ours.case.group).or_default().push(pair);
    }
    for (group, pairs) in groups {
        println!();
        print_group(group, &pairs, seconds);
    }
}

fn print_group(group: &str, pairs: &[&Pair], seconds: f64) {
    let count = |holds: fn(&Pair) -> bool| pairs.iter().filter(|pair| holds(pair)).count();
    let middle = |of: &dyn Fn(&Pair) -> f64| median(&pairs.iter().map(|pair| of(pair)).collect::<Vec<f64>>());
    println!(
        "{group}: {} cases, worse in value: {}, better in value: {}",
        pairs.len(),
        count(Pair::worse),
        count(Pair::better)
    );
    let ours = middle(&|pair| pair.ours.took.wall) * 1000.0;
    println!("  ours  proves {:>3}, median {ours:>8.1} ms", count(|pair| pair.ours.proved()));
    let theirs = middle(&|pair| pair.seconds) * 1000.0;
    println!("  HiGHS proves {:>3}, median {theirs:>8.1} ms", count(Pair::least));
    let both: Vec<f64> = pairs.iter().filter(|pair| pair.solved_by_both()).map(|pair| pair.ratio(seconds)).collect();
    let faster = if both.is_empty() { "-".into() } else { format!("{:.1}", median(&both)) };
    println!("  proved by both: {}, where ours is {faster} times as fast at the median", both.len());
    let all = middle(&|pair| pair.ratio(seconds));
    println!("  over all, the unproved at the limit of {seconds} s: {all:.1} times as fast at the median");
}
