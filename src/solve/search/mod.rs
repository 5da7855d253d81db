//! Branch and bound over a listed pool: is there a plan that costs no more than a target?
//!
//! Depth first, each node warm from its parent's basis. A node is closed only by whole numbers: the relaxation's
//! prices are rounded to fixed point, every column's reduced cost is recomputed exactly, and the bound
//! `prices x right side + sum of reduced costs at their cheaper bounds` holds for any prices (so does the one along a
//! ray that shows a node empty). Columns whose reduced cost is above what is left to the target are fixed the same way.
//! Prices that closed a node are kept and tried at the next ones first ([`proofs`]).

mod care;
mod proofs;

pub(super) use self::care::Learned;

use self::care::Care;
use self::proofs::Proofs;
use super::draft::Draft;
use super::fixed_point::Exact;
use super::need::Need;
use super::prices::scale;
use super::program::{Counts, Program, Spot, WHOLE};
use super::simplex::{Moved, Outcome, Saved};
use super::trail::Trail;
use super::watch::Watch;
use crate::model::Problem;
use std::collections::BTreeMap;

/// What the search found out.
#[derive(Debug)]
pub(super) enum Verdict {
    /// A plan within the target.
    Found(Box<Draft>),
    /// There is none in the pool.
    Nothing,
    /// Time or nodes ran out, or a node could not be closed exactly.
    Unsure,
}

/// The search and what it works on.
pub(super) struct Search<'a> {
    problem: &'a Problem,
    need: &'a Need,
    program: Program,
    target: i64,
    scale: i64,
    /// Nodes left.
    nodes: usize,
    unsure: bool,
    /// Bounds as they were, to be undone.
    trail: Trail,
    /// What it goes by where it chooses with care.
    care: Option<Care<'a>>,
    /// Prices that have closed nodes.
    proofs: Proofs,
    watch: &'a dyn Watch,
}

/// What is missing to the next whole number where a value is rounded up first.
const GLADLY: f64 = 0.3;

/// About what a column takes where prices of before are judged, in nanoseconds.
const LOOK: u64 = 1;

/// How far along a ray the bound is tried, in prices of the dearest sheet; further would not go into fixed point.
const FAR: [f64; 6] = [0.0, 1.0, 16.0, 256.0, 2048.0, 8192.0];

impl<'a> Search<'a> {
    /// A search over this program for a plan of at most `target` units, through at most `nodes` nodes.
    pub(super) fn new(
        problem: &'a Problem,
        need: &'a Need,
        program: Program,
        target: i64,
        nodes: usize,
        watch: &'a dyn Watch,
    ) -> Self {
        let scale = scale(problem);
        Search {
            problem,
            need,
            program,
            target,
            scale,
            nodes,
            unsure: false,
            trail: Trail::default(),
            care: None,
            proofs: Proofs::default(),
            watch,
        }
    }

    /// The same search, that chooses with care what to branch on, by what was learned and is learned now.
    pub(super) fn with_care(self, learned: &'a mut Learned) -> Self {
        Search { care: Some(Care::new(learned)), ..self }
    }

    /// Runs the search; what it found out, and in how many nodes.
    pub(super) fn run(mut self) -> (Verdict, usize) {
        let nodes = self.nodes;
        let found = self.explore();
        (self.verdict(found), nodes - self.nodes)
    }

    /// Solves the relaxation of all plans, to come back to; none where there is no plan within the target.
    pub(super) fn root(&mut self) -> Option<Saved> {
        (!self.closed()).then(|| self.program.lp.mark())
    }

    /// Runs the search, from the root, among the plans that keep at least so many of some columns and no more than so
    /// many of another.
    pub(super) fn keeping(
        &mut self,
        root: &Saved,
        target: i64,
        kept: &BTreeMap<usize, i64>,
        shunned: Option<(usize, i64)>,
        nodes: usize,
    ) -> Verdict {
        (self.target, self.nodes, self.unsure) = (target, nodes, false);
        if !self.program.lp.back_to(root) {
            return Verdict::Unsure;
        }
        let mark = self.trail.mark();
        for (column, copies) in kept {
            let (_, most) = self.program.lp.bounds(*column);
            self.trail.set(&mut self.program.lp, (*column, real(*copies).min(most), most));
        }
        if let Some((column, copies)) = shunned {
            let (least, _) = self.program.lp.bounds(column);
            self.trail.set(&mut self.program.lp, (column, least, real(copies)));
        }
        let found = self.explore();
        self.trail.undo(&mut self.program.lp, mark);
        self.verdict(found)
    }

