//! A cheaper plan by hand: some sheets or strips are torn up, and their panels and those still missing are cut anew,
//! sheet by sheet, from what money is left for (ruin and recreate, Schrimpf, Schneider, Stamm-Wilbrandt and Dueck 2000).
//! What is on the bench never costs more than an improvement may; it is a plan once no panel is missing. Worse benches
//! are taken for better ones now and then, ever less often until a cycle ends (simulated annealing). Needs no linear
//! program but its first prices, so a round takes some millionths of a second. Proves nothing.

mod bench;
mod cut;
mod fill;
mod tables;

pub(super) use self::bench::can_be_cut;

use self::bench::Bench;
use self::fill::{Fill, Filler};
use self::tables::Tables;
use super::draft::Draft;
use super::master::Made;
use super::need::Need;
use super::pattern::Pattern;
use crate::model::Problem;
use std::collections::{BTreeMap, BTreeSet};

/// Rounds of a cycle.
const CYCLE: u32 = 10_000;
/// By what part of a sheet's price a bench may be worse, at the beginning of a cycle and at its end.
const HEAT: [f64; 2] = [0.1, 0.003];
/// Rounds for each in which it is noted what the bench is made of, where missing panels are worth no more than this part
/// of a sheet.
const NOTED: (u32, f64) = (4, 0.5);
/// How much a missing panel counts beside money.
const MISSING: f64 = 2.0;
/// How often whole sheets are torn up; of these, how often more than one, and how often more than two.
const SHEETS: [f64; 3] = [0.5, 0.5, 0.3];
/// Most strips that are torn up elsewhere.
const STRIPS: usize = 5;
/// The same dice fall in every run.
const SEED: u64 = 2000;

/// What cuts a plan anew.
pub(super) struct Anew<'a> {
    problem: &'a Problem,
    need: &'a Need,
    tables: Tables<'a>,
    /// What a panel of each size is worth, in units; and in this round.
    worth: Vec<f64>,
    now: Vec<f64>,
    /// Strips on hand stay as they are in the plan that it began with.
    on_hand: BTreeMap<(usize, Pattern), u32>,
    bench: Bench,
    /// Most that an improvement costs, in units.
    target: i64,
    /// Rounds left of the cycle.
    left: u32,
    /// What benches were made of, in this cycle.
    noted: BTreeSet<Made>,
    /// For each way to rip and width what is best cut from a strip, where that is known in this round.
    fills: Vec<Vec<Option<Fill>>>,
    filler: Filler,
    /// Strips looked at and rounds so far.
    looks: u64,
    dice: fastrand::Rng,
}

