//! `[finish]` and `[glue]`: what is filled, sealed and glued, how far it goes and how it is sold.

use super::{Coverage, Package};
use crate::length::Length;
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
