//! The resolved job: everything the later stages need, checked once, so that they cannot fail on it.
//!
//! What a [`Job`] promises: at least one panel and at least one sheet kind or strip on hand; every size,
//! kerf and step is above zero where it must be and below [`Length::MAX`]; counts and money fit their sums;
//! sheet and panel names are unique; indices (`Panel::sheets`) are in range; grain and units are known words.
//! Whether the panels can be *made* from the sheets is for `model` to find out.

use super::Cents;
use crate::length::{Length, Unit};
use serde::{Deserialize, Serialize};

/// A whole job, resolved and consistent.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Job {
    /// Printed on every paper.
    pub title: String,
    /// Unit of bare numbers and of print.
    pub units: Unit,
    /// Sign before amounts of money, `$` by default.
    pub currency: String,
    /// Step that grown panel sizes are rounded down to (default 1/16 in. or 1 mm).
    pub rule: Length,
    /// Sheet kinds that can be bought.
    pub sheets: Vec<Sheet>,
    /// Panels wanted, as the lines of the job and its list.
    pub panels: Vec<Panel>,
    /// Strips and offcuts on hand: free, as many as there are.
    pub strips: Vec<StripOnHand>,
    /// Offcuts worth keeping.
    pub keepers: Vec<Keeper>,
    /// What the lumber yard cuts and charges.
    pub yard: Yard,
    /// What the car carries.
    pub car: Car,
    /// The saw at home.
    pub saw: Saw,
    /// What follows the saw: finish, canvas, press, calendar, labels, packing.
    #[serde(default)]
    pub week: super::Week,
    /// Defaults that were used because the job file is silent, each with where it comes from.
    pub assumptions: Vec<Assumption>,
}

/// A default that was used, to be printed where it matters.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Assumption {
    /// The key it stands for, such as `saw.squaring`.
    pub key: String,
    /// The value, as printed.
    pub value: String,
    /// Where the value comes from, such as "common practice".
    pub origin: String,
}

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

/// Which way the face grain must run on a panel.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Grain {
    /// Either way.
    #[default]
    Any,
    /// Along the panel's height.
    Upright,
    /// Along the panel's width.
    Level,
}

/// One line of panels wanted.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Panel {
    /// The user's name for the line, or its size as written (`12 x 16`).
    pub name: String,
    /// Nominal width (the level side).
    pub width: Length,
    /// Nominal height (the upright side).
    pub height: Length,
    /// How many are wanted.
    pub count: u32,
    /// Most that width and height may each come out under the nominal size.
    pub scant: Length,
    /// Face grain on the panel.
    pub grain: Grain,
    /// How many more one would gladly have.
    pub extra: u32,
    /// What one more is worth.
    pub worth: Cents,
    /// Sheet kinds it may be cut from, as indices into [`Job::sheets`]; empty for any.
    pub sheets: Vec<usize>,
}

/// Strips or offcuts on hand that are alike.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct StripOnHand {
    /// The letter or name written on it; may be empty.
    pub name: String,
    /// Across the strip.
    pub width: Length,
    /// Along the strip, the way it goes through the saw.
    pub length: Length,
    /// How many.
    pub count: u32,
    /// The sheet kind it was cut from, as an index into [`Job::sheets`], where known.
    pub sheet: Option<usize>,
    /// Whether its face grain runs along its length.
    pub grain_along: bool,
}

/// An offcut size worth keeping, either way round.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Keeper {
    /// The shorter side.
    pub width: Length,
    /// The longer side.
    pub length: Length,
    /// What an offcut at least this large is worth.
    pub worth: Cents,
}

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
