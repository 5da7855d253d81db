//! The roll put to the cutting solver: pieces become panels, and each depth that a strip across the roll may have
//! becomes a kind of sheet, as long as the roll is wide between its selvedges and as dear as it is deep.

use super::lots::Lot;
use crate::data::week::{Canvas, Weave};
use crate::data::{
    Breakdown, Car, Cents, FreePer, Grain, Job, Panel, RipWidths, Rips, Saw, SawKind, Sheet, Week, Yard,
};
use crate::length::{Length, Unit};
use crate::model::gcd;

/// Pieces of one size, whichever lots they are for.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Pieces {
    pub(super) width: Length,
    pub(super) height: Length,
    /// Indices into the lots, with counts.
    pub(super) lots: Vec<(usize, u32)>,
}

impl Pieces {
    fn count(&self) -> u32 {
        self.lots.iter().map(|lot| lot.1).sum()
    }
}

/// The pieces of all lots that get canvas and fit the roll.
pub(super) fn pieces(lots: &[Lot], canvas: &Canvas) -> Vec<Pieces> {
    let mut all: Vec<Pieces> = Vec::new();
    for (index, lot) in lots.iter().enumerate() {
        let Some((width, height)) = lot.canvas.filter(|size| fits(*size, canvas)) else { continue };
        match all.iter_mut().find(|pieces| (pieces.width, pieces.height) == (width, height)) {
            Some(pieces) => pieces.lots.push((index, lot.count)),
            None => all.push(Pieces { width, height, lots: vec![(index, lot.count)] }),
        }
    }
    all
}

/// Width of the roll between its selvedges.
pub(super) fn usable(canvas: &Canvas) -> Length {
    canvas.roll - canvas.selvedge * 2
}

/// Whether a piece fits the roll in a way that the weave allows.
pub(super) fn fits(piece: (Length, Length), canvas: &Canvas) -> bool {
    !ways(piece, canvas).is_empty()
}

/// Extents across and along the roll in which a piece may lie.
pub(super) fn ways((width, height): (Length, Length), canvas: &Canvas) -> Vec<(Length, Length)> {
    let ways = match canvas.weave {
        Weave::Along => vec![(width, height)],
        Weave::Across => vec![(height, width)],
        Weave::Either => vec![(width, height), (height, width)],
    };
    let longest = canvas.sold.longest.unwrap_or(Length::MAX);
    ways.into_iter().filter(|(across, along)| *across <= usable(canvas) && *along <= longest).collect()
}

/// Depths that a strip may have: those of its deepest piece.
fn depths(pieces: &[Pieces], canvas: &Canvas) -> Vec<Length> {
    let along = |pieces: &Pieces| ways((pieces.width, pieces.height), canvas).into_iter().map(|way| way.1);
    let mut depths: Vec<Length> = pieces.iter().flat_map(along).collect();
    depths.sort_unstable();
    depths.dedup();
    depths
}

/// The step that all depths are multiples of, so that a sheet's price in cents is its depth in steps.
pub(super) fn step(pieces: &[Pieces], canvas: &Canvas) -> Length {
    let raw = depths(pieces, canvas).into_iter().map(Length::raw).fold(0, gcd);
    Length::from_raw(raw.max(1))
}

/// The cutting job whose least cost, times the step, is the least length of roll.
pub(super) fn roll_job(pieces: &[Pieces], canvas: &Canvas) -> Job {
    let step = step(pieces, canvas);
    let sheets = depths(pieces, canvas).into_iter().map(|depth| sheet(depth, step, canvas)).collect();
    Job {
        title: canvas.name.clone(),
        units: Unit::In,
        currency: String::new(),
        rule: Length::sixty_fourths(1),
        sheets,
        panels: pieces.iter().enumerate().map(|(index, pieces)| panel(index, pieces, canvas.weave)).collect(),
        strips: Vec::new(),
        keepers: Vec::new(),
        yard: scissors(),
        car: Car::default(),
        saw: knife(),
        week: Week::default(),
        assumptions: Vec::new(),
    }
}

fn sheet(depth: Length, step: Length, canvas: &Canvas) -> Sheet {
    Sheet {
        name: depth.show(Unit::In),
        length: usable(canvas),
        width: depth,
        thickness: None,
        price: Cents(depth.times(step)),
        stock: None,
        density: None,
        edge_trim: Length::ZERO,
        tolerance: Length::ZERO,
    }
}

/// The warp runs along the roll, and so across these sheets: a panel whose height lies along the roll is level.
fn panel(index: usize, pieces: &Pieces, weave: Weave) -> Panel {
    let grain = match weave {
        Weave::Along => Grain::Level,
        Weave::Across => Grain::Upright,
        Weave::Either => Grain::Any,
    };
    Panel {
        name: index.to_string(),
        width: pieces.width,
        height: pieces.height,
        count: pieces.count(),
        scant: Length::ZERO,
        grain,
        extra: 0,
        worth: Cents::ZERO,
        sheets: Vec::new(),
    }
}

/// Cuts across the roll: no kerf, no price, one strip a sheet.
fn scissors() -> Yard {
    Yard {
        kerf: Length::ZERO,
        rips: Rips::Along,
        rip_widths: RipWidths::Any,
        narrowest: Length::ZERO,
        widest: None,
        most_cuts: None,
        free_cuts: 0,
        free_per: FreePer::Sheet,
        cut_price: Cents::ZERO,
        tolerance: Length::ZERO,
        breakdown: Breakdown::Never,
    }
}

/// Cuts along the roll within a strip: no kerf, and a shallower piece is trimmed.
fn knife() -> Saw {
    Saw {
        kind: SawKind::Table,
        kerf: Length::ZERO,
        crosses: None,
        squaring: Length::ZERO,
        shortest: Length::ZERO,
        trims: true,
    }
}
