//! `[canvas]`: the roll, how it is sold, and how much larger than its panel a piece is cut.

use crate::data::reading::{self, Fields, Section, Wrong};
use crate::data::{Cents, Panel};
use crate::length::{Length, Unit};
use serde::{Deserialize, Serialize};

/// Canvas cut from a roll.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Canvas {
    /// What the shop calls it.
    pub name: String,
    /// Width of the roll.
    pub roll: Length,
    /// Not used along each edge of the roll.
    pub selvedge: Length,
    /// How much a piece sticks out beyond its panel on each of the four sides.
    pub overlap: Length,
    /// Which way a panel's height lies on the roll.
    pub weave: Weave,
    /// How it is sold.
    pub sold: Sold,
    /// Weight in grams a square metre.
    pub weight: f64,
    /// How thick it is, which every stack of panels with it rises by.
    pub thickness: Length,
    /// Lines of the job that get canvas, as indices into `Job::panels`; empty for all.
    pub panels: Vec<usize>,
}

/// Which way a panel's height lies on the roll.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Weave {
    /// Along the roll, with the warp.
    Along,
    /// Across the roll.
    Across,
    /// Whichever needs less canvas, piece by piece.
    #[default]
    Either,
}

/// How canvas is sold.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Sold {
    /// Price of one [`Sold::per`].
    pub price: Cents,
    /// The length the price is for: a yard, a metre, or a whole roll.
    pub per: Length,
    /// Lengths sold are multiples of this.
    pub step: Length,
    /// Smallest length sold.
    pub smallest: Length,
    /// Longest length in one piece, if there is a limit: the roll's own length.
    pub longest: Option<Length>,
}

impl Sold {
    /// A length in what the price is for: `4 yd`, `2.5 m`, `1 roll`.
    pub fn say(&self, length: Length) -> String {
        let sign = match self.per {
            YARD => "yd",
            METRE => "m",
            _ => "roll",
        };
        let figure = format!("{:.2}", length.to_mm() / self.per.to_mm());
        format!("{} {sign}", figure.trim_end_matches('0').trim_end_matches('.'))
    }
}

const WEAVES: [(&str, Weave); 3] = [("along", Weave::Along), ("across", Weave::Across), ("either", Weave::Either)];

/// A yard: 36 in.
const YARD: Length = Length::inches(36);
/// A metre.
const METRE: Length = Length::mm(1000);

#[derive(Clone, Copy)]
enum Per {
    Yard,
    Metre,
    Roll,
}

const PER: [(&str, Per); 4] = [("yard", Per::Yard), ("metre", Per::Metre), ("meter", Per::Metre), ("roll", Per::Roll)];

/// `[canvas]`; `None` where a fault was noted.
pub(super) fn read(section: &mut Section, panels: &[Panel]) -> Option<Canvas> {
    let half = section.notes().usual(Length::sixty_fourths(32), Length::mm(12));
    let three_quarters = section.notes().usual(Length::sixty_fourths(48), Length::mm(19));
    let name = section.text("name").unwrap_or_else(|| "canvas".into());
    let roll = section.length("roll");
    let selvedge =
        section.allowance_or("selvedge", half, "common practice: 1/2 to 1 in. along each edge of a roll is not used");
    let overlap = section.allowance_or(
        "overlap",
        three_quarters,
        "common practice: a piece is cut 1 1/2 in. larger than its panel each way",
    );
    let weave = section.word_or("weave", &WEAVES, "either", "nothing is said; linen stretches differently each way");
    let weight = section.number("weight", 20.0, 5000.0);
    let weight = section.or(
        "weight",
        weight,
        400.0,
        "400 g/m2",
        "general pages: primed cotton and linen weigh about 280 to 580 g/m2",
    );
    let usual = section.notes().usual(Length::sixty_fourths(2), Length::from_raw(256));
    let thickness = section.allowance_or("thickness", usual, "a guess to start from; measure it, ground included");
    let sizes = sizes(section, panels);
    let sold = sold(section);
    section.must("roll", "82");
    section.must("price", "32.00");
    section.end();
    let canvas = Canvas { name, roll: roll?, selvedge, overlap, weave, sold: sold?, weight, thickness, panels: sizes };
    check(section, &canvas);
    Some(canvas)
}

/// How it is sold: by the yard or metre, or as whole rolls of `roll_length`.
fn sold(section: &mut Section) -> Option<Sold> {
    let usual = if section.units() == Unit::In { "yard" } else { "metre" };
    let per = section.word_or("per", &PER, usual, "common practice: sold by the running yard or metre");
    let longest = section.length("roll_length");
    if !section.has("roll_length") && !matches!(per, Per::Roll) {
        section.notes().assume(
            "canvas.roll_length".into(),
            "no limit".into(),
            "nothing is said about how long a roll is",
        );
    }
    let step = section.length("step");
    let smallest = section.length("smallest");
    let price = section.money("price");
    let per = match per {
        Per::Yard => YARD,
        Per::Metre => METRE,
        Per::Roll => longest.or_else(|| {
            section.must("roll_length", "\"6 yd\"");
            None
        })?,
    };
    let step = section.or("step", step, per, per.say(section.units()), "common practice: whole yards, metres or rolls");
    let smallest =
        section.or("smallest", smallest, step, step.say(section.units()), "the step that lengths are sold in");
    Some(Sold { price: price?, per, step, smallest, longest })
}

/// Lines that get canvas, by their names or their sizes.
fn sizes(section: &mut Section, panels: &[Panel]) -> Vec<usize> {
    let units = section.units();
    let named = |text: &str| {
        let size = reading::size(text, units).ok().map(|(_, width, height)| (width, height));
        let meant =
            |panel: &Panel| panel.name.eq_ignore_ascii_case(text.trim()) || size == Some((panel.width, panel.height));
        let found: Vec<usize> = (0..panels.len()).filter(|index| meant(&panels[*index])).collect();
        if found.is_empty() { Err(unknown(text, panels)) } else { Ok(found) }
    };
    let sizes = section.read_each("sizes", named).unwrap_or_default();
    let mut sizes =
        section.or("sizes", Some(sizes), Vec::new(), "all", "nothing is said: every panel gets canvas").concat();
    sizes.sort_unstable();
    sizes.dedup();
    sizes
}

fn unknown(text: &str, panels: &[Panel]) -> Wrong {
    let names = panels.iter().map(|panel| panel.name.as_str());
    let remedy = match reading::nearest(text, names) {
        Some(near) => format!("did you mean `{near}`?"),
        None => "write the panels' names or sizes as the job has them".into(),
    };
    Wrong::new(format!("no panel is named `{text}`"), remedy)
}

fn check(section: &Section, canvas: &Canvas) {
    let units = section.units();
    if canvas.selvedge * 2 >= canvas.roll {
        let cause = format!("selvedges of {} leave nothing of the roll", canvas.selvedge.say(units));
        section.fault("selvedge", cause, "write what is not used along one edge, such as `1/2 in`");
    }
    if canvas.sold.longest.is_some_and(|longest| longest < canvas.sold.smallest) {
        section.fault("smallest", "the smallest length sold is longer than the roll", "write a shorter one");
    }
}
