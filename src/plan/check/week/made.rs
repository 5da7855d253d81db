//! The panels that the cuts give, line by line, with what the week must know of them.

use crate::data::Job;
use crate::length::Length;
use crate::plan::{Origin, Plan};

/// The panels of one line, as they come from the saw.
pub(super) struct Made {
    pub(super) name: String,
    pub(super) width: Length,
    pub(super) height: Length,
    /// How many, extras included.
    pub(super) count: u32,
    /// The thickest wood they are cut from, where known.
    pub(super) thickness: Option<Length>,
    /// What its canvas adds to that.
    pub(super) cloth: Length,
    /// Kilograms of one with its canvas, where known.
    pub(super) weight: Option<f64>,
    /// Width and height of its canvas, if it gets one.
    pub(super) canvas: Option<(Length, Length)>,
}

impl Made {
    /// Square metres of one face of all of them.
    pub(super) fn faces(&self) -> f64 {
        (self.width * self.height).to_square_metres() * f64::from(self.count)
    }

    /// Square metres of all their edges, as far as their thickness is known.
    pub(super) fn edges(&self) -> f64 {
        let round = self.width + self.height + self.width + self.height;
        (round * self.thickness.unwrap_or_default()).to_square_metres() * f64::from(self.count)
    }

    /// Square metres of all their canvas.
    pub(super) fn canvas_area(&self) -> f64 {
        let each = self.canvas.map_or(0.0, |(width, height)| (width * height).to_square_metres());
        each * f64::from(self.count)
    }

    /// The longer side, then the shorter one.
    pub(super) fn sides(&self) -> (Length, Length) {
        (self.width.max(self.height), self.width.min(self.height))
    }
}

/// All lines of the plan.
pub(super) fn made(job: &Job, plan: &Plan) -> Vec<Made> {
    (0..plan.panels.len()).map(|at| line(job, plan, at)).collect()
}

fn line(job: &Job, plan: &Plan, at: usize) -> Made {
    let line = &plan.panels[at];
    let (width, height) = (line.cut_width, line.cut_height);
    let roll = job.week.canvas.as_ref().filter(|canvas| canvas.panels.is_empty() || canvas.panels.contains(&at));
    let linen = roll.map_or(0.0, |canvas| (width * height).to_square_metres() * canvas.weight / 1000.0);
    Made {
        name: line.name.clone(),
        width,
        height,
        count: line.count + line.extras,
        thickness: thickness(job, plan, at),
        cloth: roll.map_or(Length::ZERO, |canvas| canvas.thickness),
        weight: line.weight.map(|wood| wood + linen),
        canvas: roll.map(|canvas| (canvas.overlap + width + canvas.overlap, canvas.overlap + height + canvas.overlap)),
    }
}

fn thickness(job: &Job, plan: &Plan, at: usize) -> Option<Length> {
    let mut thickest = None;
    for strip in plan.strips.iter().filter(|strip| strip.pieces.iter().any(|piece| piece.panel == at)) {
        let kind = match strip.origin {
            Origin::Sheet { sheet, .. } => Some(sheet),
            Origin::OnHand { strip } => job.strips[strip].sheet,
        };
        thickest = thickest.max(kind.and_then(|kind| job.sheets[kind].thickness));
    }
    thickest
}
