//! The plan as plain data, every figure computed once: numbered sheets, lettered strips, positioned panels, the cuts
//! in order, what falls off. Papers only print what stands here.

mod sheet;
mod strip;
mod saw;

pub use saw::{StopCut, StopSetting, Trim};
pub use sheet::{Board, Rip, SheetGroup, YardCut, YardGroup};
pub use strip::{Offcut, Origin, Piece, Strip};

use super::{Alternative, Claim};
use crate::data::{Assumption, Cents};
use crate::length::{Area, Length, Unit};
use crate::solve::{Level, Proof};

/// A whole plan, ready to print.
#[derive(Clone, Debug, PartialEq)]
pub struct Plan {
    /// The job's title.
    pub title: String,
    /// Unit that lengths are printed in.
    pub units: Unit,
    /// Sign before amounts of money.
    pub currency: String,
    /// Money for sheets and yard cuts.
    pub cost: Cost,
    /// What is known about that money.
    pub proof: Proof,
    /// What that proof is about.
    pub claim: Claim,
    /// What the later aims reached.
    pub levels: Vec<Level>,
    /// Groups of sheets that are alike to the last panel, in the order of their numbers.
    pub sheets: Vec<SheetGroup>,
    /// The same sheets grouped as the yard sees them: by their rips alone.
    pub yard: Vec<YardGroup>,
    /// Every different strip, by letter; strips from sheets first, then those on hand.
    pub strips: Vec<Strip>,
    /// One line for each panel line of the job, in the job's order.
    pub panels: Vec<PanelLine>,
    /// The saw order: stop-block settings in the order they are set.
    pub stops: Vec<StopSetting>,
    /// Panels trimmed to width at home after crosscutting, if any.
    pub trims: Vec<Trim>,
    /// What is left over, largest first.
    pub offcuts: Vec<Offcut>,
    /// How the sheets' area is spent.
    pub areas: Areas,
    /// Loads for the car.
    pub load: Load,
    /// What the maker must know, such as "measure first"; in the order of the work.
    pub notes: Vec<Note>,
    /// Other ways to do the job, solved side by side, this plan's row first; empty where none was asked for.
    pub comparison: Vec<Alternative>,
    /// What follows the saw: canvas, quantities, calendar, press, labels, packing.
    pub week: super::week::Week,
    /// Defaults that were used.
    pub assumptions: Vec<Assumption>,
}

/// Money for sheets and yard cuts.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Cost {
    /// Sheets.
    pub sheets: Cents,
    /// Paid cuts at the yard.
    pub cuts: Cents,
    /// Both.
    pub total: Cents,
    /// Number of sheets bought.
    pub sheets_bought: u32,
    /// Yard cuts in all.
    pub yard_cuts: u32,
    /// Yard cuts that are paid for.
    pub paid_cuts: u32,
}

/// A panel line of the job and what becomes of it.
#[derive(Clone, Debug, PartialEq)]
pub struct PanelLine {
    /// The line's name.
    pub name: String,
    /// Nominal width.
    pub width: Length,
    /// Nominal height.
    pub height: Length,
    /// Width it comes out at; every panel of the size the same.
    pub cut_width: Length,
    /// Height it comes out at.
    pub cut_height: Length,
    /// How many were asked for, all of which are made.
    pub count: u32,
    /// How many extra ones are made.
    pub extras: u32,
    /// Weight of one bare panel in kilograms, where known.
    pub weight: Option<f64>,
}

/// How the area of the sheets bought and the strips used is spent.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Areas {
    /// Sheets bought and strips on hand used.
    pub stock: Area,
    /// Panels, extras included, at their cut sizes.
    pub panels: Area,
    /// Offcuts worth keeping.
    pub kept: Area,
}

/// What goes into the car from the yard.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Load {
    /// Longest piece.
    pub longest: Length,
    /// Widest piece.
    pub widest: Length,
    /// Weight of all strips, and of the yard's fall-offs that go into the car, in kilograms, where known.
    pub weight: Option<f64>,
    /// Trips needed under the car's weight limit; 1 where there is none.
    pub trips: u32,
}

/// Where in the work a note belongs.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Stage {
    /// Buying.
    Shop,
    /// At the yard.
    Yard,
    /// On the road.
    Car,
    /// At the saw.
    Saw,
    /// At the bench.
    Bench,
}

/// Something the maker must know.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Note {
    /// Where it belongs.
    pub stage: Stage,
    /// A full sentence in the job's units.
    pub text: String,
}
