//! What the panels take of each supply, reckoned a second time: faces, edges and joints times coats, by coverage, with
//! the allowance for waste.

use super::made::Made;
use crate::data::Job;
use crate::data::week::{Finish, Glue, Measure, Package};

/// One supply, and what each line of panels takes of it in litres or square metres.
pub(super) struct Supply<'a> {
    pub(super) what: String,
    pub(super) measure: Measure,
    pub(super) packages: &'a [Package],
    pub(super) each: Vec<f64>,
}

/// The supplies that the job takes, in the order of the work.
pub(super) fn supplies<'a>(job: &'a Job, made: &[Made]) -> Vec<Supply<'a>> {
    let week = &job.week;
    let volume = |what: &str, packages, each| Supply { what: what.into(), measure: Measure::Volume, packages, each };
    let mut all = Vec::new();
    if let Some(finish) = &week.finish {
        all.push(volume("filler", &finish.filler[..], filler(finish, made)));
        if !finish.sandpaper.is_empty() {
            all.extend((0..finish.grits.len()).map(|at| sandpaper(finish, made, at)));
        }
        all.push(volume("sealer", &finish.sealer[..], sealer(finish, made)));
    }
    if let Some(glue) = &week.glue {
        all.push(volume("glue", &glue.packages[..], joints(glue, made)));
    }
    if let Some(press) = &week.press {
        let each = made.iter().map(Made::canvas_area).collect();
        all.push(Supply { what: "waxed paper".into(), measure: Measure::Area, packages: &press.paper, each });
    }
    all.retain(|supply| supply.each.iter().sum::<f64>() > 0.0);
    all
}

/// One more than nothing by so many percent.
fn more(percent: u32) -> f64 {
    (100.0 + f64::from(percent)) / 100.0
}

/// A square metre filled a millimetre deep takes a litre.
fn filler(finish: &Finish, made: &[Made]) -> Vec<f64> {
    let share = f64::from(finish.flaws) / 100.0 * more(finish.waste);
    made.iter().map(|line| line.faces() * finish.fill_depth.to_mm() * share).collect()
}

/// Whole sheets of one grit, shared out by area: a face of each panel, and the last one between coats too.
fn sandpaper<'a>(finish: &'a Finish, made: &[Made], at: usize) -> Supply<'a> {
    let faces: f64 = made.iter().map(Made::faces).sum();
    let sealed = if finish.both_faces { 2.0 * faces } else { faces };
    let last = at + 1 == finish.grits.len();
    let area = faces + if last && finish.coats > 1 { sealed * f64::from(finish.coats - 1) } else { 0.0 };
    let sheets = (area / finish.sheet_sands - 1e-6).ceil();
    let each = made.iter().map(|line| sheets * line.faces() / faces.max(f64::MIN_POSITIVE)).collect();
    let what = format!("sandpaper, grit {}", finish.grits[at]);
    Supply { what, measure: Measure::Sheets, packages: &finish.sandpaper, each }
}

fn sealer(finish: &Finish, made: &[Made]) -> Vec<f64> {
    let coats = f64::from(finish.coats) * more(finish.waste);
    let area = |line: &Made| {
        let back = if finish.both_faces { line.faces() } else { 0.0 };
        let edges = if finish.edges { line.edges() } else { 0.0 };
        line.faces() + back + edges
    };
    made.iter().map(|line| area(line) * coats / finish.coverage.0).collect()
}

fn joints(glue: &Glue, made: &[Made]) -> Vec<f64> {
    let faces = f64::from(glue.faces) * more(glue.waste) / glue.coverage.0;
    made.iter().map(|line| if line.canvas.is_some() { line.faces() * faces } else { 0.0 }).collect()
}
