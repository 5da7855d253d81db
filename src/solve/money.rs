//! The first aim: least money. Linear program, bound, a plan by diving, and a search for what is left between them.

use super::dive::dive;
use super::draft::Draft;
use super::generate::generate;
use super::need::Need;
use super::watch::{Progress, Watch};
use crate::data::{Cents, Fault, Job, Place};
use crate::model::{self, Problem};

/// The cheapest plan found, and what is known about it.
pub(super) struct Money {
    /// The plan.
    pub draft: Draft,
    /// What it costs, in units.
    pub cost: i64,
    /// No plan costs less, in units.
    pub bound: i64,
}

impl Money {
    /// Nothing cheaper exists.
    pub(super) fn proved(&self) -> bool {
        self.bound >= self.cost
    }
}

/// The cheapest plan; none where there are too few sheets.
pub(super) fn least(problem: &Problem, watch: &dyn Watch) -> Option<Money> {
    let need = Need::of(problem);
    let relaxed = generate(problem, &need, &[], watch);
    let bound = round_up(relaxed.bound, problem.charges.step());
    let report = |best: Option<i64>, doing| {
        let cents = |units: i64| Cents(units / problem.charges.cent);
        watch.report(Progress { doing, best: best.map(cents), bound: Some(cents(bound)) });
    };
    report(None, "pricing layouts");
    let draft = dive(problem, &need, &relaxed, watch)?;
    debug_assert!(draft.serves(problem, &need));
    let cost = draft.cost(problem);
    report(Some(cost), "looking for a cheaper plan");
    Some(Money { draft, cost, bound })
}

/// The smallest multiple of `step` that is not below `units`.
fn round_up(units: i64, step: i64) -> i64 {
    -(-units).div_euclid(step) * step
}

/// How many sheets are missing: the least number beyond the stock that would do.
pub(super) fn too_few(job: &Job, watch: &dyn Watch) -> Fault {
    let mut more = job.clone();
    more.yard.cut_price = Cents::ZERO;
    let stocked = more.sheets.len();
    for at in 0..stocked {
        let mut beyond = more.sheets[at].clone();
        more.sheets[at].price = Cents(1);
        beyond.price = Cents(1_000_000);
        beyond.stock = None;
        more.sheets.push(beyond);
    }
    for panel in &mut more.panels {
        let twins: Vec<usize> = panel.sheets.iter().map(|sheet| sheet + stocked).collect();
        panel.sheets.extend(twins);
    }
    let solved = model::build(&more).ok().and_then(|problem| {
        let money = least(&problem, watch)?;
        let beyond = |layout: &super::layout::Layout| problem.rippings[layout.ripping].sheet >= stocked;
        Some(money.draft.layouts.iter().filter(|(layout, _)| beyond(layout)).map(|(_, copies)| copies).sum::<u32>())
    });
    let missing = solved.unwrap_or(0);
    let sheets = if missing == 1 { "sheet is" } else { "sheets are" };
    Fault {
        place: Place { key: "sheet.stock".into(), ..Place::default() },
        excerpt: String::new(),
        cause: format!("{missing} more {sheets} needed than can be had"),
        remedy: "raise `stock`, add a sheet kind, or ask for fewer panels".into(),
    }
}
