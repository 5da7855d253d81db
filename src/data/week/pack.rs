//! `[pack]`: what the panels travel in, and its limits.

use crate::data::reading::{self, Fields, KG_PER_POUND, Notes, Section, Wrong};
use crate::length::{Length, Unit};
use serde::{Deserialize, Serialize};

/// The box, bag or bundle.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Pack {
    /// What it is.
    pub kind: PackKind,
    /// Inside size in any order; `None` for a bundle that is as large as its panels.
    pub inside: Option<[Length; 3]>,
    /// Highest bundle, where there is no inside size.
    pub highest: Option<Length>,
    /// Heaviest when full, in kilograms.
    pub heaviest: Option<f64>,
    /// Its own weight in kilograms.
    pub empty: f64,
    /// The carrier's limit that was named, if any.
    pub limit: Option<Limit>,
    /// True where the paint is still wet: only same sizes together, spacers between all faces.
    pub wet: bool,
    /// Thickness of what lies between two panels: spacers or interleaves.
    pub between: Length,
    /// Thickness of the wooden panel at the top and the bottom of every stack; zero for none.
    pub boards: Length,
    /// Density of those in kg/m3.
    pub board_density: f64,
}

/// What panels travel in.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum PackKind {
    /// A box.
    #[default]
    Box,
    /// A bag.
    Bag,
    /// A bundle tied round the panels.
    Bundle,
}

impl PackKind {
    /// `box`, `bag`, `bundle`.
    pub const fn word(self) -> &'static str {
        match self {
            PackKind::Box => "box",
            PackKind::Bag => "bag",
            PackKind::Bundle => "bundle",
        }
    }
}

/// Limits that many carriers share; each carrier's own rule holds.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Limit {
    /// A checked bag: length + width + height at most 62 in., 50 lb.
    CheckedBag,
    /// A cabin bag: 22 x 14 x 9 in.
    CabinBag,
}

const KINDS: [(&str, PackKind); 3] = [("box", PackKind::Box), ("bag", PackKind::Bag), ("bundle", PackKind::Bundle)];
const LIMITS: [(&str, Limit); 2] = [("checked bag", Limit::CheckedBag), ("cabin bag", Limit::CabinBag)];
/// Mean density of birch plywood in kg/m3, for boards that nothing is said about.
const BIRCH: f64 = 680.0;
const UNSAID: &str = "nothing is said about it";
const CARRIERS: &str = "common practice; each airline's own rule holds";

impl Limit {
    /// The size of a bag that just keeps the limit: in inches, or the millimetres that lie just under them.
    fn usual_size(self, notes: &Notes) -> [Length; 3] {
        let sides = match self {
            Limit::CheckedBag => [(27, 685), (21, 533), (14, 355)],
            Limit::CabinBag => [(22, 558), (14, 355), (9, 228)],
        };
        sides.map(|(inches, mm)| notes.usual(Length::inches(inches), Length::mm(mm)))
    }
}

/// `[pack]`, with the usual values where the job is silent.
pub(super) fn read(section: &mut Section) -> Pack {
    let kind = section.word_or("kind", &KINDS, "box", "nothing is said about what the panels travel in");
    let limit = section.word("limit", &LIMITS);
    let wet = section.flag("wet");
    let wet = section.or("wet", wet, false, "dry", "nothing is said about the paint");
    let empty = section.weight("empty");
    let empty = section.or("empty", empty, 0.0, "nothing", "its own weight is not said: weigh it");
    let (boards, density) = boards(section);
    let (inside, heaviest) = (inside(section, limit), heaviest(section, limit));
    let highest = highest(section, inside.is_none());
    if kind != PackKind::Bundle && limit.is_none() {
        section.must("inside", "\"27 x 21 x 14\"");
    }
    let between = between(section, wet);
    section.end();
    Pack { kind, inside, highest, heaviest, empty, limit, wet, between, boards, board_density: density }
}

/// Thickness and density of the wooden panels at both ends of a stack.
fn boards(section: &mut Section) -> (Length, f64) {
    let boards = section.allowance("boards");
    let origin = "nothing is said; common practice: wooden panels at top and bottom protect soft ones";
    let boards = section.or("boards", boards, Length::ZERO, "none", origin);
    let density = section.number("board_density", 50.0, 5000.0);
    if boards.is_zero() {
        return (boards, density.unwrap_or(BIRCH));
    }
    let said = format!("{BIRCH} kg/m3");
    (boards, section.or("board_density", density, BIRCH, said, "from memory: the mean of birch plywood in a handbook"))
}

/// The highest bundle; a box is as high as it is inside.
fn highest(section: &mut Section, bundle: bool) -> Option<Length> {
    let read = section.length("highest");
    if bundle { section.or("highest", read.map(Some), None, "no limit", UNSAID) } else { read }
}

fn inside(section: &mut Section, limit: Option<Limit>) -> Option<[Length; 3]> {
    let units = section.units();
    let read = section.read("inside", |text| three_sides(text, units));
    let Some(usual) = limit.map(|limit| limit.usual_size(section.notes())) else { return read };
    let said = usual.map(|side| side.show(units)).join(" x ");
    Some(section.or("inside", read, usual, format!("{said} {}", units.sign()), CARRIERS))
}

fn heaviest(section: &mut Section, limit: Option<Limit>) -> Option<f64> {
    let read = section.weight("heaviest");
    let said = if section.units() == Unit::In { "50 lb" } else { "22.6 kg (50 lb)" };
    match limit {
        Some(Limit::CheckedBag) => Some(section.or("heaviest", read, 50.0 * KG_PER_POUND, said, CARRIERS)),
        _ => section.or("heaviest", read.map(Some), None, "no limit", UNSAID),
    }
}

fn between(section: &mut Section, wet: bool) -> Length {
    let spacer = section.notes().usual(Length::sixty_fourths(16), Length::mm(6));
    let paper = section.notes().usual(Length::sixty_fourths(1), Length::from_raw(160));
    let usual = if wet {
        (spacer, "common practice: spacers at the edges of wet paintings")
    } else {
        (paper, "common practice: a sheet of paper between dry panels")
    };
    section.allowance_or("between", usual.0, usual.1)
}

/// Three sides such as `27 x 21 x 14`.
fn three_sides(text: &str, units: Unit) -> Result<[Length; 3], Wrong> {
    let plain = text.to_lowercase().replace(['\u{d7}', '*'], "x");
    let sides: Vec<&str> = plain.split('x').map(str::trim).collect();
    let [a, b, c] = sides[..] else {
        return Err(Wrong::new(format!("`{text}` is not an inside size"), "write three sides such as `27 x 21 x 14`"));
    };
    let sign = c.trim_start_matches(|c: char| !c.is_alphabetic());
    let side = |side: &str| {
        let bare = !side.contains(char::is_alphabetic);
        reading::length(&if bare { format!("{side} {sign}") } else { side.to_owned() }, units)
    };
    Ok([side(a)?, side(b)?, side(c)?])
}
