//! A cheaper plan from a plan: some of its sheets are taken apart, the others keep their strips, and all that is
//! crosscut is planned again, out of the layouts and patterns closest to the linear program (large neighbourhood
//! search, Shaw 1998). Now and then a plan that costs as much may take the place of the old, with one layout less of
//! those taken apart, so that the walk does not end where no few sheets can be bettered. It may also begin where panels are
//! still missing. Proves nothing.

use super::cover::Cover;
use super::draft::Draft;
use super::layout::Layout;
use super::master::Made;
use super::need::Need;
use super::outlay;
use super::program::Program;
use super::scope::Scope;
use super::search::{Search, Verdict};
use super::simplex::Saved;
use super::watch::Watch;
use crate::model::Problem;
use std::collections::BTreeMap;

/// Most nodes of the search for one new plan.
const NODES: usize = 60;
/// Of a hundred rounds, those that may go sideways.
const SIDEWAYS: u32 = 40;
/// Fewest, first and most sheets that are taken apart at once.
const APART: [f64; 3] = [1.5, 3.0, 20.0];
/// The same dice fall in every run.
const SEED: u64 = 1998;

/// What reworks a plan.
pub(super) struct Rework<'a> {
    problem: &'a Problem,
    need: &'a Need,
    scope: Scope,
    search: Search<'a>,
    root: Saved,
    columns: BTreeMap<Layout, usize>,
    /// Where the walk stands.
    now: Draft,
    /// Whether that is a plan; else panels are missing.
    is_plan: bool,
    /// What the cheapest plan costs, in units.
    cost: i64,
    /// Sheets to take apart at once: more where all their plans can be searched through, fewer where they cannot.
    apart: f64,
    /// Whether no plan among the layouts and patterns costs less than the cheapest.
    is_done: bool,
    dice: fastrand::Rng,
}

/// One round: columns that are kept, with the least copies of each; and the most of one, where the walk goes sideways.
struct Round {
    kept: BTreeMap<usize, i64>,
    shunned: Option<(usize, i64)>,
    target: i64,
}

impl<'a> Rework<'a> {
    /// A walk that starts from a plan of the scope, among these layouts and patterns and its own.
    pub(super) fn new(
        problem: &'a Problem,
        need: &'a Need,
        scope: &Scope,
        pool: (Vec<Made>, &[Cover]),
        plan: &Draft,
        watch: &'a dyn Watch,
    ) -> Option<Rework<'a>> {
        let from = (plan, plan.cost(problem), true);
        Rework::begin(problem, need, scope, pool, from, watch)
    }

    /// The same from sheets and strips that some panels are still missing from, towards plans of the scope that cost less
    /// than this.
    pub(super) fn mend(
        problem: &'a Problem,
        need: &'a Need,
        scope: &Scope,
        pool: Vec<Made>,
        (bench, cost): (&Draft, i64),
        watch: &'a dyn Watch,
    ) -> Option<Rework<'a>> {
        Rework::begin(problem, need, scope, (pool, &[]), (bench, cost, false), watch)
    }

    fn begin(
        problem: &'a Problem,
        need: &'a Need,
        scope: &Scope,
        (mut pool, covers): (Vec<Made>, &[Cover]),
        (now, cost, is_plan): (&Draft, i64, bool),
        watch: &'a dyn Watch,
    ) -> Option<Rework<'a>> {
        pool.extend(now.made_of());
        pool.sort_unstable();
        pool.dedup();
        let program = Program::new(problem, need, scope, (&pool, covers), cost);
        let columns = program.layouts().map(|(layout, column)| (layout.clone(), column)).collect();
        let mut search = Search::new(problem, need, program, cost, 0, watch);
        let root = search.root()?;
        let dice = fastrand::Rng::with_seed(SEED);
        let (scope, now) = (scope.clone(), now.clone());
        Some(Rework {
            problem,
            need,
            scope,
            search,
            root,
            columns,
            now,
            is_plan,
            cost,
            apart: APART[1],
            is_done: false,
            dice,
        })
    }

    /// Takes some sheets apart once; a cheaper plan where one comes out.
    pub(super) fn round(&mut self) -> Option<Draft> {
        let round = self.next()?;
        match self.search.keeping(&self.root, round.target, &round.kept, round.shunned, NODES) {
            Verdict::Found(draft) => return self.step(*draft),
            Verdict::Nothing if round.shunned.is_none() => {
                self.apart = (self.apart + 0.2).min(APART[2]);
                self.is_done |= round.kept.is_empty();
            }
            Verdict::Unsure if round.shunned.is_none() => self.apart = (self.apart - 0.1).max(APART[0]),
            Verdict::Nothing | Verdict::Unsure => {}
        }
        None
    }

    /// Whether further rounds are in vain: all sheets were taken apart at once, and nothing cheaper came out.
    pub(super) fn is_done(&self) -> bool {
        self.is_done
    }

    fn step(&mut self, draft: Draft) -> Option<Draft> {
        let lean = draft.without_spare_strips(self.problem);
        let lean = if lean.serves(self.problem, self.need) { lean } else { draft.clone() };
        let cost = lean.cost(self.problem);
        let cheaper = cost < self.cost;
        self.cost = self.cost.min(cost);
        self.is_plan = true;
        self.now =
            if lean.layouts.keys().all(|layout| self.columns.contains_key(layout)) { lean.clone() } else { draft };
        cheaper.then_some(lean)
    }

    /// The sheets that are kept, by chance; none where nothing can cost less.
    fn next(&mut self) -> Option<Round> {
        let sheets = self.now.layouts.iter().flat_map(|(layout, copies)| {
            std::iter::repeat_n(self.columns[layout], usize::try_from(*copies).expect("sheets are few"))
        });
        let mut sheets: Vec<usize> = sheets.collect();
        self.dice.shuffle(&mut sheets);
        let apart = self.many().min(sheets.len());
        let mut kept: BTreeMap<usize, i64> = BTreeMap::new();
        sheets[apart..].iter().for_each(|column| *kept.entry(*column).or_default() += 1);
        let sideways = self.is_plan && self.dice.u32(0..100) < SIDEWAYS;
        let shunned = sideways.then(|| (sheets[0], kept.get(&sheets[0]).copied().unwrap_or(0)));
        let less = outlay::most_below(self.problem, &self.scope, self.cost)?;
        Some(Round { kept, shunned, target: if sideways { self.cost } else { less } })
    }

    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)] // between the fewest and the most
    fn many(&mut self) -> usize {
        (self.apart + self.dice.f64()) as usize
    }
}

