//! What goes on beside a tree that has grown, each on a thread of its own ([`super::strand`]): a finder looks for
//! cheaper plans, and where it takes long, plans are cut anew, the finder gets no more work, and a second tree takes half
//! of the open nodes ([`super::pair`]). How long it takes to meet the cheapest plan is much a matter of luck, and differs
//! from one way of searching to another; each learns the others' plans, and where the tree ends, all end (an algorithm
//! portfolio, Gomes and Selman 2001).

use super::super::anew::can_be_cut;
use super::super::draft::Draft;
use super::super::thread::{joined, spawn};
use super::super::watch::Watch;
use super::anew::Cutter;
use super::finder::{Finder, Job, Task};
use super::pair::{Exchange, IDLE, Mate};
use super::strand::{ANEW, FINDER, Priced, SECOND, Strand, Strands, TREE};
use super::{ALONE, Tree};
use std::cmp::Reverse;
use std::thread;

/// Where its clock stands when the tree has taken long: plans are cut anew and a second tree begins, for which usual
/// batches would only wait.
const LONG: u64 = 100_000_000;

/// How the work on a tree ended.
pub(in crate::solve) struct Closed {
    /// The cheapest plan found and its cost in units; none where none was found.
    pub best: Option<(Draft, i64)>,
    /// No plan costs less, in units; none where no plan can be made at all.
    pub bound: Option<i64>,
}

impl Closed {
    /// Nothing is cheaper than the best plan, or there is no plan at all.
    fn is_proved(&self) -> bool {
        self.bound == self.best.as_ref().map(|(_, cost)| *cost)
    }
}

impl<'a> Tree<'a> {
    /// Closes node after node until nothing is open, or the watch says stop.
    pub(in crate::solve) fn close(mut self) -> Closed {
        while self.made < ALONE {
            if self.is_proved() || !self.step() {
                return self.closed();
            }
        }
        let watch = self.watch;
        self.close_on(&Strands::new(watch), LONG)
    }

    /// The same as one of the strands, with the others beside it; plans are cut anew and a second tree begins once its clock
    /// stands here.
    fn close_on(self, strands: &Strands<Job>, late: u64) -> Closed {
        let [first, finding, cutting, second] = [TREE, FINDER, ANEW, SECOND].map(|index| strands.strand(index));
        let exchange = Exchange::default();
        let tree = self.on(&first);
        let (problem, need) = (tree.problem, tree.need);
        let finder = Finder::new(problem, need, &finding);
        let tree = thread::scope(|scope| {
            spawn(scope, || finder.work());
            let mut other = None;
            let tree = tree.go_on(&first, |tree| {
                if first.now() >= late
                    && let Some(plan) = tree.best.as_ref().filter(|(plan, _)| can_be_cut(problem, plan))
                    && let Some(hints) = tree.hints.take()
                {
                    cutting.begin(first.now());
                    let cutter = Cutter::new(problem, need, &cutting, plan.clone());
                    spawn(scope, || cutter.work(hints));
                }
                if first.now() >= late && other.is_none() {
                    second.begin(first.now());
                    let tree = tree.second(&second, &exchange);
                    other = Some(spawn(scope, || tree.go_on(&second, |_| {})));
                }
            });
            match other {
                Some(other) => tree.with_all_of(joined(other), &exchange),
                None => tree,
            }
        });
        let closed = tree.closed();
        // Where it did not close, others may have told plans that it did not learn of.
        if closed.is_proved() { closed } else { Closed { best: strands.best(), ..closed } }
    }

    /// The tree as one of the strands.
    fn on<'b>(self, strand: &'b Strand<'b, Job>) -> Tree<'b>
    where
        'a: 'b,
    {
        let tree = Tree { watch: strand, strand: Some(strand), ..self };
        tree.best.iter().for_each(|plan| tree.tell(plan));
        tree
    }

    /// Closes node after node as one of the strands, until nothing is open or the watch says stop; `after` is called after
    /// each.
    fn go_on(mut self, strand: &Strand<Job>, mut after: impl FnMut(&mut Self)) -> Self {
        let _guard = strand.guard();
        while self.takes_a_step(strand) {
            after(&mut self);
            self.share(strand);
            self.learn();
        }
        strand.end();
        self
    }

    /// Closes or splits a node, or waits a moment where it has none that may hold something cheaper; false where the other
    /// tree has none either, or time is up.
    fn takes_a_step(&mut self, strand: &Strand<Job>) -> bool {
        if self.next_bound().is_some() {
            return self.step();
        }
        let others = self.mate.as_ref().and_then(Mate::least).filter(|bound| self.is_cheaper(*bound));
        if others.is_none() && strand.is_first() {
            return false;
        }
        if let Some(bound) = others {
            self.report(bound);
        }
        strand.worked(IDLE);
        !strand.stop()
    }

