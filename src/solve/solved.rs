//! The solver's answer in shop words: which sheets, cut into which strips, cut into which panels, and what the answer
//! is worth. Sizes here are the smallest permitted ones; `plan` grows them back.

use crate::data::Cents;
use crate::length::Length;
use serde::{Deserialize, Serialize};

/// Which way strips run on a sheet.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Direction {
    /// Along the sheet's length, and so along its face grain.
    Along,
    /// Across it.
    Across,
}

/// The answer to a job.
#[derive(Clone, Debug, PartialEq)]
pub struct Solved {
    /// Sheets to buy; equal ones together, most numerous first.
    pub sheets: Vec<SheetUse>,
    /// Strips on hand that are used; equal uses together.
    pub on_hand: Vec<StripUse>,
    /// Money for the sheets and the paid cuts.
    pub cost: Cents,
    /// What is known about the money: the first objective.
    pub proof: Proof,
    /// What is known about the later objectives, in their order.
    pub levels: Vec<Level>,
}

/// Sheets that are cut alike.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct SheetUse {
    /// Index into `Job::sheets`.
    pub sheet: usize,
    /// Which way its strips run.
    pub direction: Direction,
    /// The pieces that are ripped: one, or two where a breakdown crosscut is made first.
    pub boards: Vec<BoardUse>,
    /// How many sheets like this.
    pub count: u32,
}

/// A whole sheet, or one of the two pieces that a breakdown crosscut leaves.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct BoardUse {
    /// Its extent along its strips: the strips' full length, edge trims included.
    pub length: Length,
    /// Its strips, in no particular order.
    pub strips: Vec<StripCut>,
}

/// A strip and the panels crosscut from it.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct StripCut {
    /// Across the strip, as asked of the yard (tolerance included).
    pub width: Length,
    /// The panels, in no particular order.
    pub pieces: Vec<PieceCut>,
}

/// A strip on hand and the panels crosscut from it.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct StripUse {
    /// Index into `Job::strips`.
    pub strip: usize,
    /// How many like this.
    pub count: u32,
    /// The panels, in no particular order.
    pub pieces: Vec<PieceCut>,
}

/// One panel on a strip.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct PieceCut {
    /// Index into `Job::panels`.
    pub panel: usize,
    /// True where the panel's height lies across the strip; else its width does.
    pub turned: bool,
    /// True where it is narrower than its strip and trimmed at home.
    pub trimmed: bool,
    /// True where it is an extra panel, beyond the count asked for.
    pub extra: bool,
}

/// What is known about the plan's cost.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Proof {
    /// True only where our own bound closed on the plan's cost.
    pub proved: bool,
    /// No plan can cost less than this.
    pub bound: Cents,
}

/// The later objectives, each improved while those before it are held.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Aim {
    /// Most worth of extra panels and of offcuts worth keeping, in cents.
    Worth,
    /// Fewest different sheet layouts and rip widths at the yard, counted together.
    Layouts,
    /// Fewest stop-block settings at home.
    Settings,
}

/// What a later objective reached.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Level {
    /// Which objective.
    pub aim: Aim,
    /// What the answer has of it.
    pub value: i64,
    /// The best that is still possible; equal to `value` where `proved`.
    pub bound: i64,
    /// True only where nothing better exists while the objectives before it are held.
    pub proved: bool,
}