#[cfg(test)]
mod tests {
    use super::super::dive::{Choice, dive};
    use super::super::generate::generate;
    use super::*;
    use crate::data::{File, Source, read};
    use crate::solve::Patient;

    /// Twenty-four 12 x 16, up to 1/8 in. scant: one sheet gives all of them (six pieces of 15 7/8 in. out of each of four
    /// strips of 11 7/8 in.).
    const BATCH: &str = "[[sheet]]\nlength = 96\nwidth = 48\nprice = 38.50\n\
                         [[panel]]\nsize = \"12 x 16\"\ncount = 24\nscant = \"1/8\"\n[saw]\nsquaring = 0\n";

    fn batch(text: &str) -> (Problem, Need) {
        let job = read(&Source { job: File::of("batch", text), list: None, rack: None }).expect("it is sound");
        let problem = crate::model::build(&job).expect("they can be made");
        let need = Need::of(&problem);
        (problem, need)
    }

    /// A plan of half of them.
    fn half(problem: &Problem, need: &Need) -> Draft {
        let half = Need { count: vec![12], ..need.clone() };
        let relaxed = generate(problem, &half, &[], &Patient);
        dive(problem, &half, &relaxed, Choice::Quick, &Patient).expect("a plan")
    }

    #[test]
    fn two_half_empty_sheets_become_one() {
        let (problem, need) = batch(BATCH);
        let plan = half(&problem, &need);
        let mut both = plan.clone();
        plan.layouts.iter().for_each(|(layout, copies)| both.add(Made::Layout(layout.clone()), *copies));
        plan.patterns.iter().for_each(|(pattern, copies)| both.add(Made::Pattern(pattern.clone()), *copies));
        assert!(both.serves(&problem, &need));
        assert_eq!(both.cost(&problem), 7700);

        let found = generate(&problem, &need, &[], &Patient).found;
        let scope = Scope::all(&problem, &need, None);
        let mut rework = Rework::new(&problem, &need, &scope, (found, &[]), &both, &Patient).expect("there are plans");
        let better = (0..50).find_map(|_| rework.round()).expect("a cheaper plan");
        assert!(better.serves(&problem, &need));
        assert_eq!(better.cost(&problem), 3850);
    }

    #[test]
    fn panels_that_are_missing_get_room_on_the_sheets_that_there_are() {
        let (problem, need) = batch(BATCH);
        let bench = half(&problem, &need);
        assert!(!bench.serves(&problem, &need));
        let (found, scope) = (generate(&problem, &need, &[], &Patient).found, Scope::all(&problem, &need, None));
        let mend = |cost| Rework::mend(&problem, &need, &scope, found.clone(), (&bench, cost), &Patient);
        let mended = mend(7700).and_then(|mut rework| (0..50).find_map(|_| rework.round()));
        let mended = mended.expect("they fit on one sheet");
        assert!(mended.serves(&problem, &need));
        assert_eq!(mended.cost(&problem), 3850);
        let below = mend(3850).and_then(|mut rework| (0..50).find_map(|_| rework.round()));
        assert_eq!(below, None, "no plan costs less than a sheet");
    }

    #[test]
    fn a_walk_is_done_once_all_sheets_were_apart_and_nothing_cheaper_came_out() {
        let text = "[[sheet]]\nlength = 96\nwidth = 48\nprice = 38.50\n\
                    [[panel]]\nsize = \"12 x 16\"\ncount = 90\n[[panel]]\nsize = \"16 x 20\"\ncount = 20\n";
        let (problem, need) = batch(text);
        let (relaxed, scope) = (generate(&problem, &need, &[], &Patient), Scope::all(&problem, &need, None));
        let plan = dive(&problem, &need, &relaxed, Choice::Careful, &Patient).expect("a plan");
        let mut pool: Vec<Made> = relaxed.found.iter().cloned().chain(plan.made_of()).collect();
        let mut rework = Rework::new(&problem, &need, &scope, (pool.clone(), &[]), &plan, &Patient).expect("a walk");
        let (mut rounds, mut cost) = (0, plan.cost(&problem));
        while !rework.is_done() {
            rounds += 1;
            assert!(rounds < 1_000, "it goes on for ever");
            cost = rework.round().map_or(cost, |draft| draft.cost(&problem));
        }
        let sheets: u32 = rework.now.layouts.values().sum();
        assert!(f64::from(sheets) > APART[1] + 1.0, "{sheets} sheets come apart in the first round");
        assert!(rework.apart + 1.0 > f64::from(sheets), "{} of {sheets} sheets at most were apart", rework.apart);
        pool.sort_unstable();
        pool.dedup();
        let all = Program::new(&problem, &need, &scope, (&pool, &[]), cost - 1);
        let (verdict, _) = Search::new(&problem, &need, all, cost - 1, 100_000, &Patient).run();
        assert!(matches!(verdict, Verdict::Nothing), "{verdict:?}");
    }
}