    /// Tells the others a plan.
    pub(super) fn tell(&self, plan: &Priced) {
        if let Some(strand) = self.strand {
            strand.tell(plan.clone());
        }
    }

    /// Takes over a plan that others have told, if it is cheaper.
    pub(super) fn learn(&mut self) {
        if let Some(plan) = self.strand.and_then(|strand| strand.learn(self.limit())) {
            self.best = Some(plan);
        }
    }

    /// Has the finder look for cheaper plans, as long as none are cut anew: that finds more in the same time.
    pub(super) fn hand_over(&self, task: Task) {
        if let Some(strand) = self.strand.filter(|_| self.hints.is_some()) {
            strand.hand_over(Job { plan: self.best.clone(), task });
        }
    }

    /// What is known by now.
    pub(super) fn closed(self) -> Closed {
        let cost = self.best.as_ref().map(|(_, cost)| *cost);
        Closed { bound: self.least_open().or(cost), best: self.best }
    }

    /// The least bound of the parts that may hold something cheaper than the best plan; none where there are none.
    fn least_open(&self) -> Option<i64> {
        self.stuck.filter(|bound| self.is_cheaper(*bound)).into_iter().chain(self.next_bound()).min()
    }

    /// The bound of the next open node, if it may hold something cheaper than the best plan.
    pub(super) fn next_bound(&self) -> Option<i64> {
        self.open.peek().map(|Reverse(node)| node.bound).filter(|bound| self.is_cheaper(*bound))
    }

    fn is_proved(&self) -> bool {
        self.least_open().is_none()
    }
}

#[cfg(test)]
mod tests {
    use super::super::super::generate::generate;
    use super::super::super::master::Made;
    use super::super::super::need::Need;
    use super::super::super::scope::Scope;
    use super::super::super::search::Verdict;
    use super::super::super::watch::{Progress, Watch};
    use super::super::plans::GROWN;
    use super::*;
    use crate::data::{File, Source, read};
    use crate::model::Problem;
    use crate::solve::Patient;
    use std::sync::atomic::{AtomicU64, Ordering::Relaxed as AnyOrder};
    use std::time::Duration;

    /// Two kinds of sheets, paid cuts, seven sizes and a strip on hand, which keeps covers away: enough for some dozens of
    /// nodes.
    const BATCH: &str = "[[sheet]]\nname = \"whole\"\nlength = 96\nwidth = 48\nprice = 38.50\n\
         [[sheet]]\nname = \"half\"\nlength = 48\nwidth = 48\nprice = 22.00\n\
         [[panel]]\nsize = \"5 x 7\"\ncount = 18\n[[panel]]\nsize = \"8 x 10\"\ncount = 20\n\
         [[panel]]\nsize = \"9 x 12\"\ncount = 22\ngrain = \"upright\"\n[[panel]]\nsize = \"11 x 14\"\ncount = 16\n\
         [[panel]]\nsize = \"12 x 16\"\ncount = 18\n[[panel]]\nsize = \"16 x 20\"\ncount = 14\n\
         [[panel]]\nsize = \"18 x 24\"\ncount = 13\n[yard]\nrips = \"either\"\n\
         [[strip]]\nlength = 11\nwidth = 8\n";

    fn batch(charges: &str) -> (Problem, Need) {
        let text = BATCH.replace("[yard]\n", &format!("[yard]\n{charges}"));
        let job = read(&Source { job: File::of("batch", text), list: None, rack: None }).expect("it is sound");
        let problem = crate::model::build(&job).expect("they can be made");
        let need = Need::of(&problem);
        (problem, need)
    }

    #[test]
    fn a_tree_alone_and_with_others_beside_it_comes_to_the_same_cost() {
        let mut most = 0;
        for charges in ["", "cut_price = 0.50\nfree_cuts = 2\n"] {
            let (problem, need) = batch(charges);
            let relaxed = generate(&problem, &need, &[], &Patient);
            let mut alone = Tree::new(&problem, &need, None, &relaxed, &Patient);
            while alone.step() {}
            most = most.max(alone.made);
            let beside = Tree::new(&problem, &need, None, &relaxed, &Patient).close();
            let pair = Tree::new(&problem, &need, None, &relaxed, &Patient).close_on(&Strands::new(&Patient), 0);
            let cost = |closed: &Closed| closed.best.as_ref().map(|(_, cost)| *cost).expect("a plan");
            let alone = alone.closed();
            assert!(alone.is_proved() && beside.is_proved() && pair.is_proved());
            assert_eq!([cost(&beside), cost(&pair)], [cost(&alone); 2]);
        }
        assert!(most > GROWN, "{most} nodes are too few for lists that are searched through with care");
    }

