//! What is noted while reading: faults, and the defaults that were used.

use crate::data::{Assumption, Fault, Place};
use crate::length::{Length, Unit};
use std::cell::{Cell, RefCell};

/// Faults and assumptions of one reading, and the unit of its bare numbers.
#[derive(Default)]
pub(crate) struct Notes {
    units: Cell<Unit>,
    faults: RefCell<Vec<Fault>>,
    assumptions: RefCell<Vec<Assumption>>,
}

impl Notes {
    pub(crate) fn units(&self) -> Unit {
        self.units.get()
    }

    pub(crate) fn set_units(&self, units: Unit) {
        self.units.set(units);
    }

    /// A default for an inch job or for a metric one.
    pub(crate) fn usual(&self, inches: Length, metric: Length) -> Length {
        if self.units() == Unit::In { inches } else { metric }
    }

    pub(crate) fn fault(&self, fault: Fault) {
        self.faults.borrow_mut().push(fault);
    }

    pub(crate) fn fault_at(&self, place: Place, cause: impl Into<String>, remedy: impl Into<String>) {
        self.fault(Fault::at(place, cause, remedy));
    }

    /// Records a default once, however often its key is silent.
    pub(crate) fn assume(&self, key: String, value: String, origin: &str) {
        let assumption = Assumption { key, value, origin: origin.to_owned() };
        let mut assumptions = self.assumptions.borrow_mut();
        if !assumptions.contains(&assumption) {
            assumptions.push(assumption);
        }
    }

    pub(crate) fn clean(&self) -> bool {
        self.faults.borrow().is_empty()
    }

    /// The assumptions, or the faults by file, in the order the files were read, and line.
    pub(crate) fn close(self, files: &[&str]) -> Result<Vec<Assumption>, Vec<Fault>> {
        let mut faults = self.faults.into_inner();
        let rank = |fault: &Fault| files.iter().position(|file| *file == fault.place.file).unwrap_or(files.len());
        faults.sort_by_key(|fault| (rank(fault), fault.place.line));
        if faults.is_empty() { Ok(self.assumptions.into_inner()) } else { Err(faults) }
    }
}

/// The known word nearest to a misspelt one, if any is near.
pub(crate) fn nearest<'a>(word: &str, known: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    let likeness = |name: &str| strsim::jaro_winkler(&word.to_lowercase(), &name.to_lowercase());
    let near = known.into_iter().map(|name| (likeness(name), name)).filter(|(likeness, _)| *likeness > 0.75);
    near.fold(None, |best: Option<(f64, &str)>, next| match best {
        Some(best) if best.0 >= next.0 => Some(best),
        _ => Some(next),
    })
    .map(|(_, name)| name)
}
