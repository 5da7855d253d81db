//! The promises of a [`Job`], checked again for one that did not come from a job file: a plan's own copy, which
//! somebody may have changed by hand.

use super::reading::{MOST, RICHEST};
use super::sheet::LONGEST;
use super::{Cents, Fault, Job, Place, RipWidths};
use crate::length::Length;
use std::collections::BTreeSet;

/// Every promise that a job breaks, with the key that breaks it, such as `job.panels[2].scant`.
pub fn broken_promises(job: &Job) -> Vec<Fault> {
    let mut found = Found { job, faults: Vec::new() };
    if job.panels.is_empty() {
        found.fault("panels", "there is no panel to make");
    }
    if job.sheets.is_empty() && job.strips.is_empty() {
        found.fault("sheets", "there is no sheet to cut");
    }
    found.above_zero("rule", job.rule);
    found.sheets();
    found.panels();
    found.strips();
    found.yard();
    found.car_and_saw();
    found.faults
}

struct Found<'a> {
    job: &'a Job,
    faults: Vec<Fault>,
}

impl Found<'_> {
    fn fault(&mut self, key: &str, cause: impl Into<String>) {
        self.faults.push(Fault::at(Place::key(format!("job.{key}")), cause, ""));
    }

    fn above_zero(&mut self, key: &str, length: Length) {
        if length <= Length::ZERO {
            self.fault(key, format!("`{}` is not above zero", length.show(self.job.units)));
        }
    }

    fn side(&mut self, key: &str, length: Length) {
        self.above_zero(key, length);
        if length > LONGEST {
            self.fault(key, format!("`{}` is longer than any sheet", length.show(self.job.units)));
        }
    }

    fn allowance(&mut self, key: &str, length: Length, below: Length) {
        if length < Length::ZERO || below.is_positive() && length >= below {
            let (length, below) = (length.show(self.job.units), below.say(self.job.units));
            self.fault(key, format!("`{length}` is not between 0 and {below}"));
        }
    }

    fn money(&mut self, key: &str, amount: Cents) {
        if amount < Cents::ZERO || amount > RICHEST {
            self.fault(key, format!("`{amount}` is no amount from 0 to a million"));
        }
    }

    fn names(&mut self, key: &str, names: impl Iterator<Item = String>) {
        let mut taken = BTreeSet::new();
        for (at, name) in names.enumerate() {
            if taken.contains(&name) {
                self.fault(&format!("{key}[{at}].name"), format!("`{name}` is there twice"));
            }
            taken.insert(name);
        }
    }

    fn sheets(&mut self) {
        for (at, sheet) in self.job.sheets.iter().enumerate() {
            let key = |name: &str| format!("sheets[{at}].{name}");
            self.side(&key("length"), sheet.length);
            self.side(&key("width"), sheet.width);
            let half = Length::from_raw(sheet.length.min(sheet.width).raw() / 2);
            self.allowance(&key("edge_trim"), sheet.edge_trim, half);
            self.allowance(&key("tolerance"), sheet.tolerance, half);
            self.above_zero(&key("thickness"), sheet.thickness.unwrap_or(Length::MAX));
            self.money(&key("price"), sheet.price);
            if sheet.density.is_some_and(|density| density <= 0.0) {
                self.fault(&key("density"), "a sheet weighs something");
            }
        }
        self.names("sheets", self.job.sheets.iter().map(|sheet| sheet.name.to_lowercase()));
    }

    fn panels(&mut self) {
        let mut all = 0_u64;
        for (at, panel) in self.job.panels.iter().enumerate() {
            let key = |name: &str| format!("panels[{at}].{name}");
            self.side(&key("width"), panel.width);
            self.side(&key("height"), panel.height);
            self.allowance(&key("scant"), panel.scant, panel.width.min(panel.height));
            self.money(&key("worth"), panel.worth);
            if panel.sheets.iter().any(|sheet| *sheet >= self.job.sheets.len()) {
                self.fault(&key("sheets"), "a sheet kind is named that is not there");
            }
            all += u64::from(panel.count) + u64::from(panel.extra);
        }
        if all > u64::from(MOST) {
            self.fault("panels", format!("{all} panels are more than a million"));
        }
        self.names("panels", self.job.panels.iter().map(|panel| panel.name.clone()));
    }

    fn strips(&mut self) {
        for (at, strip) in self.job.strips.iter().enumerate() {
            self.side(&format!("strips[{at}].width"), strip.width);
            self.side(&format!("strips[{at}].length"), strip.length);
            if strip.sheet.is_some_and(|sheet| sheet >= self.job.sheets.len()) {
                self.fault(&format!("strips[{at}].sheet"), "a sheet kind is named that is not there");
            }
        }
        for (at, keeper) in self.job.keepers.iter().enumerate() {
            self.above_zero(&format!("keepers[{at}].width"), keeper.width);
            self.above_zero(&format!("keepers[{at}].length"), keeper.length);
            self.money(&format!("keepers[{at}].worth"), keeper.worth);
        }
    }

    fn yard(&mut self) {
        let yard = &self.job.yard;
        self.allowance("yard.kerf", yard.kerf, self.smallest_sheet());
        self.allowance("yard.tolerance", yard.tolerance, Length::MAX);
        self.allowance("yard.narrowest", yard.narrowest, Length::MAX);
        self.above_zero("yard.widest", yard.widest.unwrap_or(Length::MAX));
        self.money("yard.cut_price", yard.cut_price);
        match &yard.rip_widths {
            RipWidths::Any => {}
            RipWidths::Step(step) => self.above_zero("yard.rip_widths", *step),
            RipWidths::Only(widths) => {
                self.above_zero("yard.rip_widths", widths.iter().copied().min().unwrap_or_default());
            }
        }
    }

    fn car_and_saw(&mut self) {
        let (car, saw) = (&self.job.car, &self.job.saw);
        self.above_zero("car.longest", car.longest.unwrap_or(Length::MAX));
        self.above_zero("car.widest", car.widest.unwrap_or(Length::MAX));
        if car.heaviest.is_some_and(|weight| weight <= 0.0) {
            self.fault("car.heaviest", "the car carries nothing");
        }
        self.allowance("saw.kerf", saw.kerf, self.smallest_sheet());
        self.allowance("saw.squaring", saw.squaring, Length::MAX);
        self.allowance("saw.shortest", saw.shortest, Length::MAX);
        self.above_zero("saw.crosses", saw.crosses.unwrap_or(Length::MAX));
    }

    fn smallest_sheet(&self) -> Length {
        let sides = self.job.sheets.iter().map(|sheet| sheet.length.min(sheet.width));
        sides.min().unwrap_or(Length::MAX)
    }
}