    #[test]
    fn a_search_ends_where_others_have_told_what_it_looks_for() {
        let (problem, need) = batch("");
        let relaxed = generate(&problem, &need, &[], &Patient);
        let best = Tree::new(&problem, &need, None, &relaxed, &Patient).close().best.expect("a plan");
        let strands = Strands::new(&Patient);
        let [first, other] = [TREE, ANEW].map(|index| strands.strand(index));
        let mut tree = Tree::new(&problem, &need, None, &relaxed, &Patient).on(&first);
        let (scope, made) = (Scope::all(&problem, &need, None), best.0.made_of().collect::<Vec<Made>>());
        let (verdict, _) = tree.search(&scope, &made, best.1, 500);
        assert!(matches!(verdict, Verdict::Found(_)), "{verdict:?}");
        other.begin(first.now());
        other.tell(best.clone());
        first.worked(1_000_000_000);
        other.worked(1_000_000_000);
        let (verdict, nodes) = tree.search(&scope, &made, best.1, 500);
        assert!(matches!(verdict, Verdict::Unsure) && nodes == 0, "{verdict:?} after {nodes} nodes");
        assert_eq!(tree.limit(), Some(best.1), "it has learned of that plan");
    }

    #[test]
    fn a_second_tree_gets_half_of_the_most_promising_nodes() {
        let (problem, need) = batch("");
        let relaxed = generate(&problem, &need, &[], &Patient);
        let (strands, exchange) = (Strands::new(&Patient), Exchange::default());
        let [first, second] = [TREE, SECOND].map(|index| strands.strand(index));
        let mut tree = Tree::new(&problem, &need, None, &relaxed, &Patient).on(&first);
        // No finder is there to take up work.
        tree.hints = None;
        let many = loop {
            match tree.most_promising() {
                Some((_, many)) if many > 3 => break many,
                _ => assert!(tree.step(), "it has grown too little"),
            }
        };
        second.begin(first.now());
        let (mut other, open) = (tree.second(&second, &exchange), tree.open.len());
        tree.share(&first);
        first.worked(1_000_000_000);
        second.worked(1_000_000_000);
        other.share(&second);
        assert_eq!(other.most_promising().map(|(_, many)| many), Some(many / 2));
        assert_eq!((other.open.len(), tree.open.len()), (many / 2, open - many / 2));
        assert_eq!(tree.with_all_of(other, &exchange).open.len(), open);
    }

    /// Holds up one thread or another for a moment, each run otherwise.
    struct Uneven(AtomicU64);

    impl Watch for Uneven {
        fn stop(&self) -> bool {
            let dice = self.0.fetch_add(0x9e37_79b9_7f4a_7c15, AnyOrder);
            if dice >> 58 == 0 {
                thread::sleep(Duration::from_micros(dice >> 47 & 2047));
            }
            false
        }
        fn seconds(&self) -> f64 {
            0.0
        }
        fn allowed(&self) -> f64 {
            f64::INFINITY
        }
        fn report(&self, _: Progress) {}
    }

    #[test]
    fn however_fast_each_thread_is_all_goes_the_same_way() {
        let (problem, need) = batch("cut_price = 0.50\nfree_cuts = 2\n");
        let relaxed = generate(&problem, &need, &[], &Patient);
        let way = |watch: &dyn Watch, late: u64| {
            let strands = Strands::new(watch);
            let closed = Tree::new(&problem, &need, None, &relaxed, watch).close_on(&strands, late);
            (closed.best, closed.bound, strands.told(), strands.ended())
        };
        // Plans are never cut anew, and there is no second tree; or later than the finder first finds some; or from the
        // beginning, so that it gets no work.
        for (late, by) in [(u64::MAX, vec![FINDER]), (50_000_000, vec![FINDER, ANEW]), (0, vec![ANEW])] {
            let even = way(&Patient, late);
            for by in [TREE].into_iter().chain(by) {
                assert!(even.2.iter().any(|told| told.1 == by), "{by} finds nothing, late {late}: {:?}", even.2);
            }
            for seed in 1..3 {
                let uneven = way(&Uneven(AtomicU64::new(seed << 32)), late);
                assert!(uneven == even, "late {late}, seed {seed}: {:?} and {:?}", uneven.2, even.2);
            }
        }
    }
}
