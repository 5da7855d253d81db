//! One shopping list for the whole run: sheets and cuts, canvas, filler, sealer, glue, paper; each need rounded up to
//! what is sold, one total, and what a panel of each size costs.

use super::canvas::CanvasPlan;
use super::lots::Lot;
use super::needs::{Supply, faces, needs};
use super::purchase::cheapest;
use crate::data::week::{Amount, Canvas, Measure, Package};
use crate::data::{Cents, Job};
use crate::length::{Length, Unit};
use crate::plan::Plan;

/// Everything that is bought.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Shopping {
    /// In the order of the work.
    pub lines: Vec<ShoppingLine>,
    /// Sum of the lines.
    pub total: Cents,
    /// What one panel of each line costs.
    pub each: Vec<PanelCost>,
}

/// One thing to buy.
#[derive(Clone, Debug, PartialEq)]
pub struct ShoppingLine {
    /// What it is.
    pub what: String,
    /// How much of it the work takes.
    pub need: Need,
    /// How that was reckoned.
    pub reckoned: String,
    /// What to buy.
    pub buy: Vec<Bought>,
    /// What that costs.
    pub cost: Cents,
    /// False where the job names no packages, so that nothing is priced.
    pub priced: bool,
}

/// How much is needed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Need {
    /// So many.
    Count(u32),
    /// A length off a roll.
    Length(Length),
    /// A volume or an area.
    Amount(Amount, Measure),
}

/// Packages of one size.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Bought {
    /// How many.
    pub count: u32,
    /// The package.
    pub name: String,
    /// Price of one.
    pub each: Cents,
}

/// What one panel of a line costs: its share, by area, of everything it uses.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PanelCost {
    /// Index into `Plan::panels`.
    pub panel: usize,
    /// To the nearest cent.
    pub each: Cents,
}

/// A line of the list with each lot's share of it, in any unit.
struct Shared {
    line: ShoppingLine,
    shares: Vec<f64>,
}

/// Puts the list together.
pub fn shopping(job: &Job, plan: &Plan, lots: &[Lot], canvas: Option<&CanvasPlan>) -> Shopping {
    let mut all = sheets(job, plan, lots);
    if let Some((canvas, cut)) = job.week.canvas.as_ref().zip(canvas) {
        all.push(roll(canvas, cut, lots, job.units));
    }
    all.extend(needs(job, lots).into_iter().map(supply));
    let each = lots.iter().enumerate().map(|(index, lot)| panel_cost(&all, index, lot)).collect();
    let lines: Vec<ShoppingLine> = all.into_iter().map(|shared| shared.line).collect();
    Shopping { total: lines.iter().map(|line| line.cost).sum(), lines, each }
}

fn panel_cost(all: &[Shared], index: usize, lot: &Lot) -> PanelCost {
    #[allow(clippy::cast_precision_loss)] // cents for print
    let share = |shared: &Shared| {
        let whole: f64 = shared.shares.iter().sum();
        if whole > 0.0 { shared.line.cost.0 as f64 * shared.shares[index] / whole } else { 0.0 }
    };
    let cents: f64 = all.iter().map(share).sum::<f64>() / f64::from(lot.count);
    #[allow(clippy::cast_possible_truncation)] // a share of a total that fits
    PanelCost { panel: lot.panel, each: Cents(cents.round() as i64) }
}

fn sheets(job: &Job, plan: &Plan, lots: &[Lot]) -> Vec<Shared> {
    let mut lines = Vec::new();
    for (kind, count) in sheet_kinds(job, plan) {
        let sheet = &job.sheets[kind];
        lines.push(ShoppingLine {
            what: sheet.name.clone(),
            need: Need::Count(count),
            reckoned: "as planned, kerfs and waste included".into(),
            buy: vec![Bought { count, name: "sheet".into(), each: sheet.price }],
            cost: sheet.price * i64::from(count),
            priced: true,
        });
    }
    if plan.cost.cuts > Cents::ZERO {
        lines.push(ShoppingLine {
            what: "cuts at the yard".into(),
            need: Need::Count(plan.cost.yard_cuts),
            reckoned: format!("{} of {} cuts are paid for", plan.cost.paid_cuts, plan.cost.yard_cuts),
            buy: Vec::new(),
            cost: plan.cost.cuts,
            priced: true,
        });
    }
    lines.into_iter().map(|line| Shared { line, shares: faces(lots) }).collect()
}

/// Kinds of sheet bought, with count and price each, in the order they first appear.
fn sheet_kinds(job: &Job, plan: &Plan) -> Vec<(usize, u32)> {
    let mut kinds: Vec<(usize, u32)> = Vec::new();
    for group in &plan.sheets {
        match kinds.iter_mut().find(|kind| kind.0 == group.sheet) {
            Some(kind) => kind.1 += group.count,
            None => kinds.push((group.sheet, group.count)),
        }
    }
    kinds.retain(|kind| kind.0 < job.sheets.len());
    kinds
}

fn roll(canvas: &Canvas, cut: &CanvasPlan, lots: &[Lot], units: Unit) -> Shared {
    let mut buy: Vec<Bought> = Vec::new();
    for length in &cut.lengths {
        let name = format!("{}, {} wide", canvas.sold.say(*length), canvas.roll.say(units));
        match buy.iter_mut().find(|bought| bought.name == name) {
            Some(bought) => bought.count += 1,
            None => buy.push(Bought { count: 1, name, each: super::canvas::price(canvas, *length) }),
        }
    }
    let piece = |lot: &Lot| {
        let area = lot.canvas.map_or(0.0, |(width, height)| (width * height).to_square_metres());
        area * f64::from(lot.count)
    };
    let line = ShoppingLine {
        what: canvas.name.clone(),
        need: Need::Length(cut.needs),
        reckoned: format!("cut as drawn, sold by multiples of {}", canvas.sold.step.say(units)),
        buy,
        cost: cut.cost,
        priced: true,
    };
    Shared { line, shares: lots.iter().map(piece).collect() }
}

fn supply(supply: Supply) -> Shared {
    let need = Amount::from_metric(supply.need, supply.measure);
    let chosen = cheapest(need, supply.packages);
    let buy: Vec<Bought> = chosen.iter().map(|(at, count)| bought(&supply.packages[*at], *count)).collect();
    let line = ShoppingLine {
        what: supply.what,
        need: Need::Amount(need, supply.measure),
        reckoned: supply.reckoned,
        cost: buy.iter().map(|bought| bought.each * i64::from(bought.count)).sum(),
        buy,
        priced: !supply.packages.is_empty(),
    };
    Shared { line, shares: supply.shares }
}

fn bought(package: &Package, count: u32) -> Bought {
    Bought { count, name: package.name.clone(), each: package.price }
}
