//! `[[sheet]]`: the kinds of sheet that can be bought.

use super::Cents;
use super::reading::{Fields, Section, Wrong, nearest};
use crate::length::Length;
use serde::{Deserialize, Serialize};
use std::collections::BTreeSet;

/// A kind of sheet to buy.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Sheet {
    /// What the yard calls it.
    pub name: String,
    /// Along the face grain.
    pub length: Length,
    /// Across the face grain.
    pub width: Length,
    /// Measured thickness, where known.
    pub thickness: Option<Length>,
    /// Of one sheet.
    pub price: Cents,
    /// Most to be had; `None` for as many as needed.
    pub stock: Option<u32>,
    /// In kg/m3, where known.
    pub density: Option<f64>,
    /// Lost at each factory edge and end, blade included.
    pub edge_trim: Length,
    /// How much smaller than its stated size a sheet may measure; a layout that leaves less says "measure first".
    pub tolerance: Length,
}

/// Thickest sheet that is read: anything thicker is a slip of the units.
const THICKEST: Length = Length::inches(4);

/// Longest sheet, or strip on hand, that is read: 100 ft. Anything longer is a slip of the units too.
pub(crate) const LONGEST: Length = Length::inches(1200);

/// What a sheet may lack of its nominal size.
const TOLERANCE: &str = "an association's page on NIST Voluntary Product Standard PS 1-19: +0, -1/16 in.";

/// A sheet kind; `None` where a fault was noted.
pub(crate) fn read(section: &mut Section) -> Option<Sheet> {
    let name = section.text("name");
    let (length, width) = (section.length("length"), section.length("width"));
    let thickness = section.length("thickness");
    let price = section.money("price");
    let stock = section.count("stock");
    let density = section.number("density", 50.0, 5000.0);
    let edge_trim = section.allowance("edge_trim").unwrap_or_default();
    let usual = section.notes().usual(Length::sixty_fourths(4), Length::from_raw(512));
    let tolerance = section.allowance_or("tolerance", usual, TOLERANCE);
    section.must("length", "96");
    section.must("width", "48");
    section.must("price", "38.50");
    section.end();
    // A fault in the price alone must not hide what can be told of the panels.
    let (length, width) = (length?, width?);
    let name = name.unwrap_or_else(|| sized_name(section, length, width));
    let sheet = Sheet {
        name,
        length,
        width,
        thickness,
        price: price.unwrap_or_default(),
        stock,
        density,
        edge_trim,
        tolerance,
    };
    check(section, &sheet);
    Some(sheet)
}

/// The index of the sheet that goes by this name.
pub(crate) fn named(text: &str, names: &[String]) -> Result<usize, Wrong> {
    let found = names.iter().position(|name| name.to_lowercase() == text.trim().to_lowercase());
    found.ok_or_else(|| {
        let remedy = match nearest(text, names.iter().map(String::as_str)) {
            Some(near) => format!("did you mean `{near}`?"),
            None => format!("name one of the job's sheets: `{}`", names.join("`, `")),
        };
        Wrong::new(format!("no sheet is named `{text}`"), remedy)
    })
}

/// Refuses two sheets of one name; `sections` are theirs.
pub(crate) fn check_names(sections: &[Section], sheets: &[Option<Sheet>]) {
    let mut taken = BTreeSet::new();
    for (section, sheet) in sections.iter().zip(sheets) {
        let Some(sheet) = sheet else { continue };
        if !taken.insert(sheet.name.to_lowercase()) {
            section.fault(
                "name",
                format!("two sheets are named `{}`", sheet.name),
                "give each kind of sheet a name of its own",
            );
        }
    }
}

/// The name of a sheet that has none of its own.
fn sized_name(section: &Section, length: Length, width: Length) -> String {
    format!("{} x {} sheet", width.show(section.units()), length.show(section.units()))
}

fn check(section: &Section, sheet: &Sheet) {
    let units = section.units();
    let smaller = sheet.length.min(sheet.width);
    let said = smaller.say(units);
    for (key, side) in [("length", sheet.length), ("width", sheet.width)] {
        if side > LONGEST {
            let cause = format!("no sheet is {} long", side.say(units));
            section.fault(key, cause, "write the length with its unit, such as `96 in` or `2440 mm`");
        }
    }
    if sheet.edge_trim * 2 >= smaller {
        let cause =
            format!("trimming {} off every edge leaves nothing of a sheet {said} wide", sheet.edge_trim.say(units));
        section.fault("edge_trim", cause, "write what one edge loses, such as `1/8 in`");
    }
    if sheet.tolerance * 2 >= smaller {
        let cause = format!("a sheet {said} wide cannot measure {} less", sheet.tolerance.say(units));
        section.fault("tolerance", cause, "write how much smaller than stated a sheet may measure, such as `1/16 in`");
    }
    if sheet.thickness.is_some_and(|thickness| thickness > THICKEST) {
        let cause = format!("a sheet {} thick is a beam", sheet.thickness.unwrap_or_default().say(units));
        section.fault("thickness", cause, "write the thickness with its unit, such as `5.2 mm`");
    }
}
