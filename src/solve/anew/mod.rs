//! A cheaper plan by hand: some sheets or strips are torn up, and their panels and those still missing are cut anew,
//! sheet by sheet, from what money is left for (ruin and recreate, Schrimpf, Schneider, Stamm-Wilbrandt and Dueck 2000).
//! What is on the bench never costs more than an improvement may; it is a plan once no panel is missing. Worse benches
//! are taken for better ones now and then, ever less often until a cycle ends (simulated annealing). Needs no linear
//! program but its first prices, so a round takes some millionths of a second. Proves nothing.

mod bench;
mod cut;
mod fill;
mod tables;
mod tear;

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

/// About how long a look takes, in nanoseconds.
const LOOK: u64 = 20;
/// Rounds of a cycle.
const CYCLE: u32 = 3_000;
/// By what part of a sheet's price a bench may be worse, at the beginning of a cycle and at its end.
const HEAT: [f64; 2] = [0.1, 0.003];
/// Rounds for each in which it is noted what the bench is made of, where missing panels are worth no more than this part
/// of a sheet.
const NOTED: (u32, f64) = (4, 0.5);
/// How much a missing panel counts beside money.
const MISSING: f64 = 2.0;
/// How often any way to rip begins a new sheet at least, in cycles that go by the linear program; the other cycles go by
/// chance.
const ANY_WAY: f64 = 0.02;
/// The same dice fall in every run.
const SEED: u64 = 2000;

/// What a linear program tells about what to cut.
pub(super) struct Hints {
    /// What a panel of each size is worth, in units.
    pub worth: Vec<f64>,
    /// How many sheets are ripped each way, by ripping.
    pub sheets: Vec<f64>,
}

/// What cuts a plan anew.
pub(super) struct Anew<'a> {
    problem: &'a Problem,
    need: &'a Need,
    tables: Tables<'a>,
    hints: Hints,
    /// What a panel of each size is worth in this round.
    now: Vec<f64>,
    /// How often each way to rip begins a new sheet, in this cycle.
    favour: Vec<f64>,
    by_chance: bool,
    /// Strips on hand stay as they are in the plan that it began with.
    on_hand: BTreeMap<(usize, Pattern), u32>,
    bench: Bench,
    /// Most that an improvement costs, in units.
    target: i64,
    /// Rounds left of the cycle.
    left: u32,
    /// What benches were made of, in this cycle.
    noted: BTreeSet<Made>,
    /// For each way to rip and width what is best cut from a strip in this round.
    fills: Vec<Vec<Fill>>,
    filler: Filler,
    /// Strips looked at and rounds so far.
    looks: u64,
    dice: fastrand::Rng,
}

