//! The sections of the week are read here, each by its own module; and the values that only they have.

use super::{Amount, Coverage, Measure, Package, Step, Week, calendar, canvas, finish, labels, pack, press};
use crate::data::reading::{Fields, Section, Wrong};
use crate::data::{Panel, reading};
use crate::length::Unit;

/// Sections that ask for work after the saw, which a calendar can plan.
const WORK: [&str; 4] = ["finish", "canvas", "labels", "pack"];

/// All sections of the week; `panels` are the job's, for sections that name some of them.
pub(crate) fn read(root: &mut Section, panels: &[Panel]) -> Week {
    if !root.has("canvas") {
        for key in ["glue", "press"].into_iter().filter(|key| root.has(key)) {
            let remedy = format!("add a section `[canvas]`, or leave `[{key}]` out");
            root.fault(key, format!("`[{key}]` has nothing to work on: the job has no `[canvas]`"), remedy);
        }
    }
    if root.has("calendar") && !WORK.into_iter().any(|key| root.has(key)) {
        let cause = "`[calendar]` has nothing to plan: the job asks for no work after the saw";
        root.fault(
            "calendar",
            cause,
            "add a section `[finish]`, `[canvas]`, `[labels]` or `[pack]`, or leave `[calendar]` out",
        );
    }
    Week {
        finish: root.optional("finish").map(|mut section| finish::read_finish(&mut section)),
        canvas: root.optional("canvas").and_then(|mut section| canvas::read(&mut section, panels)),
        glue: root.optional("glue").map(|mut section| finish::read_glue(&mut section)),
        press: root.optional("press").and_then(|mut section| press::read(&mut section)),
        calendar: root.optional("calendar").map(|mut section| calendar::read(&mut section, |step| asked(root, step))),
        labels: root.optional("labels").map(|mut section| labels::read(&mut section)),
        pack: root.optional("pack").map(|mut section| pack::read(&mut section)),
    }
}

/// Whether a job's sections ask for a step.
fn asked(root: &Section, step: Step) -> bool {
    root.has(match step {
        Step::Fill | Step::Sand | Step::Seal | Step::Coat => "finish",
        Step::Glue | Step::Trim => "canvas",
        Step::Label => "labels",
        Step::Pack => "pack",
    })
}

/// Packages as sold: `["1 qt at 24.00", "1 gal at 68.00"]`; none where the key is silent.
pub(super) fn packages(section: &mut Section, key: &'static str, measure: Measure) -> Vec<Package> {
    section.read_each(key, |text| package(text, measure)).unwrap_or_default()
}

fn package(text: &str, measure: Measure) -> Result<Package, Wrong> {
    let example = match measure {
        Measure::Volume => "1 qt at 24.00",
        Measure::Area => "75 sq ft at 6.50",
        Measure::Sheets => "5 sheets at 4.50",
    };
    let wrong = || Wrong::new(format!("`{text}` is not a package with its price"), format!("write `{example}`"));
    let (size, price) = text.split_once(" at ").ok_or_else(wrong)?;
    let price = reading::money(price)?;
    match Amount::parse(size) {
        Some((holds, found)) if found == measure => Ok(Package { name: size.trim().to_owned(), holds, price }),
        Some((_, found)) => Err(Wrong::new(
            format!("`{}` is {}, but this is sold by {}", size.trim(), named(found).0, named(measure).1),
            format!("write `{example}`"),
        )),
        None => Err(Wrong::new(
            format!("`{}` is not {}", size.trim(), named(measure).0),
            format!("write `{example}`; the units are {}", Amount::signs(measure)),
        )),
    }
}

/// What an amount is, and what things are sold by.
const fn named(measure: Measure) -> (&'static str, &'static str) {
    match measure {
        Measure::Volume => ("a volume", "volume"),
        Measure::Area => ("an area", "area"),
        Measure::Sheets => ("a number of sheets", "the sheet"),
    }
}

/// A coverage: a bare number in square feet a gallon, or in square metres a litre in a metric job.
pub(super) fn coverage(section: &mut Section, feet: u32, origin: &str) -> Coverage {
    let usual = Coverage::feet_a_gallon(f64::from(feet));
    let units = section.units();
    let read = match units {
        Unit::In => section.number("coverage", 1.0, 10_000.0).map(Coverage::feet_a_gallon),
        Unit::Mm | Unit::Cm => section.number("coverage", 0.01, 1000.0).map(Coverage),
    };
    section.or("coverage", read, usual, usual.say(units), origin)
}

/// The allowance for waste, in percent.
pub(super) fn waste(section: &mut Section) -> u32 {
    let read = section.count("waste").filter(|percent| within(section, "waste", *percent, 0, 100));
    section.or("waste", read, 10, "10 %", "common practice: 10 % for waste")
}

/// Whether a whole number is in its range; a fault is noted if not.
pub(super) fn within(section: &Section, key: &str, value: u32, least: u32, most: u32) -> bool {
    let good = (least..=most).contains(&value);
    if !good {
        section.fault(
            key,
            format!("`{value}` is out of range"),
            format!("write a whole number from {least} to {most}"),
        );
    }
    good
}
