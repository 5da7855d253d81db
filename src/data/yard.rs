//! `[yard]`: what the lumber yard cuts, how well, and at what price.

use super::Cents;
use super::reading::{Fields, Section};
use crate::length::Length;
use serde::{Deserialize, Serialize};

/// Which way the yard rips a sheet.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Rips {
    /// Strips run along the sheet's length.
    #[default]
    Along,
    /// Strips run across it.
    Across,
    /// Whichever is better, sheet by sheet.
    Either,
}

/// The strip widths that the yard is willing to cut.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum RipWidths {
    /// Any width.
    #[default]
    Any,
    /// Only these, ascending.
    Only(Vec<Length>),
    /// Only multiples of this.
    Step(Length),
}

/// What the free cuts are counted over.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum FreePer {
    /// Each sheet.
    #[default]
    Sheet,
    /// The whole order.
    Order,
}

/// When the yard makes one crosscut before ripping a sheet.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Breakdown {
    /// Never.
    Never,
    /// Only for sheets whose strips would be too long for the car.
    #[default]
    IfNeeded,
    /// Wherever it saves money.
    Allowed,
}

/// What the lumber yard cuts, how well and at what price.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Yard {
    /// Width of the yard's saw cut.
    pub kerf: Length,
    /// Which way it rips.
    pub rips: Rips,
    /// The strip widths it is willing to cut.
    pub rip_widths: RipWidths,
    /// Narrowest strip it cuts.
    pub narrowest: Length,
    /// Widest strip it cuts, if there is a limit.
    pub widest: Option<Length>,
    /// Most cuts it makes on one sheet, if there is a limit.
    pub most_cuts: Option<u32>,
    /// Cuts that cost nothing.
    pub free_cuts: u32,
    /// What the free cuts are counted over.
    pub free_per: FreePer,
    /// Price of each cut after the free ones.
    pub cut_price: Cents,
    /// How much narrower or wider than asked a strip may come out.
    pub tolerance: Length,
    /// When it makes a crosscut before ripping.
    pub breakdown: Breakdown,
}

const RIPS: [(&str, Rips); 3] = [("along", Rips::Along), ("across", Rips::Across), ("either", Rips::Either)];
const PER: [(&str, FreePer); 2] = [("sheet", FreePer::Sheet), ("order", FreePer::Order)];
const BREAKDOWN: [(&str, Breakdown); 3] =
    [("never", Breakdown::Never), ("if needed", Breakdown::IfNeeded), ("allowed", Breakdown::Allowed)];

/// The yard, with the usual values where the job is silent.
pub(crate) fn read(section: &mut Section) -> Yard {
    let eighth = section.notes().usual(Length::sixty_fourths(8), Length::from_raw(1024));
    let three = section.notes().usual(Length::inches(3), Length::mm(75));
    let yard = Yard {
        kerf: section.allowance_or("kerf", eighth, "common practice: a yard's panel saw takes about 1/8 in."),
        rips: section.word_or("rips", &RIPS, "along", "common practice: strips run along the sheet"),
        rip_widths: rip_widths(section),
        narrowest: section.allowance_or(
            "narrowest",
            three,
            "common practice: many yards refuse strips under a few inches",
        ),
        widest: section.length("widest"),
        most_cuts: section.some("most_cuts"),
        free_cuts: section.count("free_cuts").unwrap_or_default(),
        free_per: section.word("free_per", &PER).unwrap_or_default(),
        cut_price: cut_price(section),
        tolerance: section.allowance_or(
            "tolerance",
            Length::ZERO,
            "cuts are taken as exact; yards cut to about 1/16 to 1/8 in. (common practice)",
        ),
        breakdown: section.word_or(
            "breakdown",
            &BREAKDOWN,
            "if needed",
            "a sheet is crosscut first only where its strips are too long for the car",
        ),
    };
    section.end();
    check(section, &yard);
    yard
}

fn cut_price(section: &mut Section) -> Cents {
    let price = section.money("cut_price");
    section.or(
        "cut_price",
        price,
        Cents::ZERO,
        "nothing",
        "no price given; many yards charge a small sum for each cut after the first few (common practice)",
    )
}

/// Permitted widths from a list or a step.
fn rip_widths(section: &mut Section) -> RipWidths {
    let units = section.units();
    let step = section.length("rip_step");
    let widths = section.read_each("rip_widths", |text| super::reading::length(text, units));
    if section.has("rip_step") && section.has("rip_widths") {
        section.fault("rip_step", "rip widths are given twice", "write either `rip_widths` or `rip_step`");
    }
    match (widths, step) {
        (Some(mut widths), _) => {
            widths.sort_unstable();
            widths.dedup();
            if widths.is_empty() {
                section.fault(
                    "rip_widths",
                    "no rip width is permitted",
                    "list the widths, or leave `rip_widths` out for any width",
                );
            }
            RipWidths::Only(widths)
        }
        (None, Some(step)) => RipWidths::Step(step),
        (None, None) => RipWidths::Any,
    }
}

fn check(section: &Section, yard: &Yard) {
    let units = section.units();
    if let Some(widest) = yard.widest.filter(|widest| *widest < yard.narrowest) {
        let cause =
            format!("the widest rip, {}, is under the narrowest, {}", widest.say(units), yard.narrowest.say(units));
        section.fault("widest", cause, "write `narrowest` smaller, or `widest` larger");
    }
    let permitted = |width: &Length| *width >= yard.narrowest && yard.widest.is_none_or(|widest| *width <= widest);
    if let RipWidths::Only(widths) = &yard.rip_widths
        && !widths.is_empty()
        && !widths.iter().any(permitted)
    {
        let cause = format!(
            "no rip width of the list lies between the yard's limits; the narrowest is {}",
            yard.narrowest.say(units)
        );
        section.fault("rip_widths", cause, "list wider strips, or write `narrowest` smaller");
    }
    if yard.tolerance > Length::inches(1) {
        let cause = format!("a yard that cuts to {} is no help", yard.tolerance.say(units));
        section.fault("tolerance", cause, "write how far off a rip may be, such as `1/16 in`");
    }
}
