//! How much filler, sealer, glue and paper the panels take: areas times coats, by coverage, with an allowance for
//! waste. `1 gal` spread `1 mil` thick covers 1604.17 sq ft, so a depth is a coverage too.

use super::lots::Lot;
use crate::data::week::{Finish, Glue, Measure, Package};
use crate::data::{Job, SQUARE_FOOT};
use crate::length::{Length, Unit};

/// One supply and how much of it is needed.
#[derive(Clone, Debug, PartialEq)]
pub struct Supply<'a> {
    /// What it is.
    pub what: String,
    /// Litres, square metres or sheets, waste included.
    pub need: f64,
    /// Which of them.
    pub measure: Measure,
    /// Each lot's share of it, in the same unit.
    pub shares: Vec<f64>,
    /// How it was reckoned, in words.
    pub reckoned: String,
    /// How it is sold.
    pub packages: &'a [Package],
}

/// All supplies that the job asks for, in the order of the work.
pub fn needs<'a>(job: &'a Job, lots: &[Lot]) -> Vec<Supply<'a>> {
    let week = &job.week;
    let mut needs = Vec::new();
    if let Some(finish) = &week.finish {
        needs.extend(filler(finish, lots, job.units));
        needs.extend(sandpaper(finish, lots, job.units));
        needs.extend(sealer(finish, lots, job.units));
    }
    if let Some(glue) = &week.glue {
        needs.extend(glue_need(glue, lots, job.units));
    }
    if let Some(press) = &week.press {
        needs.extend(paper(&press.paper, lots, job.units));
    }
    needs.retain(|need| need.need > 0.0);
    needs
}

/// Square metres of the faces of one side of each lot's panels.
pub fn faces(lots: &[Lot]) -> Vec<f64> {
    lots.iter().map(|lot| (lot.width * lot.height).to_square_metres() * f64::from(lot.count)).collect()
}

/// Square metres of the four edges of each lot's panels; zero where the thickness is not known.
pub fn edges(lots: &[Lot]) -> Vec<f64> {
    let edge = |lot: &Lot| (lot.width + lot.height) * 2 * lot.thickness.unwrap_or(Length::ZERO);
    lots.iter().map(|lot| edge(lot).to_square_metres() * f64::from(lot.count)).collect()
}

/// Litres that fill a share of the faces (in percent) to an average depth.
pub fn litres_to_fill(square_metres: f64, flaws: u32, depth: Length) -> f64 {
    square_metres * f64::from(flaws) / 100.0 * depth.to_mm()
}

fn with_waste(shares: Vec<f64>, percent: u32) -> (f64, Vec<f64>) {
    let shares: Vec<f64> = shares.into_iter().map(|share| share * (1.0 + f64::from(percent) / 100.0)).collect();
    (shares.iter().sum(), shares)
}

fn filler<'a>(finish: &'a Finish, lots: &[Lot], units: Unit) -> Option<Supply<'a>> {
    let areas = faces(lots);
    let litres = areas.iter().map(|area| litres_to_fill(*area, finish.flaws, finish.fill_depth)).collect();
    let (need, shares) = with_waste(litres, finish.waste);
    let reckoned = format!(
        "{} % of one face of each panel ({}), {} deep on average, {} % for waste",
        finish.flaws,
        say_area(areas.iter().sum(), units),
        finish.fill_depth.say(units),
        finish.waste
    );
    let packages = &finish.filler;
    (need > 0.0).then_some(Supply { what: "filler".into(), need, measure: Measure::Volume, shares, reckoned, packages })
}

