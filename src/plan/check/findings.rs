//! Collects violations, so that one replay reports all of them at once.

use super::{Rule, Violation};
use crate::length::{Length, Unit};
use std::fmt::{Debug, Display};

/// The violations found so far, and the unit their words are in.
pub(super) struct Findings {
    list: Vec<Violation>,
    units: Unit,
}

impl Findings {
    /// Nothing found yet.
    pub(super) fn new(units: Unit) -> Self {
        Findings { list: Vec::new(), units }
    }

    /// True as long as nothing is wrong.
    pub(super) fn is_empty(&self) -> bool {
        self.list.is_empty()
    }

    /// Holds a rule: where `holds` is false, `what` says in words what is wrong.
    pub(super) fn hold(&mut self, rule: Rule, holds: bool, place: &str, what: impl FnOnce() -> String) {
        if !holds {
            self.list.push(Violation { rule, place: place.to_string(), what: what() });
        }
    }

    /// Holds two lengths equal: what the plan says, and what the replay comes to.
    pub(super) fn same(&mut self, rule: Rule, place: &str, name: &str, says: Length, is: Length) {
        let units = self.units;
        self.hold(rule, says == is, place, || format!("{name} should be {}, not {}", is.say(units), says.say(units)));
    }

    /// Holds two counts or amounts equal: what the plan says, and what the replay comes to.
    pub(super) fn equal<T: PartialEq + Display + Copy>(&mut self, rule: Rule, place: &str, name: &str, says: T, is: T) {
        self.hold(rule, says == is, place, || format!("{name} should be {is}, not {says}"));
    }

    /// Holds what the plan repeats equal to the job's own.
    pub(super) fn copied<T: PartialEq + Debug>(&mut self, place: &str, name: &str, says: &T, is: &T) {
        self.hold(Rule::Heading, says == is, place, || format!("{name} should be {is:?} as in the job, not {says:?}"));
    }

    /// A length in the job's units.
    pub(super) fn say(&self, length: Length) -> String {
        length.say(self.units)
    }

    /// All clear, or everything that was found.
    pub(super) fn into_result(self) -> Result<(), Vec<Violation>> {
        if self.list.is_empty() { Ok(()) } else { Err(self.list) }
    }
}
