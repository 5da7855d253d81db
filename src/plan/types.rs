//! The plan as plain data, every figure computed once: numbered sheets, lettered strips, positioned panels, the cuts
//! in order, what falls off. Papers only print what stands here.
//!
//! Positions on a sheet: `along` runs with the strips from the end that is squared first, `across` from the
//! reference edge (the factory edge the yard measures from).

use super::Alternative;
use crate::data::{Assumption, Cents};
use crate::length::{Area, Length, Unit};
use crate::solve::{Direction, Level, Proof};

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

/// Sheets that are cut alike, down to the panels.
#[derive(Clone, Debug, PartialEq)]
pub struct SheetGroup {
    /// Number of the first sheet of the group, from 1; the group's sheets are numbered on without gaps.
    pub number: u32,
    /// How many.
    pub count: u32,
    /// Index into `Job::sheets`.
    pub sheet: usize,
    /// The sheet kind's name.
    pub kind: String,
    /// Size of the sheet along its face grain.
    pub length: Length,
    /// Size across its face grain.
    pub width: Length,
    /// Lost at each factory edge and end.
    pub edge_trim: Length,
    /// Which way the strips run.
    pub direction: Direction,
    /// The pieces that are ripped; two after a breakdown crosscut, in the order along the strips.
    pub boards: Vec<Board>,
    /// The yard's cuts on one such sheet, in order; the last strip of a board that is used up needs none.
    pub cuts: Vec<YardCut>,
    /// How much of the sheet's ripped side the widest board needs, edge trims included.
    pub needs: Length,
    /// What that leaves of the sheet's stated size.
    pub leaves: Length,
    /// True where `leaves` is less than the sheet's tolerance: the slip says "measure first".
    pub measure_first: bool,
}

/// A piece that the yard rips: a whole sheet or a part of one.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Board {
    /// Where it begins along the strips.
    pub start: Length,
    /// Its extent along the strips.
    pub length: Length,
    /// True for the second board after a breakdown crosscut: its strips are squared at the factory end, which is the
    /// far one, so that a piece `along` its strip lies at `start + length - along - piece.length` on the sheet.
    pub from_far_end: bool,
    /// Its rips from the reference edge, in the order they are cut.
    pub rips: Vec<Rip>,
    /// Width that is left after the last rip's kerf, far edge trim included; zero if nothing is left.
    pub fall_off: Length,
}

/// One strip's place on a board.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Rip {
    /// Its near edge, from the sheet's reference edge.
    pub across: Length,
    /// Its width as asked.
    pub width: Length,
    /// Index into [`Plan::strips`].
    pub strip: usize,
}

/// One cut at the yard.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum YardCut {
    /// The crosscut before ripping: the first board comes out this long.
    Breakdown {
        /// Length of the first board.
        at: Length,
    },
    /// The reference edge is trimmed by this much, blade included.
    EdgeTrim {
        /// Index into [`SheetGroup::boards`].
        board: usize,
        /// Taken off, blade included.
        off: Length,
    },
    /// A strip of this width comes off the reference edge.
    Rip {
        /// Index into [`SheetGroup::boards`].
        board: usize,
        /// Index into [`Board::rips`].
        rip: usize,
        /// Width of the strip.
        width: Length,
        /// Width that is left beyond the kerf.
        left: Length,
    },
}

/// Sheets that the yard cuts alike, whatever is crosscut from the strips later.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct YardGroup {
    /// Indices into [`Plan::sheets`]; the first one's cuts hold for all.
    pub sheets: Vec<usize>,
    /// How many sheets in all.
    pub count: u32,
}

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
    /// `A`, `B`, ... `Z`, `AA`, ...
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
    /// Index into [`Plan::panels`].
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
    /// Index into [`Plan::strips`].
    pub strip: usize,
    /// How many strips of that letter.
    pub strips: u32,
    /// True where these strips are squared first.
    pub square_first: bool,
    /// Pieces cut from each of them now, as indices into [`Plan::panels`], in order.
    pub pieces: Vec<usize>,
    /// What is left of each strip after these cuts, far factory end included; zero if nothing is.
    pub left: Length,
    /// True where the long remainder is held and the short piece falls free.
    pub hold_long_end: bool,
}

/// Panels of one line that are trimmed to width after crosscutting.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Trim {
    /// Index into [`Plan::panels`].
    pub panel: usize,
    /// Index into [`Plan::strips`].
    pub strip: usize,
    /// How many.
    pub count: u32,
    /// Width before.
    pub from: Length,
    /// Width after.
    pub to: Length,
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
    /// Weight of all strips and yard fall-offs in kilograms, where known.
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