/// Whole sheets of each grit: one face of each panel, and with the last grit what is sealed again between two coats.
fn sandpaper<'a>(finish: &'a Finish, lots: &[Lot], units: Unit) -> Vec<Supply<'a>> {
    let packages = &finish.sandpaper;
    let sides = if finish.both_faces { 2 } else { 1 };
    let (shares, last) = (faces(lots), finish.grits.len().saturating_sub(1));
    let each = |(at, grit): (usize, &u32)| {
        let again = if at == last { sides * finish.coats.saturating_sub(1) } else { 0 };
        let area = shares.iter().sum::<f64>() * f64::from(1 + again);
        let (told, sheet) = (say_area(area, units), say_area(finish.sheet_sands, units));
        let between = if again > 0 { ", and what is sealed between two coats" } else { "" };
        let reckoned = format!("one face of each panel{between} ({told}), {sheet} a sheet");
        let need = (area / finish.sheet_sands * (1.0 - 1e-9)).ceil();
        let what = format!("sandpaper, grit {grit}");
        Supply { what, need, measure: Measure::Sheets, shares: shares.clone(), reckoned, packages }
    };
    finish.grits.iter().enumerate().filter(|_| !packages.is_empty()).map(each).collect()
}

fn sealer<'a>(finish: &'a Finish, lots: &[Lot], units: Unit) -> Option<Supply<'a>> {
    let sides = if finish.both_faces { 2.0 } else { 1.0 };
    let edges = if finish.edges { edges(lots) } else { vec![0.0; lots.len()] };
    let areas: Vec<f64> = faces(lots).iter().zip(&edges).map(|(face, edge)| face * sides + edge).collect();
    let coats = f64::from(finish.coats);
    let litres = areas.iter().map(|area| area * coats / finish.coverage.0).collect();
    let (need, shares) = with_waste(litres, finish.waste);
    let reckoned = format!(
        "{}{} ({}), {} at {} a coat, {} % for waste",
        if finish.both_faces { "both faces" } else { "one face" },
        if finish.edges { " and the edges" } else { "" },
        say_area(areas.iter().sum(), units),
        if finish.coats == 1 { "1 coat".into() } else { format!("{} coats", finish.coats) },
        finish.coverage.say(units),
        finish.waste
    );
    let packages = &finish.sealer;
    (need > 0.0).then_some(Supply { what: "sealer".into(), need, measure: Measure::Volume, shares, reckoned, packages })
}

fn glue_need<'a>(glue: &'a Glue, lots: &[Lot], units: Unit) -> Option<Supply<'a>> {
    let areas = canvassed(faces(lots), lots);
    let coated: Vec<f64> = areas.iter().map(|area| area * f64::from(glue.faces)).collect();
    let litres = coated.iter().map(|area| area / glue.coverage.0).collect();
    let (need, shares) = with_waste(litres, glue.waste);
    let reckoned = format!(
        "{} of joint, {} ({}) at {}, {} % for waste",
        say_area(areas.iter().sum(), units),
        if glue.faces == 1 { "one face coated" } else { "both faces coated" },
        say_area(coated.iter().sum(), units),
        glue.coverage.say(units),
        glue.waste
    );
    let packages = &glue.packages;
    (need > 0.0).then_some(Supply { what: "glue".into(), need, measure: Measure::Volume, shares, reckoned, packages })
}

fn paper<'a>(packages: &'a [Package], lots: &[Lot], units: Unit) -> Option<Supply<'a>> {
    let piece = |lot: &Lot| {
        let area = lot.canvas.map_or(0.0, |(width, height)| (width * height).to_square_metres());
        area * f64::from(lot.count)
    };
    let shares: Vec<f64> = lots.iter().map(piece).collect();
    let need: f64 = shares.iter().sum();
    let reckoned = format!("one sheet as large as its canvas under each glued face ({})", say_area(need, units));
    let supply = Supply { what: "waxed paper".into(), need, measure: Measure::Area, shares, reckoned, packages };
    (need > 0.0).then_some(supply)
}

fn canvassed(mut areas: Vec<f64>, lots: &[Lot]) -> Vec<f64> {
    for (area, lot) in areas.iter_mut().zip(lots) {
        if lot.canvas.is_none() {
            *area = 0.0;
        }
    }
    areas
}

/// Square feet or square metres as the shop says them.
pub fn say_area(square_metres: f64, units: Unit) -> String {
    match units {
        Unit::In => format!("{:.1} sq ft", square_metres / SQUARE_FOOT),
        Unit::Mm | Unit::Cm => format!("{square_metres:.2} m2"),
    }
}
