//! What strips are called: letters for those that are new; a short name that is written on a strip on hand stays its
//! name, so that nobody at the saw takes one for another.

use super::{Origin, Strip};
use crate::data::Job;
use crate::solve::StripUse;
use std::collections::{BTreeMap, BTreeSet};

/// Longer names do not stand in the place of a letter.
const LONGEST_NAME: usize = 3;

/// The letters that are still to be given, and those that are not, since strips on hand bear them.
pub(super) struct Letters {
    given: usize,
    taken: BTreeSet<String>,
}

impl Letters {
    /// All letters but the short names of the strips on hand that are cut.
    pub(super) fn beside(job: &Job, on_hand: &[StripUse]) -> Self {
        Letters { given: 0, taken: on_hand.iter().filter_map(|used| short_name(job, used.strip)).collect() }
    }

    /// The next letter that no strip bears.
    pub(super) fn next(&mut self) -> String {
        loop {
            let letter = letters(self.given);
            self.given += 1;
            if self.taken.insert(letter.clone()) {
                return letter;
            }
        }
    }

    /// Gives each strip on hand its short name, numbered where strips of one name are cut in several ways; a letter
    /// where it has none.
    pub(super) fn name_on_hand(&mut self, job: &Job, strips: &mut [Strip]) {
        let name = |strip: &Strip| match strip.origin {
            Origin::OnHand { strip } => short_name(job, strip),
            Origin::Sheet { .. } => None,
        };
        let mut ways: BTreeMap<String, u32> = BTreeMap::new();
        for name in strips.iter().filter_map(name) {
            *ways.entry(name).or_default() += 1;
        }
        for strip in strips.iter_mut().filter(|strip| matches!(strip.origin, Origin::OnHand { .. })) {
            strip.letter = match name(strip) {
                Some(name) if ways[&name] == 1 => name,
                Some(name) => self.numbered(&name),
                None => self.next(),
            };
        }
    }

    /// `A1`, `A2`, ...: the first that no strip bears.
    fn numbered(&mut self, name: &str) -> String {
        let mut names = (1..).map(|number: u32| format!("{name}{number}"));
        names.find(|name| self.taken.insert(name.clone())).expect("numbers do not end")
    }
}

/// What is written on the strips on hand, in capitals, where it is short enough and begins with a letter.
fn short_name(job: &Job, strip: usize) -> Option<String> {
    let name = job.strips[strip].name.trim().to_uppercase();
    let plain = name.starts_with(char::is_alphabetic) && name.chars().all(char::is_alphanumeric);
    (plain && name.chars().count() <= LONGEST_NAME).then_some(name)
}

/// `A` to `Z`, then `AA`, `AB`, ...
fn letters(index: usize) -> String {
    let last = char::from(b'A' + u8::try_from(index % 26).expect("below 26"));
    if index < 26 { last.to_string() } else { format!("{}{last}", letters(index / 26 - 1)) }
}

#[cfg(test)]
mod tests {
    use super::letters;

    #[test]
    fn letters_go_on_with_two_after_z() {
        assert_eq!([0, 25, 26, 51, 52, 701, 702].map(letters), ["A", "Z", "AA", "AZ", "BA", "ZZ", "AAA"]);
    }
}
