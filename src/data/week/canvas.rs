//! `[canvas]`: the roll, how it is sold, and how much larger than its panel a piece is cut.

use crate::data::Cents;
use crate::length::Length;
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
