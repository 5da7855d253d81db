//! `[pack]`: what the panels travel in, and its limits.

use crate::length::Length;
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