impl<'a> Anew<'a> {
    /// Begins with a plan, to find one that costs no more than `target`; none where the plan cannot be cut anew.
    pub(super) fn new(
        problem: &'a Problem,
        need: &'a Need,
        hints: Hints,
        plan: &Draft,
        target: i64,
    ) -> Option<Anew<'a>> {
        let tables = Tables::new(problem, &hints.worth);
        Some(Anew {
            problem,
            need,
            bench: tables.bench(plan, need)?,
            fills: tables.ways.iter().map(|way| vec![Fill::default(); way.widths.len()]).collect(),
            favour: Vec::new(),
            by_chance: false,
            tables,
            now: hints.worth.clone(),
            hints,
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

    /// The work done so far: about so many nanoseconds, but the same wherever the same is done.
    pub(super) fn work(&self) -> u64 {
        LOOK * (self.filler.turns + self.looks)
    }

    /// Tears up something and cuts it anew; a plan within the target where one comes out.
    pub(super) fn round(&mut self) -> Option<Draft> {
        self.looks += 1;
        if self.left == 0 {
            self.left = CYCLE;
            self.begin_cycle();
        }
        self.left -= 1;
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

    /// One cycle goes by the linear program where it chooses how to rip a new sheet, the next by chance: that program is
    /// often right, and where it is not, nothing else would lead elsewhere.
    fn begin_cycle(&mut self) {
        let all: f64 = self.hints.sheets.iter().sum();
        let favour = self.tables.ways.iter().map(|way| {
            if self.by_chance {
                -self.dice.f64().max(1e-12).ln()
            } else {
                self.hints.sheets[way.index] / all.max(1.0) + ANY_WAY
            }
        });
        self.favour = favour.collect();
        self.by_chance = !self.by_chance;
    }

    /// At the end of a cycle: what is on the bench, and layouts and patterns that benches of the cycle were made of.
    pub(super) fn cycle(&mut self) -> Option<(Draft, Vec<Made>)> {
        if self.left > 0 {
            return None;
        }
        self.bench.sheets.iter().for_each(|sheet| sheet.noted.set(false));
        Some((self.draft(), std::mem::take(&mut self.noted).into_iter().collect()))
    }

    /// What is on the bench, strips on hand included.
    fn draft(&self) -> Draft {
        Draft { on_hand: self.on_hand.clone(), ..self.tables.plan(&self.bench) }
    }

    fn note(&mut self) {
        if self.left.is_multiple_of(NOTED.0) && self.missing(&self.bench) <= NOTED.1 * self.price() {
            for sheet in self.bench.sheets.iter().filter(|sheet| !sheet.noted.replace(true)) {
                self.noted.extend(self.tables.made_of(sheet));
            }
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
        bench.missing.iter().zip(&self.hints.worth).map(|(missing, worth)| f64::from(*missing) * worth).sum()
    }

    /// What a sheet costs, on average.
    #[allow(clippy::cast_precision_loss)] // as above
    fn price(&self) -> f64 {
        let sheets = &self.problem.charges.sheets;
        sheets.iter().sum::<i64>() as f64 / sheets.len() as f64
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

    fn hints(problem: &Problem) -> Hints {
        Hints { worth: vec![1.0], sheets: vec![1.0; problem.rippings.len()] }
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
        let mut anew = Anew::new(&problem, &need, hints(&problem), &plan, target).expect("nothing is broken down");
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
        assert!(Anew::new(&problem, &need, hints(&problem), &broken, 0).is_none());
    }

    #[test]
    fn a_cycle_ends_with_what_is_on_the_bench_and_what_benches_were_made_of() {
        let (problem, need) = batch(BATCH);
        let plan = wasteful(&problem);
        let target = problem.charges.sheets[0];
        let mut anew = Anew::new(&problem, &need, hints(&problem), &plan, target).expect("nothing is broken down");
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
    fn what_is_on_the_bench_and_what_is_missing_are_all_that_is_needed() {
        let more = "[[sheet]]\nname = \"half\"\nlength = 48\nwidth = 48\nprice = 22.00\n\
             [[panel]]\nsize = \"8 x 10\"\ncount = 30\n[[panel]]\nsize = \"18 x 24\"\ncount = 9\n\
             [yard]\nrips = \"either\"\ncut_price = 0.50\n";
        let (problem, need) = batch(&format!("{BATCH}{more}"));
        let plan = Draft::default();
        let hints = Hints { worth: vec![300.0, 200.0, 1000.0], ..hints(&problem) };
        let target = 3 * problem.charges.sheets[0];
        let mut anew = Anew::new(&problem, &need, hints, &plan, target).expect("nothing is broken down");
        let mut least = need.count.clone();
        for _ in 0..2_000 {
            anew.round();
            let mut all = anew.bench.missing.clone();
            for (pattern, copies) in &anew.draft().patterns {
                pattern.yields(&problem).for_each(|(size, each)| all[size] += each * copies);
            }
            assert_eq!(all, need.count);
            least.iter_mut().zip(&anew.bench.missing).for_each(|(least, missing)| *least = (*least).min(*missing));
        }
        assert_eq!(least, [0, 0, 0], "each size is all cut at some time");
    }

    #[test]
    fn one_cycle_begins_sheets_as_the_linear_program_does_and_the_next_as_it_comes() {
        let half = "[[sheet]]\nname = \"half\"\nlength = 48\nwidth = 48\nprice = 15.00\n";
        let (problem, need) = batch(&format!("{BATCH}{half}"));
        let is_half = |ripping: usize| problem.rippings[ripping].sheet == 1;
        let sheets = (0..problem.rippings.len()).map(|ripping| f64::from(u32::from(is_half(ripping)))).collect();
        let hints = Hints { sheets, ..hints(&problem) };
        let plan = wasteful(&problem);
        let mut anew = Anew::new(&problem, &need, hints, &plan, plan.cost(&problem)).expect("nothing is broken down");
        let mut halves = [0, 0];
        for begun in &mut halves {
            anew.begin_cycle();
            for _ in 0..1_000 {
                let mut bench = Bench::clone(&anew.bench);
                bench.take_sheet(&anew.tables, 0);
                assert!(anew.begin_sheet(&mut bench), "there is money for one");
                let way = bench.sheets.last().expect("it was just begun").way;
                *begun += u32::from(is_half(anew.tables.ways[way].index));
            }
        }
        assert!(halves[0] > 950, "{halves:?}");
        assert!(halves[1] < 950, "{halves:?}");
    }

    #[test]
    fn a_strip_that_no_panel_is_missing_for_is_spare_and_left_out() {
        let (problem, need) = batch(BATCH);
        let plan = wasteful(&problem);
        let few = Need { count: vec![5], ..need };
        let anew =
            Anew::new(&problem, &few, hints(&problem), &plan, plan.cost(&problem)).expect("nothing is broken down");
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
            let mut anew = Anew::new(&problem, &need, hints(&problem), &plan, target).expect("nothing is broken down");
            for _ in 0..100 {
                let before = anew.work();
                assert!(anew.round().is_none(), "no sheet is so cheap");
                assert!(anew.work() > before);
                assert!(anew.tables.money(&anew.bench) <= target, "what is on the bench can be paid");
            }
        }
    }
}
