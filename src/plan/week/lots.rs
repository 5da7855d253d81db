//! The panels as they come from the saw, line by line, with what the week needs to know of them.

use crate::data::Job;
use crate::length::Length;
use crate::plan::{Origin, Plan, Strip};

/// The finished panels of one line of the job.
#[derive(Clone, Debug, PartialEq)]
pub struct Lot {
    /// Index into [`Plan::panels`].
    pub panel: usize,
    /// The line's name.
    pub name: String,
    /// Width it comes out at.
    pub width: Length,
    /// Height it comes out at.
    pub height: Length,
    /// How many, extras included.
    pub count: u32,
    /// Thickness of the thickest sheet it is cut from, where known.
    pub thickness: Option<Length>,
    /// What its canvas adds to that.
    pub cloth: Length,
    /// Weight of one in kilograms, canvas included, where known.
    pub weight: Option<f64>,
    /// Width and height of its piece of canvas, if it gets one.
    pub canvas: Option<(Length, Length)>,
}

impl Lot {
    /// Width and height with the canvas that sticks out.
    pub fn footprint(&self) -> (Length, Length) {
        self.canvas.unwrap_or((self.width, self.height))
    }
}

/// The lots of a plan, in the order of its panel lines; lines of which nothing is made are left out.
pub fn lots(job: &Job, plan: &Plan) -> Vec<Lot> {
    let lots = plan.panels.iter().enumerate().map(|(panel, line)| {
        let canvas = canvas_piece(job, panel, line.cut_width, line.cut_height);
        let grams = job.week.canvas.as_ref().map_or(0.0, |canvas| canvas.weight);
        let cloth = canvas.map_or(0.0, |_| (line.cut_width * line.cut_height).to_square_metres() * grams / 1000.0);
        Lot {
            panel,
            name: line.name.clone(),
            width: line.cut_width,
            height: line.cut_height,
            count: line.count + line.extras,
            thickness: thickness(job, plan, panel),
            cloth: job.week.canvas.as_ref().filter(|_| canvas.is_some()).map_or(Length::ZERO, |roll| roll.thickness),
            weight: line.weight.map(|bare| bare + cloth),
            canvas,
        }
    });
    lots.filter(|lot| lot.count > 0).collect()
}

/// The panel plus the overlap on all four sides, if the line gets canvas.
fn canvas_piece(job: &Job, panel: usize, width: Length, height: Length) -> Option<(Length, Length)> {
    let canvas = job.week.canvas.as_ref()?;
    let covered = canvas.panels.is_empty() || canvas.panels.contains(&panel);
    covered.then(|| (width + canvas.overlap * 2, height + canvas.overlap * 2))
}

/// The thickest sheet that a strip with this panel comes from.
fn thickness(job: &Job, plan: &Plan, panel: usize) -> Option<Length> {
    let holding = plan.strips.iter().filter(|strip| strip.pieces.iter().any(|piece| piece.panel == panel));
    holding.filter_map(|strip| strip_thickness(job, strip)).max()
}

fn strip_thickness(job: &Job, strip: &Strip) -> Option<Length> {
    let sheet = match strip.origin {
        Origin::Sheet { sheet, .. } => Some(sheet),
        Origin::OnHand { strip } => job.strips.get(strip)?.sheet,
    };
    job.sheets.get(sheet?)?.thickness
}
