//! How much is sold and needed of supplies: volumes, areas and sheets of paper in whole small units, packages with
//! their prices, and coverage. A US gallon is 231 cubic inches, a square foot 929.0304 cm2, both exactly.

use crate::data::Cents;
use crate::data::reading::SQUARE_FOOT;
use crate::length::Unit;
use serde::{Deserialize, Serialize};

/// What an [`Amount`] counts.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Measure {
    /// Volume, counted in nanolitres.
    Volume,
    /// Area, counted in hundredths of a square millimetre.
    Area,
    /// Sheets of paper, counted in thousandths.
    Sheets,
}

/// An amount in the small unit of its [`Measure`].
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Amount(pub i64);

/// Signs of the units that amounts are written in, each with its measure and its size in small units.
const UNITS: [(&str, Measure, i64); 14] = [
    ("gal", Measure::Volume, 3_785_411_784),
    ("qt", Measure::Volume, 946_352_946),
    ("pt", Measure::Volume, 473_176_473),
    ("fl oz", Measure::Volume, 29_573_530),
    ("oz", Measure::Volume, 29_573_530),
    ("ml", Measure::Volume, 1_000_000),
    ("l", Measure::Volume, 1_000_000_000),
    ("sq ft", Measure::Area, 9_290_304),
    ("sq yd", Measure::Area, 83_612_736),
    ("sq m", Measure::Area, 100_000_000),
    ("m2", Measure::Area, 100_000_000),
    ("ft2", Measure::Area, 9_290_304),
    ("sheet", Measure::Sheets, 1000),
    ("sheets", Measure::Sheets, 1000),
];

impl Amount {
    /// Reads `1 qt`, `16 fl oz`, `500 ml`, `75 sq ft`, `10 m2`; `None` for anything else or nothing above zero.
    pub fn parse(text: &str) -> Option<(Amount, Measure)> {
        let text = text.trim().to_lowercase();
        let split = text.find(|c: char| c.is_alphabetic())?;
        let (number, sign) = (text[..split].trim(), text[split..].trim());
        let (_, measure, size) = *UNITS.iter().find(|unit| unit.0 == sign)?;
        let count: f64 = number.parse().ok()?;
        #[allow(clippy::cast_precision_loss, clippy::cast_possible_truncation)] // a package of paint, checked below
        let amount = (count * size as f64).round();
        let sane = (1.0..1e15).contains(&amount);
        #[allow(clippy::cast_possible_truncation)] // far below 2^63
        sane.then_some((Amount(amount as i64), measure))
    }

    /// The signs that amounts of a measure are written with: `gal, qt, pt, fl oz, oz, ml, l`.
    pub(super) fn signs(measure: Measure) -> String {
        let signs = UNITS.iter().filter(|unit| unit.1 == measure).map(|unit| unit.0);
        signs.collect::<Vec<_>>().join(", ")
    }

    /// Litres, square metres, or sheets.
    #[allow(clippy::cast_precision_loss)] // a quantity to buy
    pub fn to_metric(self, measure: Measure) -> f64 {
        match measure {
            Measure::Volume => self.0 as f64 / 1e9,
            Measure::Area => self.0 as f64 / 1e8,
            Measure::Sheets => self.0 as f64 / 1e3,
        }
    }

    /// From litres, square metres, or sheets; rounded up to the small unit.
    #[allow(clippy::cast_possible_truncation)] // needs are far below 2^63 small units; a cast saturates anyway
    pub fn from_metric(quantity: f64, measure: Measure) -> Amount {
        match measure {
            Measure::Volume => Amount((quantity * 1e9).ceil() as i64),
            Measure::Area => Amount((quantity * 1e8).ceil() as i64),
            Measure::Sheets => Amount((quantity * 1e3).ceil() as i64),
        }
    }
}

/// A package as sold.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Package {
    /// Its size as the maker wrote it, such as `1 qt`.
    pub name: String,
    /// What it holds.
    pub holds: Amount,
    /// Its price.
    pub price: Cents,
}

/// How far a litre goes, in square metres.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Coverage(pub f64);

/// Square metres a litre in one square foot a gallon of 3.785411784 litres.
const FEET_A_GALLON: f64 = SQUARE_FOOT / 3.785_411_784;

impl Coverage {
    /// So many square feet a US gallon.
    pub fn feet_a_gallon(feet: f64) -> Coverage {
        Coverage(feet * FEET_A_GALLON)
    }

    /// As the shop says it: `500 sq ft a gallon`, `12.3 m2 a litre`.
    pub fn say(self, unit: Unit) -> String {
        match unit {
            Unit::In => format!("{:.0} sq ft a gallon", self.0 / FEET_A_GALLON),
            Unit::Mm | Unit::Cm => format!("{:.1} m2 a litre", self.0),
        }
    }
}
