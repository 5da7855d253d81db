//! Strips with the panels crosscut from them, and what falls off.

use crate::data::Cents;
use crate::length::Length;

/// Where a strip comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Origin {
    /// Ripped by the yard from this sheet kind (index into `Job::sheets`), its face grain along the strip or not.
    Sheet {
        /// Index into `Job::sheets`.
        sheet: usize,
        /// Whether the face grain runs along the strip.
        grain_along: bool,
    },
    /// On hand (index into `Job::strips`).
    OnHand {
        /// Index into `Job::strips`.
        strip: usize,
    },
}

/// Strips that are alike: same origin, size and panels.
#[derive(Clone, Debug, PartialEq)]
pub struct Strip {
    /// `A`, `B`, ... `Z`, `AA`, ...; of a strip on hand the short name written on it, as `R1`, where it has one.
    pub letter: String,
    /// Where it comes from.
    pub origin: Origin,
    /// How many strips like this.
    pub count: u32,
    /// Width as asked of the yard, or as measured on hand.
    pub width: Length,
    /// A strip narrower than this is refused.
    pub narrowest: Length,
    /// A strip wider than this is refused (or trimmed).
    pub widest: Length,
    /// Its full length.
    pub length: Length,
    /// Taken off the first end, blade included.
    pub squaring: Length,
    /// Its panels in cutting order, from the squared end.
    pub pieces: Vec<Piece>,
    /// What is left after the last kerf, without the far factory end where that is lost; zero if nothing is.
    pub fall_off: Length,
    /// Weight of one such strip in kilograms, where thickness and density are known.
    pub weight: Option<f64>,
}

/// One panel on a strip.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Piece {
    /// Index into [`Plan::panels`](super::Plan::panels).
    pub panel: usize,
    /// True where the panel's height lies across the strip.
    pub turned: bool,
    /// True for an extra panel.
    pub extra: bool,
    /// Its near end, from the strip's first end.
    pub along: Length,
    /// Its extent along the strip: the stop-block setting.
    pub length: Length,
    /// Its extent across the strip as it comes off the saw, or after trimming.
    pub width: Length,
    /// True where it must be trimmed to that width at home.
    pub trimmed: bool,
}

/// Pieces left over that are alike.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Offcut {
    /// Extent across the strip it fell off, or of the yard's fall-off.
    pub width: Length,
    /// Extent along.
    pub length: Length,
    /// How many.
    pub count: u32,
    /// Where from: the sheet number or strip letter, in words such as `sheet 1` or `strip C`.
    pub from: String,
    /// Index into `Job::sheets`, where known.
    pub sheet: Option<usize>,
    /// Whether the face grain runs along its `length`.
    pub grain_along: bool,
    /// What it is worth as an offcut kept; zero for scrap.
    pub worth: Cents,
}
