//! The shopping list: every line that the job takes and no other, enough of it in packages as sold, each at its price,
//! none of it too many; the total is the sum of the lines, and each panel's share is its own.

use super::super::Rule;
use super::super::findings::Findings;
use super::made::Made;
use super::needs::{Supply, supplies};
use crate::data::Job;
use crate::data::week::Package;
use crate::plan::Plan;
use crate::plan::week::{Bought, CanvasPlan, Need, ShoppingLine};

const PLACE: &str = "shopping list";

/// Checks the list, if there is one.
pub(super) fn check(job: &Job, plan: &Plan, made: &[Made], found: &mut Findings) {
    let Some(list) = &plan.week.shopping else { return };
    let supplies = supplies(job, made);
    let mut lines = list.lines.iter();
    let mut shares = Shares { cents: vec![0.0; made.len()] };
    let faces: Vec<f64> = made.iter().map(Made::faces).collect();
    let many = sheets(job, plan, &list.lines, found);
    for line in lines.by_ref().take(many) {
        shares.add(line, &faces);
    }
    if let Some(cut) = &plan.week.canvas {
        let line = lines.next();
        let right = line.is_some_and(|line| of_canvas(cut, line));
        found.hold(Rule::Need, right, PLACE, || "its canvas is not that of the canvas plan".into());
        let cloth: Vec<f64> = made.iter().map(Made::canvas_area).collect();
        if let Some(line) = line {
            shares.add(line, &cloth);
        }
    }
    for supply in &supplies {
        let Some(line) = lines.next() else { break };
        bought(supply, line, found);
        shares.add(line, &supply.each);
    }
    let wanted = many + usize::from(plan.week.canvas.is_some()) + supplies.len();
    found.equal(Rule::Need, PLACE, "the number of lines", list.lines.len(), wanted);
    let total: i128 = list.lines.iter().map(|line| i128::from(line.cost.0)).sum();
    found.equal(Rule::Price, PLACE, "the total in cents", i128::from(list.total.0), total);
    shares.check(plan, made, found);
}

/// Whether a line is what the canvas plan needs, buys and costs.
fn of_canvas(cut: &CanvasPlan, line: &ShoppingLine) -> bool {
    let bought: i64 = line.buy.iter().map(|bought| bought.each.0 * i64::from(bought.count)).sum();
    let pieces: usize = line.buy.iter().map(|bought| bought.count as usize).sum();
    let same = line.need == Need::Length(cut.needs) && line.cost == cut.cost && line.priced;
    same && bought == cut.cost.0 && pieces == cut.lengths.len()
}

/// The lines for sheets and paid cuts, which together are the plan's cost; how many they are.
fn sheets(job: &Job, plan: &Plan, lines: &[ShoppingLine], found: &mut Findings) -> usize {
    let kinds = job.sheets.iter().enumerate().filter_map(|(at, kind)| {
        let count: u32 = plan.sheets.iter().filter(|group| group.sheet == at).map(|group| group.count).sum();
        (count > 0).then_some((kind, count))
    });
    let kinds: Vec<_> = kinds.collect();
    let many = kinds.len() + usize::from(plan.cost.cuts.0 > 0);
    let mine = &lines[..many.min(lines.len())];
    for (kind, count) in kinds {
        let cost = kind.price * i64::from(count);
        let listed = mine.iter().any(|line| {
            let [bought] = &line.buy[..] else { return false };
            line.what == kind.name
                && line.need == Need::Count(count)
                && line.priced
                && (bought.count, bought.each, line.cost) == (count, kind.price, cost)
        });
        found.hold(Rule::Need, listed, PLACE, || format!("it lacks {count} of {}", kind.name));
    }
    let paid: i128 = mine.iter().map(|line| i128::from(line.cost.0)).sum();
    found.equal(Rule::Price, PLACE, "cents for sheets and cuts", paid, i128::from(plan.cost.total.0));
    let cuts =
        mine.iter().all(|line| !line.buy.is_empty() || line.priced && line.need == Need::Count(plan.cost.yard_cuts));
    found.hold(Rule::Need, cuts, PLACE, || "the yard's cuts are miscounted".into());
    many
}

