//! The size that each panel line comes out at, and the strip width that follows from it.

use crate::data::{Job, Yard};
use crate::length::Length;
use crate::solve::{PieceCut, StripCut};

/// Width and height of each panel line, in the job's order.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Sizes {
    /// The level sides.
    pub(super) widths: Vec<Length>,
    /// The upright sides.
    pub(super) heights: Vec<Length>,
}

impl Sizes {
    /// The smallest sizes that the job permits: what the solver decided with.
    pub(super) fn smallest(job: &Job) -> Self {
        let sides = crate::model::sizes::of(job);
        Sizes {
            widths: sides.iter().map(|panel| panel.width.least).collect(),
            heights: sides.iter().map(|panel| panel.height.least).collect(),
        }
    }

    /// A piece's extent across its strip.
    pub(super) fn across(&self, piece: &PieceCut) -> Length {
        if piece.turned { self.heights[piece.panel] } else { self.widths[piece.panel] }
    }

    /// A piece's extent along its strip.
    pub(super) fn along(&self, piece: &PieceCut) -> Length {
        if piece.turned { self.widths[piece.panel] } else { self.heights[piece.panel] }
    }

    /// The width to ask of the yard: a panel that is not trimmed sets it, else it stays as solved.
    pub(super) fn asked(&self, yard: &Yard, strip: &StripCut) -> Length {
        let untrimmed = strip.pieces.iter().find(|piece| !piece.trimmed);
        untrimmed.map_or(strip.width, |piece| self.across(piece) + yard.tolerance)
    }
}
