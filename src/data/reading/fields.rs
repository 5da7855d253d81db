//! What a table of the job file and a line of a list have in common: values under names.

use super::Notes;
use super::values::{self, Wrong};
use crate::data::{Cents, Place};
use crate::length::{Length, Unit};

/// Named values. Each asks for one, notes a fault where it is wrong, and gives `None` where it is wrong or silent.
pub(crate) trait Fields {
    /// Where faults are noted.
    fn notes(&self) -> &Notes;
    /// Where a value stands; the whole where it is silent.
    fn place(&self, key: &str) -> Place;
    /// Whether there is a value, right or wrong.
    fn has(&self, key: &str) -> bool;
    /// The value as text.
    fn given(&mut self, key: &'static str) -> Option<String>;
    /// The values of a list as text.
    fn list(&mut self, key: &'static str) -> Option<Vec<String>>;

    fn units(&self) -> Unit {
        self.notes().units()
    }

    fn fault(&self, key: &str, cause: impl Into<String>, remedy: impl Into<String>) {
        self.notes().fault_at(self.place(key), cause, remedy);
    }

    /// How a missing value is written.
    fn remedy(&self, key: &str, example: &str) -> String;

    /// Notes a fault where a value that cannot be done without is silent; `example` is one.
    fn must(&self, key: &str, example: &str) {
        if !self.has(key) {
            self.fault("", format!("`{key}` is missing"), self.remedy(key, example));
        }
    }

    /// The value, read in the way that is handed over.
    fn read<T>(&mut self, key: &'static str, how: impl FnOnce(&str) -> Result<T, Wrong>) -> Option<T> {
        let text = self.given(key)?;
        how(&text).map_err(|wrong| self.fault(key, wrong.cause, wrong.remedy)).ok()
    }

    /// The values of a list, each read in the way that is handed over.
    fn read_each<T>(&mut self, key: &'static str, how: impl Fn(&str) -> Result<T, Wrong>) -> Option<Vec<T>> {
        let texts = self.list(key)?;
        let read = texts.iter().map(|text| how(text).map_err(|wrong| self.fault(key, wrong.cause, wrong.remedy)).ok());
        read.collect::<Vec<_>>().into_iter().collect()
    }

    /// The same for a list that holds something wherever it is written.
    fn read_some<T>(&mut self, key: &'static str, how: impl Fn(&str) -> Result<T, Wrong>) -> Option<Vec<T>> {
        let read = self.read_each(key, how)?;
        if read.is_empty() {
            self.fault(key, format!("`{key}` names nothing"), "name at least one, or leave it out for what is usual");
        }
        Some(read)
    }

    /// A length above zero.
    fn length(&mut self, key: &'static str) -> Option<Length> {
        let units = self.units();
        self.read(key, |text| values::length(text, units))
    }

    /// A length that may be zero.
    fn allowance(&mut self, key: &'static str) -> Option<Length> {
        let units = self.units();
        self.read(key, |text| values::allowance(text, units))
    }

    /// Width and height, with the name of the size.
    fn size(&mut self, key: &'static str) -> Option<(String, Length, Length)> {
        let units = self.units();
        self.read(key, |text| values::size(text, units))
    }

    /// An amount of money.
    fn money(&mut self, key: &'static str) -> Option<Cents> {
        self.read(key, values::money)
    }

    /// A whole number from 0.
    fn count(&mut self, key: &'static str) -> Option<u32> {
        self.read(key, values::count)
    }

    /// A whole number from 1.
    fn some(&mut self, key: &'static str) -> Option<u32> {
        self.read(key, |text| match values::count(text)? {
            0 => Err(Wrong::new("`0` is too few", "write a whole number from 1, or leave it out")),
            count => Ok(count),
        })
    }

    /// A number from `least` to `most`.
    fn number(&mut self, key: &'static str, least: f64, most: f64) -> Option<f64> {
        self.read(key, |text| values::number(text, least, most))
    }

    /// A weight in kilograms.
    fn weight(&mut self, key: &'static str) -> Option<f64> {
        let units = self.units();
        self.read(key, |text| values::weight(text, units))
    }

    /// One line of text; `None` where it is empty.
    fn text(&mut self, key: &'static str) -> Option<String> {
        self.read(key, values::text).filter(|text| !text.is_empty())
    }

    /// One of a few known words.
    fn word<T: Copy>(&mut self, key: &'static str, choices: &[(&str, T)]) -> Option<T> {
        self.read(key, |text| values::word(key, text, choices))
    }
}