    fn verdict(&self, found: Option<Draft>) -> Verdict {
        match found {
            Some(draft) => Verdict::Found(Box::new(draft)),
            None if self.unsure => Verdict::Unsure,
            None => Verdict::Nothing,
        }
    }

    /// Explores the node that the current bounds and basis stand for.
    fn explore(&mut self) -> Option<Draft> {
        if self.nodes == 0 || self.watch.stop() {
            self.unsure = true;
            return None;
        }
        self.nodes -= 1;
        if self.closed() {
            return None;
        }
        let Some(spot) = self.branching() else { return self.whole() };
        let (column, counted) = self.program.column_of(spot);
        if counted {
            self.proofs.count();
        }
        let found = self.branch(column);
        if counted {
            self.proofs.uncount(self.program.counted_last());
            self.program.uncount();
        }
        found
    }

    /// Explores both parts that the value of a column splits a node into.
    fn branch(&mut self, column: usize) -> Option<Draft> {
        let value = self.program.lp.value(column);
        let (least, most) = self.program.lp.bounds(column);
        let basis = self.program.lp.mark();
        let mark = self.trail.mark();
        self.trail.set(&mut self.program.lp, (column, value.ceil(), most));
        let found = self.explore();
        self.trail.undo(&mut self.program.lp, mark);
        if found.is_some() {
            return found;
        }
        if !self.program.lp.back_to(&basis) {
            self.unsure = true;
            return None;
        }
        self.trail.set(&mut self.program.lp, (column, least, value.floor()));
        let found = self.explore();
        self.trail.undo(&mut self.program.lp, mark);
        found
    }

    /// A plan from a node whose values are all whole, checked in whole numbers.
    fn whole(&mut self) -> Option<Draft> {
        let draft = self.program.draft();
        let good = draft.serves(self.problem, self.need) && draft.cost(self.problem) <= self.target;
        self.unsure |= !good;
        good.then_some(draft)
    }

    /// Solves the node's relaxation; true where it holds no plan within the target.
    fn closed(&mut self) -> bool {
        if self.is_closed_already() {
            return true;
        }
        let limit = self.limit();
        let mut outcome = self.dual(limit);
        if outcome == Outcome::PastLimit {
            if self.judge_now().is_none() {
                return true;
            }
            outcome = self.dual(f64::INFINITY);
        }
        match outcome {
            Outcome::Optimal => match self.judge_now() {
                None => true,
                Some(tightened) => {
                    for (column, least, most) in tightened {
                        self.trail.set(&mut self.program.lp, (column, least, most));
                    }
                    false
                }
            },
            Outcome::Infeasible(ray) => {
                match self.closing(&ray) {
                    Some(prices) => self.keep(&prices),
                    None => self.unsure = true,
                }
                true
            }
            Outcome::PastLimit | Outcome::Lost => {
                self.unsure = true;
                true
            }
        }
    }

    /// The dual method, from the basis of now; where that has lost its way, from the slacks of all rows, which is as good
    /// a beginning since nothing costs less than nothing.
    fn dual(&mut self, limit: f64) -> Outcome {
        let mut outcome = self.program.lp.dual(limit);
        if outcome == Outcome::Lost && self.program.lp.begin_with(&[]) {
            outcome = self.program.lp.dual(limit);
        }
        self.watch.worked(self.program.lp.work());
        outcome
    }

    /// Whether prices that have closed other nodes close this one too; else they tighten its bounds.
    fn is_closed_already(&mut self) -> bool {
        self.watch.worked(LOOK * (self.proofs.many() * self.program.cost.len()) as u64);
        let most = exact(&self.program, self.scale).fixed(self.target);
        self.proofs.close(&mut self.program.lp, &mut self.trail, most)
    }

