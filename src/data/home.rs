//! `[car]` and `[saw]`: what carries the strips home, and what crosscuts them there.

use super::reading::{Fields, Section};
use crate::length::Length;
use serde::{Deserialize, Serialize};

/// What the car carries.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Car {
    /// Longest piece that goes in, if there is a limit.
    pub longest: Option<Length>,
    /// Widest piece that goes in flat, if there is a limit.
    pub widest: Option<Length>,
    /// Heaviest load in kilograms, if there is a limit.
    pub heaviest: Option<f64>,
}

/// The kind of saw at home, for its own cautions.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum SawKind {
    /// A radial arm saw.
    #[default]
    RadialArm,
    /// A mitre saw, sliding or not.
    Mitre,
    /// A table saw with a sled.
    Table,
}

/// The saw at home.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Saw {
    /// Its kind.
    pub kind: SawKind,
    /// Width of its cut.
    pub kerf: Length,
    /// Widest strip it can cross, if there is a limit.
    pub crosses: Option<Length>,
    /// Taken off the first end of every strip to square it, blade included.
    pub squaring: Length,
    /// Shortest piece that is safe to hold and cut.
    pub shortest: Length,
    /// Whether a panel narrower than its strip can be trimmed at home.
    pub trims: bool,
}

const KINDS: [(&str, SawKind); 3] =
    [("radial arm", SawKind::RadialArm), ("mitre", SawKind::Mitre), ("table", SawKind::Table)];

/// What saws of a kind usually cross; common practice, no source.
fn usually_crosses(kind: SawKind) -> &'static str {
    match kind {
        SawKind::RadialArm => {
            "nothing is said; radial arm saws cross about 13 to 16 in. (common practice): read the saw's manual"
        }
        SawKind::Mitre => {
            "nothing is said; mitre saws cross about 5 1/2 to 8 in., sliding ones about 12 to 14 in. (common practice): \
             read the saw's manual"
        }
        SawKind::Table => "nothing is said; a sled crosses what it is long for: measure it",
    }
}

/// The car; no limits where the job is silent.
pub(crate) fn read_car(section: &mut Section) -> Car {
    let longest = section.length("longest");
    let longest = section.or("longest", longest.map(Some), None, "no limit", "nothing is said about the car");
    let widest = section.length("widest");
    let widest = section.or("widest", widest.map(Some), None, "no limit", "nothing is said about the car");
    let heaviest = section.weight("heaviest");
    section.end();
    Car { longest, widest, heaviest }
}

/// The saw, with the usual values where the job is silent.
pub(crate) fn read_saw(section: &mut Section) -> Saw {
    let eighth = section.notes().usual(Length::sixty_fourths(8), Length::from_raw(1024));
    let quarter = section.notes().usual(Length::sixty_fourths(16), Length::mm(6));
    let six = section.notes().usual(Length::inches(6), Length::mm(150));
    let crosses = section.length("crosses");
    let kind = section.word_or("kind", &KINDS, "radial arm", "nothing is said about the saw");
    let saw = Saw {
        kind,
        kerf: section.allowance_or("kerf", eighth, "common practice: a full-kerf 10 in. blade takes 1/8 in."),
        crosses: section.or("crosses", crosses.map(Some), None, "no limit", usually_crosses(kind)),
        squaring: section.allowance_or(
            "squaring",
            quarter,
            "common practice: 1/4 to 1/2 in. squares the first end of a strip",
        ),
        shortest: section.allowance_or(
            "shortest",
            six,
            "common practice: hands stay 6 in. from the blade; the saw's manual decides",
        ),
        trims: section.flag("trims").unwrap_or_default(),
    };
    section.end();
    saw
}
