//! The first aim: least money. Linear program, bound, a plan by diving, and a search for what is left between them.

use super::bound::{Judged, settle};
use super::dive::dive;
use super::draft::Draft;
use super::generate::generate;
use super::master::Made;
use super::need::Need;
use super::pool::pool;
use super::prices::Prices;
use super::program::Program;
use super::search::{Search, Verdict};
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
    fn take(&mut self, problem: &Problem, draft: Draft) {
        self.cost = draft.cost(problem);
        self.draft = draft;
    }

    /// Nothing cheaper exists.
    pub(super) fn proved(&self) -> bool {
        self.bound >= self.cost
    }
}

/// Most layouts and patterns that are searched at once.
const POOL: usize = 40_000;
/// Most nodes of one search.
const NODES: usize = 200_000;
/// Most nodes of a search among what was found on the way, which proves nothing.
const GLANCE: usize = 300;

/// The cheapest plan; none where there are too few sheets.
pub(super) fn least(problem: &Problem, watch: &dyn Watch) -> Option<Money> {
    let need = Need::of(problem);
    let relaxed = generate(problem, &need, &[], watch);
    let (prices, judged) = settle(problem, &need, relaxed.prices.clone());
    let step = problem.charges.step();
    let bound = round_up(judged.bound, step);
    let draft = dive(problem, &need, &relaxed, watch)?;
    let cost = draft.cost(problem);
    let mut tail = Tail { problem, need: &need, prices: &prices, judged: &judged, watch };
    let mut money = Money { draft, cost, bound };
    tail.glance(&mut money, relaxed.found, step);
    tail.close(&mut money, step);
    Some(money)
}

/// The work between a bound and a plan that do not meet.
struct Tail<'a> {
    problem: &'a Problem,
    need: &'a Need,
    prices: &'a Prices,
    judged: &'a Judged,
    watch: &'a dyn Watch,
}

impl Tail<'_> {
    fn report(&self, money: &Money, doing: &'static str) {
        let cents = |units: i64| Some(Cents(units / self.problem.charges.cent));
        self.watch.report(Progress { doing, best: cents(money.cost), bound: cents(money.bound) });
    }

    fn search(&self, pool: &[Made], target: i64, nodes: usize) -> Verdict {
        let program = Program::new(self.problem, self.need, pool, target);
        Search::new(self.problem, self.need, program, target, nodes, self.watch).run()
    }

    /// Looks for cheaper plans among what was found on the way.
    fn glance(&mut self, money: &mut Money, mut found: Vec<Made>, step: i64) {
        found.retain(|made| self.serves_now(made));
        while !money.proved() {
            self.report(money, "looking for a cheaper plan");
            let Verdict::Found(draft) = self.search(&found, money.cost - step, GLANCE) else { return };
            money.take(self.problem, *draft);
        }
    }

    fn serves_now(&self, made: &Made) -> bool {
        match made {
            Made::Layout(layout) => self.need.stock[self.problem.rippings[layout.ripping].sheet] != Some(0),
            Made::Pattern(_) | Made::OnHand(..) => true,
        }
    }

    /// Closes the gap from below: is there a plan at the bound, then at the next cost, and so on.
    fn close(&mut self, money: &mut Money, step: i64) {
        while !money.proved() && !self.watch.stop() {
            self.report(money, "proving that nothing cheaper exists");
            let Some(pool) = pool(self.problem, self.need, (self.prices, self.judged), money.bound, POOL) else {
                return;
            };
            match self.search(&pool, money.bound, NODES) {
                Verdict::Found(draft) => money.take(self.problem, *draft),
                Verdict::Nothing => money.bound += step,
                Verdict::Unsure => return,
            }
        }
    }
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
