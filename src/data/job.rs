//! The resolved job: everything the later stages need, checked once, so that they cannot fail on it.
//!
//! What a [`Job`] promises: at least one panel and at least one sheet kind or strip on hand; every size,
//! kerf and step is above zero where it must be and below [`Length::MAX`]; counts and money fit their sums;
//! sheet and panel names are unique; indices (`Panel::sheets`) are in range; grain and units are known words.
//! Whether the panels can be *made* from the sheets is for `model` to find out.

use super::{Car, Keeper, Panel, Saw, Sheet, StripOnHand, Yard};
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