    /// The exact bound at the prices of now, which are kept where they close the node, as in `judge`.
    fn judge_now(&mut self) -> Option<Vec<Moved>> {
        let prices = self.program.lp.prices();
        let judged = self.judge(&prices);
        if judged.is_none() {
            self.keep(&prices);
        }
        judged
    }

    /// Keeps prices that have closed a node.
    fn keep(&mut self, prices: &[f64]) {
        let prices = self.fixed(prices);
        self.proofs.keep(&exact(&self.program, self.scale), &prices, self.program.counted());
    }

    /// Prices along the ray that prove that the node holds nothing: from those of now on, or, where they have grown
    /// beyond all measure, from none at all.
    fn closing(&self, ray: &[f64]) -> Option<Vec<f64>> {
        let longest = ray.iter().fold(0.0, |longest: f64, part| longest.max(part.abs()));
        if longest == 0.0 {
            return None;
        }
        let (prices, none) = (self.program.lp.prices(), vec![0.0; ray.len()]);
        let mut far = [&prices, &none].into_iter().flat_map(|from| FAR.map(|far| (from, far / longest)));
        far.find_map(|(from, far)| {
            let along: Vec<f64> = from.iter().zip(ray).map(|(price, part)| price + far * part).collect();
            self.judge(&along).is_none().then_some(along)
        })
    }

    /// The exact bound at these prices: none where it passes the target, else the bounds that can be tightened.
    fn judge(&self, prices: &[f64]) -> Option<Vec<Moved>> {
        exact(&self.program, self.scale).judge(&self.fixed(prices), self.target)
    }

    /// Prices in fixed point, not below zero where a row may be overfilled.
    #[allow(clippy::cast_possible_truncation)] // rounded to fixed point, once
    fn fixed(&self, prices: &[f64]) -> Vec<i64> {
        let to_units = self.program.unit * real(self.scale);
        let of = |(price, free): (&f64, &bool)| {
            let fixed = (price * to_units).round().clamp(-1e15, 1e15) as i64;
            if *free { fixed } else { fixed.max(0) }
        };
        prices.iter().zip(&self.program.free).map(of).collect()
    }

    /// The cost at which a node is closed, in units of the relaxation.
    fn limit(&self) -> f64 {
        real(self.target) / self.program.unit * (1.0 + 1e-9) + 1e-9
    }

    /// The count to branch on: the one chosen with care, or the first kind of count that is not whole, and of it the
    /// one that rounds up most gladly.
    fn branching(&mut self) -> Option<Spot> {
        let limit = self.limit();
        if let Some(care) = &mut self.care {
            return care.spot(&mut self.program, limit);
        }
        let mut best: Option<(Counts, f64, Spot)> = None;
        for (spot, counts, value) in self.program.open() {
            if (value - value.round()).abs() <= WHOLE {
                continue;
            }
            let far = (value.ceil() - value - GLADLY).abs();
            if best.is_none_or(|(first, least, _)| (counts, far) < (first, least)) {
                best = Some((counts, far, spot));
            }
        }
        best.map(|(_, _, spot)| spot)
    }
}

/// The program in whole numbers.
fn exact(program: &Program, scale: i64) -> Exact<'_> {
    let Program { lp, cost, entries, right, .. } = program;
    Exact { lp, cost, entries, right, scale }
}

#[allow(clippy::cast_precision_loss)] // counts and costs of an order
fn real(number: i64) -> f64 {
    number as f64
}

#[cfg(test)]
mod tests {
    use super::super::generate::{Relaxed, generate};
    use super::super::scope::{Count, Range, Scope};
    use super::*;
    use crate::data::{File, Source, read};
    use crate::solve::Patient;
    use proptest::prelude::*;

    /// A batch from these sheets and panels, and what column generation meets in it.
    fn batch(text: String) -> (Problem, Need, Relaxed) {
        let job = read(&Source { job: File::of("batch", text), list: None, rack: None }).expect("it is sound");
        let problem = crate::model::build(&job).expect("they can be made");
        let need = Need::of(&problem);
        let relaxed = generate(&problem, &need, &[], &Patient);
        (problem, need, relaxed)
    }