/// A supply: as much as is needed, bought in packages as sold, none to spare and no single size cheaper.
#[allow(clippy::cast_possible_truncation, clippy::cast_precision_loss)] // quantities are far below 2^52 small units
fn bought(supply: &Supply, line: &ShoppingLine, found: &mut Findings) {
    let place = format!("{PLACE}, {}", supply.what);
    found.hold(Rule::Need, line.what == supply.what, &place, || format!("{} stands in its place", line.what));
    let is = supply.each.iter().sum::<f64>();
    let Need::Amount(says, measure) = line.need else {
        return found.hold(Rule::Need, false, &place, || "it is not an amount".into());
    };
    let same = measure == supply.measure && (says.to_metric(measure) - is).abs() <= 1e-9 * is.max(1.0) + 1e-7;
    found.hold(Rule::Need, same, &place, || format!("{is} is needed, not {}", says.to_metric(measure)));
    let sold: Option<Vec<(&Package, i64)>> = line.buy.iter().map(|bought| as_sold(supply, bought)).collect();
    let Some(sold) = sold else {
        return found.hold(Rule::Need, false, &place, || "it is not sold so".into());
    };
    let holds: i64 = sold.iter().map(|(package, count)| package.holds.0 * count).sum();
    let spare = sold.iter().any(|(package, count)| *count > 0 && holds - package.holds.0 >= says.0);
    let enough = supply.packages.is_empty() || holds >= says.0;
    found.hold(Rule::Need, enough && !spare, &place, || "too little or too much of it is bought".into());
    let cost: i64 = sold.iter().map(|(package, count)| package.price.0 * count).sum();
    found.equal(Rule::Price, &place, "cents", line.cost.0, cost);
    let cheaper = supply
        .packages
        .iter()
        .any(|package| package.price.0 * (says.0 - 1).div_euclid(package.holds.0) + package.price.0 < cost);
    found.hold(Rule::Need, !cheaper, &place, || "packages of one size alone cost less".into());
    found.equal(Rule::Need, &place, "whether it is priced", line.priced, !supply.packages.is_empty());
}

fn as_sold<'a>(supply: &Supply<'a>, bought: &Bought) -> Option<(&'a Package, i64)> {
    let package = supply.packages.iter().find(|kind| kind.name == bought.name && kind.price == bought.each)?;
    Some((package, i64::from(bought.count)))
}

/// Cents that fall to each line of panels.
struct Shares {
    cents: Vec<f64>,
}

impl Shares {
    /// Shares a cost out by what each line of panels uses.
    #[allow(clippy::cast_precision_loss)] // cents for print
    fn add(&mut self, line: &ShoppingLine, uses: &[f64]) {
        let whole: f64 = uses.iter().sum();
        for (cents, uses) in self.cents.iter_mut().zip(uses).filter(|_| whole > 0.0) {
            *cents += line.cost.0 as f64 * uses / whole;
        }
    }

    /// What one panel of each line costs, to the cent.
    #[allow(clippy::cast_precision_loss)] // cents for print
    fn check(&self, plan: &Plan, made: &[Made], found: &mut Findings) {
        let list = plan.week.shopping.iter().flat_map(|list| &list.each);
        let told: Vec<_> = list.map(|cost| (cost.panel, cost.each.0)).collect();
        let lines: Vec<usize> = (0..made.len()).filter(|at| made[*at].count > 0).collect();
        let all = told.iter().map(|cost| cost.0).eq(lines.iter().copied());
        found.hold(Rule::Need, all, PLACE, || "it does not say what each panel costs".into());
        for (panel, cents) in told {
            let is = self.cents[panel] / f64::from(made[panel].count.max(1));
            let name = &made[panel].name;
            let same = (cents as f64 - is).abs() <= 0.5 + 1e-6 * is.max(1.0);
            found.hold(Rule::Price, same, PLACE, || format!("one of {name} costs {is} cents, not {cents}"));
        }
    }
}