impl<'a> Anew<'a> {
    /// Begins with a plan, to find one that costs no more than `target`; none where the plan cannot be cut anew.
    /// A panel of each size is worth so much, in units.
    pub(super) fn new(
        problem: &'a Problem,
        need: &'a Need,
        worth: Vec<f64>,
        plan: &Draft,
        target: i64,
    ) -> Option<Anew<'a>> {
        let tables = Tables::new(problem, &worth);
        Some(Anew {
            problem,
            need,
            bench: tables.bench(plan, need)?,
            fills: tables.ways.iter().map(|way| vec![None; way.widths.len()]).collect(),
            tables,
            now: worth.clone(),
            worth,
            on_hand: plan.on_hand.clone(),
            target,
            left: 0,
            noted: BTreeSet::new(),
            filler: Filler::default(),
            looks: 0,
            dice: fastrand::Rng::with_seed(SEED),
        })
    }

    /// Goes on from another plan, as in `new`.
    pub(super) fn go_on_from(&mut self, plan: &Draft, target: i64) {
        if let Some(bench) = self.tables.bench(plan, self.need) {
            self.on_hand.clone_from(&plan.on_hand);
            self.bench = bench;
        }
        self.target = target;
    }

    /// A measure of the work done so far: about so many fiftieths of a microsecond.
    pub(super) fn work(&self) -> u64 {
        self.filler.turns + self.looks
    }

    /// Tears up something and cuts it anew; a plan within the target where one comes out.
    pub(super) fn round(&mut self) -> Option<Draft> {
        self.looks += 1;
        self.left = self.left.checked_sub(1).unwrap_or(CYCLE - 1);
        let mut bench = self.bench.clone();
        self.tear_up(&mut bench);
        self.cut(&mut bench);
        let done = bench.missing.iter().all(|missing| *missing == 0);
        if done || self.is_taken(&bench) {
            self.bench = bench;
            self.note();
        }
        if !done {
            return None;
        }
        let plan = self.draft();
        (plan.serves(self.problem, self.need) && plan.cost(self.problem) <= self.target).then_some(plan)
    }

    /// At the end of a cycle: what is on the bench, and layouts and patterns that benches of the cycle were made of.
    pub(super) fn cycle(&mut self) -> Option<(Draft, Vec<Made>)> {
        (self.left == 0).then(|| (self.draft(), std::mem::take(&mut self.noted).into_iter().collect()))
    }

    /// What is on the bench, strips on hand included.
    fn draft(&self) -> Draft {
        Draft { on_hand: self.on_hand.clone(), ..self.tables.plan(&self.bench) }
    }

    fn note(&mut self) {
        if self.left.is_multiple_of(NOTED.0) && self.missing(&self.bench) <= NOTED.1 * self.price() {
            self.noted.extend(self.tables.plan(&self.bench).made_of());
        }
    }

    #[allow(clippy::cast_precision_loss)] // only weighs one bench against another
    fn is_taken(&mut self, bench: &Bench) -> bool {
        let heat = self.price() * HEAT[1] * (HEAT[0] / HEAT[1]).powf(f64::from(self.left) / f64::from(CYCLE));
        let worse = self.weight(bench) - self.weight(&self.bench);
        self.tables.money(&self.bench) > self.target || worse < -heat * self.dice.f64().max(1e-12).ln()
    }

    #[allow(clippy::cast_precision_loss)] // as above
    fn weight(&self, bench: &Bench) -> f64 {
        self.tables.money(bench) as f64 + MISSING * self.missing(bench)
    }

    /// What missing panels are worth.
    fn missing(&self, bench: &Bench) -> f64 {
        bench.missing.iter().zip(&self.worth).map(|(missing, worth)| f64::from(*missing) * worth).sum()
    }

    /// What a sheet costs, on average.
    #[allow(clippy::cast_precision_loss)] // as above
    fn price(&self) -> f64 {
        let sheets = &self.problem.charges.sheets;
        sheets.iter().sum::<i64>() as f64 / sheets.len() as f64
    }

    /// Tears up some sheets or strips, and more where the rest costs too much.
    fn tear_up(&mut self, bench: &mut Bench) {
        if self.dice.f64() < SHEETS[0] {
            let more = SHEETS[1..].iter().take_while(|part| self.dice.f64() < **part).count();
            (0..=more).for_each(|_| self.tear_up_sheet(bench));
        } else {
            for _ in 0..self.dice.usize(1..=STRIPS) {
                if !bench.sheets.is_empty() {
                    let sheet = self.dice.usize(0..bench.sheets.len());
                    let strip = self.dice.usize(0..bench.sheets[sheet].strips.len());
                    bench.take_strip(&self.tables, sheet, strip);
                }
            }
        }
        while self.tables.money(bench) > self.target && !bench.sheets.is_empty() {
            self.tear_up_sheet(bench);
        }
    }

    /// Of two sheets by chance, tears up that of which more is wasted.
    fn tear_up_sheet(&mut self, bench: &mut Bench) {
        if !bench.sheets.is_empty() {
            let [one, other] = [0, 1].map(|_| self.dice.usize(0..bench.sheets.len()));
            let [waste, others] = [one, other].map(|sheet| self.tables.waste(&bench.sheets[sheet]));
            bench.take_sheet(&self.tables, if others > waste { other } else { one });
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::data::{File, Source, read};
    use crate::solve::layout::{Board, Layout, blank};

    /// Twelve panels from sheets that hold more than as many; cuts are free.
    const BATCH: &str = "[[sheet]]\nname = \"whole\"\nlength = 96\nwidth = 48\nprice = 30.00\n\
         [[panel]]\nsize = \"11 x 12\"\ncount = 12\n";

    fn batch(text: &str) -> (Problem, Need) {
        let job =
            read(&Source { job: File::of("batch", text.to_string()), list: None, rack: None }).expect("it is sound");
        let problem = crate::model::build(&job).expect("they can be made");
        let need = Need::of(&problem);
        (problem, need)
    }

    /// One panel from each sheet.
    fn wasteful(problem: &Problem) -> Draft {
        let (index, ripping) =
            problem.rippings.iter().enumerate().find(|(_, ripping)| ripping.whole).expect("there are whole sheets");
        let widths = &problem.families[ripping.family].widths;
        let width = widths.iter().position(|width| !width.laid.is_empty()).expect("something can be cut");
        let mut plan = Draft::default();
        let board = Board { length: ripping.board.raw(), strips: vec![(width, 1)] };
        plan.add(Made::Layout(Layout { ripping: index, boards: vec![board] }), problem.sizes[0].count);
        let blank = blank(ripping, ripping.board.raw(), width);
        plan.add(Made::Pattern(Pattern { blank, pieces: vec![(0, 1)] }), problem.sizes[0].count);
        plan
    }

    #[test]
    fn panels_of_many_half_empty_sheets_go_into_one() {
        let (problem, need) = batch(BATCH);
        let plan = wasteful(&problem);
        let sheet = problem.charges.sheets[0];
        assert!(plan.serves(&problem, &need));
        assert!(plan.cost(&problem) >= 12 * sheet);
        let target = problem.charges.sheets[0];
        let mut anew = Anew::new(&problem, &need, vec![1.0], &plan, target).expect("nothing is broken down");
        let found = (0..1_000).find_map(|_| anew.round()).expect("one sheet is enough for twelve");
        assert!(found.serves(&problem, &need));
        assert_eq!(found.cost(&problem), sheet);
    }

    #[test]
    fn a_plan_that_breaks_sheets_down_is_not_cut_anew() {
        let (problem, need) = batch(BATCH);
        let plan = wasteful(&problem);
        assert!(can_be_cut(&problem, &plan));
        let mut broken = plan.clone();
        let mut layout = plan.layouts.keys().next().expect("a layout").clone();
        layout.boards.push(layout.boards[0].clone());
        broken.add(Made::Layout(layout), 1);
        assert!(!can_be_cut(&problem, &broken));
        assert!(Anew::new(&problem, &need, vec![1.0], &broken, 0).is_none());
    }

    #[test]
    fn a_cycle_ends_with_what_is_on_the_bench_and_what_benches_were_made_of() {
        let (problem, need) = batch(BATCH);
        let plan = wasteful(&problem);
        let target = problem.charges.sheets[0];
        let mut anew = Anew::new(&problem, &need, vec![1.0], &plan, target).expect("nothing is broken down");
        let ends: Vec<(Draft, Vec<Made>)> = (0..=2 * CYCLE)
            .filter_map(|_| {
                anew.round();
                anew.cycle().inspect(|_| assert!(anew.noted.is_empty(), "the next cycle notes its own"))
            })
            .collect();
        assert_eq!(ends.len(), 2);
        for (bench, noted) in &ends {
            assert_eq!(bench.layouts.values().sum::<u32>(), 1, "there is money for one sheet");
            assert!(noted.iter().any(|made| matches!(made, Made::Layout(_))), "{noted:?}");
            assert!(noted.iter().any(|made| matches!(made, Made::Pattern(_))), "{noted:?}");
        }
    }

    #[test]
    fn a_strip_that_no_panel_is_missing_for_is_spare_and_left_out() {
        let (problem, need) = batch(BATCH);
        let plan = wasteful(&problem);
        let few = Need { count: vec![5], ..need };
        let anew = Anew::new(&problem, &few, vec![1.0], &plan, plan.cost(&problem)).expect("nothing is broken down");
        assert!(anew.bench.missing.iter().all(|missing| *missing == 0));
        let again = anew.tables.plan(&anew.bench);
        assert_eq!(again.spare_strips(&problem).values().sum::<i64>(), 7, "twelve strips, and five are needed");
        assert!(again.patterns.keys().all(|pattern| !pattern.pieces.is_empty()));
        assert_eq!(again.without_spare_strips(&problem).cost(&problem), 5 * problem.charges.sheets[0]);
    }

    #[test]
    fn nothing_is_found_below_what_any_plan_costs_and_work_still_goes_on() {
        let (problem, need) = batch(BATCH);
        let plan = wasteful(&problem);
        for target in [0, problem.charges.sheets[0] - 1] {
            let mut anew = Anew::new(&problem, &need, vec![1.0], &plan, target).expect("nothing is broken down");
            for _ in 0..100 {
                let before = anew.work();
                assert!(anew.round().is_none(), "no sheet is so cheap");
                assert!(anew.work() > before);
                assert!(anew.tables.money(&anew.bench) <= target, "what is on the bench can be paid");
            }
        }
    }
}
