//! `[finish]` and `[glue]`: what is filled, sealed and glued, how far it goes and how it is sold.

use super::read::{coverage, packages, waste, within};
use super::{Coverage, Measure, Package};
use crate::data::reading::{Fields, SQUARE_FOOT, Section, Wrong};
use crate::length::{Length, Unit};
use serde::{Deserialize, Serialize};

/// Filling, sanding and sealing.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Finish {
    /// Share of each face that is filled, in percent.
    pub flaws: u32,
    /// How deep the fills are on average.
    pub fill_depth: Length,
    /// Filler as sold; empty where the maker does not buy any.
    pub filler: Vec<Package>,
    /// Grits in the order they are used.
    pub grits: Vec<u32>,
    /// Sandpaper as sold; empty where the maker does not buy any.
    #[serde(default)]
    pub sandpaper: Vec<Package>,
    /// Square metres that one sheet of it sands.
    #[serde(default)]
    pub sheet_sands: f64,
    /// Whether both faces are sealed, or only the one that is painted.
    pub both_faces: bool,
    /// Whether the edges are sealed too.
    pub edges: bool,
    /// Coats of sealer.
    pub coats: u32,
    /// How far the sealer goes, a coat.
    pub coverage: Coverage,
    /// Sealer as sold.
    pub sealer: Vec<Package>,
    /// Allowance for waste in percent, on filler, sealer and glue.
    pub waste: u32,
}

/// What glues the canvas down.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Glue {
    /// How far it goes on one coated face.
    pub coverage: Coverage,
    /// Coated faces a joint: two where both the panel and the canvas are wetted out.
    pub faces: u32,
    /// Glue as sold.
    pub packages: Vec<Package>,
    /// Allowance for waste in percent.
    pub waste: u32,
}

const SIDES: [(&str, bool); 2] = [("both", true), ("one", false)];

/// `[finish]`, with the usual values where the job is silent.
pub(super) fn read_finish(section: &mut Section) -> Finish {
    let flaws = section.count("flaws").filter(|percent| within(section, "flaws", *percent, 0, 100));
    let deep = section.notes().usual(Length::sixty_fourths(2), Length::from_raw(256));
    let finish = Finish {
        flaws: section.or("flaws", flaws, 5, "5 % of a face", "a guess to start from; no published figure"),
        fill_depth: section.allowance_or("fill_depth", deep, "a guess to start from; no published figure"),
        filler: packages(section, "filler", Measure::Volume),
        grits: grits(section),
        sandpaper: packages(section, "sandpaper", Measure::Sheets),
        sheet_sands: sheet_sands(section),
        both_faces: section.word_or("faces", &SIDES, "both", "common practice: sealed on one side only, a panel cups"),
        edges: edges(section),
        coats: coats(section),
        coverage: coverage(
            section,
            500,
            "a maker's spread-rate table: 500 sq ft a gallon a coat; general guides say 300 to 600",
        ),
        sealer: packages(section, "sealer", Measure::Volume),
        waste: waste(section),
    };
    section.end();
    finish
}

fn grits(section: &mut Section) -> Vec<u32> {
    let grit = |text: &str| match text.trim().parse() {
        Ok(grit) if (24..=2000).contains(&grit) => Ok(grit),
        _ => Err(Wrong::new(format!("`{text}` is not a grit"), "write grits such as `[120, 180, 220]`")),
    };
    let read = section.read_some("grits", grit);
    section.or("grits", read, vec![120, 180, 220], "120, 180, 220", "common practice: never skip more than one grit")
}

/// How much one sheet of sandpaper sands, in square metres; a guess where sandpaper is bought and nothing is said.
fn sheet_sands(section: &mut Section) -> f64 {
    let inches = section.units() == Unit::In;
    let (unit, usual, said) = if inches { (SQUARE_FOOT, 20.0, "20 sq ft") } else { (1.0, 2.0, "2 m2") };
    let read = section.number("sheet_sands", 0.1, 10_000.0).map(|number| number * unit);
    if section.has("sandpaper") {
        return section.or("sheet_sands", read, usual * unit, said, "a guess to start from; no published figure");
    }
    read.unwrap_or(usual * unit)
}

fn edges(section: &mut Section) -> bool {
    let read = section.flag("edges");
    section.or("edges", read, true, "sealed", "common practice: edges take up most moisture")
}

fn coats(section: &mut Section) -> u32 {
    let read = section.count("coats").filter(|coats| within(section, "coats", *coats, 0, 12));
    section.or("coats", read, 2, "2", "common practice: two coats, sanded lightly between")
}

/// `[glue]`, with the usual values where the job is silent.
pub(super) fn read_glue(section: &mut Section) -> Glue {
    let faces = section.word_or("faces", &SIDES, "both", "common practice: panel and canvas are both wetted out");
    let glue = Glue {
        coverage: coverage(
            section,
            225,
            "from memory: 200 to 250 sq ft a gallon on a coated face; no published figure found",
        ),
        faces: if faces { 2 } else { 1 },
        packages: packages(section, "sold", Measure::Volume),
        waste: waste(section),
    };
    section.end();
    glue
}
