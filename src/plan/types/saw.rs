//! The work at the saw: stop-block settings in order, and panels trimmed to width afterwards.

use crate::length::Length;

/// One setting of the stop block and all that is cut at it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct StopSetting {
    /// Distance from the stop to the blade.
    pub setting: Length,
    /// Cuts at this setting, strip by strip.
    pub cuts: Vec<StopCut>,
}

/// What is cut from the strips of one letter at one setting, before the stop is moved.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct StopCut {
    /// Index into [`Plan::strips`](super::Plan::strips).
    pub strip: usize,
    /// How many strips of that letter.
    pub strips: u32,
    /// True where these strips are squared first.
    pub square_first: bool,
    /// Pieces cut from each of them now, as indices into [`Plan::panels`](super::Plan::panels), in order.
    pub pieces: Vec<usize>,
    /// What is left of each strip after these cuts, far factory end included; zero if nothing is.
    pub left: Length,
    /// True where the long remainder is held and the short piece falls free.
    pub hold_long_end: bool,
}

/// Panels of one line that are trimmed to width after crosscutting.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Trim {
    /// Index into [`Plan::panels`](super::Plan::panels).
    pub panel: usize,
    /// Index into [`Plan::strips`](super::Plan::strips).
    pub strip: usize,
    /// How many.
    pub count: u32,
    /// Width before.
    pub from: Length,
    /// Width after.
    pub to: Length,
}