    /// The search through what makes a batch, with no more than so many sheets, for a plan of no more than the price of
    /// so many.
    fn on_a_search<T>(sheets: i64, target: i64, then: impl Fn(&mut Search<'_>) -> T) -> T {
        let text = "[[sheet]]\nname = \"whole\"\nlength = 96\nwidth = 48\nprice = 38.50\n\
             [[panel]]\nsize = \"16 x 20\"\ncount = 30\n[[panel]]\nsize = \"11 x 14\"\ncount = 20\n";
        let (problem, need, relaxed) = batch(text.to_owned());
        let scope = Scope::all(&problem, &need, None).narrowed(Count::Kind(0), Range { least: 0, most: sheets });
        let target = target * problem.charges.sheets[0];
        let program = Program::new(&problem, &need, &scope, (&relaxed.found, &[]), target);
        then(&mut Search::new(&problem, &need, program, target, 0, &Patient))
    }

    #[test]
    fn a_ray_shows_that_nothing_is_there_however_long_it_is() {
        let shown = on_a_search(2, 20, |search| {
            let Outcome::Infeasible(ray) = search.program.lp.dual(f64::INFINITY) else {
                panic!("two sheets are too few");
            };
            [1e-9, 1e-3, 1.0, 1e6, 1e12].map(|long| {
                let ray: Vec<f64> = ray.iter().map(|part| part * long).collect();
                search.closing(&ray).is_some()
            })
        });
        assert_eq!(shown, [true; 5]);
    }

    #[test]
    fn no_ray_shows_that_nothing_is_there_where_something_is() {
        let shown = on_a_search(20, 20, |search| {
            assert_eq!(search.program.lp.dual(f64::INFINITY), Outcome::Optimal);
            let rows = search.program.right.len();
            let along = |row: usize| (0..rows).map(|at| f64::from(u8::from(at == row))).collect::<Vec<f64>>();
            (0..rows).any(|row| search.closing(&along(row)).is_some()) || search.closing(&vec![0.0; rows]).is_some()
        });
        assert!(!shown);
    }

    /// The least that a plan of these counts costs that is made of what column generation meets, in units; none where a
    /// search did not come to its end, or none was found.
    fn cheapest(counts: &[u32], care: bool) -> Option<i64> {
        let sizes = ["8 x 10", "11 x 14", "16 x 20", "18 x 24"];
        let panel = |(size, count): (&&str, &u32)| format!("[[panel]]\nsize = \"{size}\"\ncount = {count}\n");
        let text = "[[sheet]]\nname = \"whole\"\nlength = 96\nwidth = 48\nprice = 38.50\n\
             [[sheet]]\nname = \"half\"\nlength = 48\nwidth = 48\nprice = 22.00\n\
             [yard]\nrips = \"either\"\ncut_price = 0.50\nfree_cuts = 1\n";
        let text: String = std::iter::once(text.to_owned()).chain(sizes.iter().zip(counts).map(panel)).collect();
        let (problem, need, relaxed) = batch(text);
        let scope = Scope::all(&problem, &need, None);
        let (mut learned, mut target) = (Learned::default(), fourth_more(relaxed.cost) + problem.charges.sheets[0]);
        let mut found = false;
        loop {
            let program = Program::new(&problem, &need, &scope, (&relaxed.found, &[]), target);
            let search = Search::new(&problem, &need, program, target, 5_000, &Patient);
            let (verdict, _) = if care { search.with_care(&mut learned).run() } else { search.run() };
            match verdict {
                Verdict::Found(draft) => {
                    assert!(draft.serves(&problem, &need) && draft.cost(&problem) <= target);
                    (found, target) = (true, draft.cost(&problem) - 1);
                }
                Verdict::Nothing => return found.then_some(target + 1),
                Verdict::Unsure => return None,
            }
        }
    }

    #[allow(clippy::cast_possible_truncation)] // costs of an order
    fn fourth_more(cost: f64) -> i64 {
        (cost * 1.25) as i64
    }

    proptest! {
        #![proptest_config(ProptestConfig { cases: 64, ..ProptestConfig::default() })]

        #[test]
        fn with_care_and_without_it_the_same_is_found(counts in prop::collection::vec(1_u32..16, 4)) {
            let (plain, careful) = (cheapest(&counts, false), cheapest(&counts, true));
            prop_assume!(plain.is_some() && careful.is_some());
            prop_assert_eq!(plain, careful);
        }
    }
}
