//! Strands of work that go on beside each other, each on a thread of its own, and come to the same plan however many
//! cores there are.
//!
//! No strand goes by real time. Each has a clock that goes on by what was done: by the work that it tells its watch of,
//! and by a little whenever it asks whether to stop, as all work does at every turn. That comes close to how long it takes,
//! so that strands seldom wait for each other. What a strand tells bears the time of its clock; another learns it once its
//! own clock is so much later that nothing earlier can still come: whoever is ahead waits until none is further behind than
//! a lag (conservative simulation, Chandy and Misra 1979). So what is found and when it is learned depends neither on how
//! many cores there are nor on how busy they are. Only the end of the time allowed does.

use super::super::draft::Draft;
use super::super::watch::{Progress, Watch};
use std::collections::VecDeque;
use std::sync::atomic::{AtomicU64, Ordering::SeqCst};
use std::sync::{Condvar, Mutex, MutexGuard, PoisonError};
use std::time::Duration;

/// What a turn takes beside the work that is told, in nanoseconds.
const TURN: u64 = 25_000;
/// How far others may be behind: so many nanoseconds, and such a part of all that was done.
const LAG: [u64; 2] = [1_000_000, 16];
/// The strands: a tree, which ends all where it ends, two that look for plans for it, and a second tree.
pub(super) const TREE: usize = 0;
/// What looks for plans.
pub(super) const FINDER: usize = 1;
/// What cuts plans anew.
pub(super) const ANEW: usize = 2;
/// What shares the work of the tree.
pub(super) const SECOND: usize = 3;
/// All strands.
const STRANDS: usize = 4;

/// Where the clock of a strand stands that has nothing to do, or has not begun, or is at its end.
const AT_REST: u64 = u64::MAX;
/// How long a wait lasts at most until the clocks are looked at again.
const LOOK: Duration = Duration::from_micros(200);

/// A plan and what it costs, in units.
pub(super) type Priced = (Draft, i64);

/// All strands; `J` is the work that the tree hands to the finder.
pub(super) struct Strands<'a, J> {
    watch: &'a dyn Watch,
    clocks: [AtomicU64; STRANDS],
    /// When the tree ended.
    over: AtomicU64,
    board: Mutex<Board<J>>,
    moved: Condvar,
}

/// What the strands tell each other.
struct Board<J> {
    /// Plans: when, by whom, which.
    plans: Vec<(u64, usize, Priced)>,
    /// How the bound of all plans has grown, in units: when, to what.
    bounds: Vec<(u64, i64)>,
    /// Work to be taken up, and when it was handed over.
    jobs: VecDeque<(u64, J)>,
    /// When the finder came to rest.
    rested: u64,
    /// Whether no more work will come.
    done: bool,
    /// What others told before this the tree has learned of.
    mattered: u64,
}

/// One strand: the watch of all that is done in it.
pub(super) struct Strand<'a, J> {
    all: &'a Strands<'a, J>,
    index: usize,
}

impl<'a, J> Strands<'a, J> {
    /// The first begins at once, the others when they are told to.
    pub(super) fn new(watch: &'a dyn Watch) -> Strands<'a, J> {
        let board =
            Board { plans: Vec::new(), bounds: Vec::new(), jobs: VecDeque::new(), rested: 0, done: false, mattered: 0 };
        Strands {
            watch,
            clocks: [0, AT_REST, AT_REST, AT_REST].map(AtomicU64::new),
            over: AT_REST.into(),
            board: board.into(),
            moved: Condvar::new(),
        }
    }

    /// The strand of this index.
    pub(super) fn strand(&'a self, index: usize) -> Strand<'a, J> {
        Strand { all: self, index }
    }

    /// The cheapest plan told.
    pub(super) fn best(&self) -> Option<Priced> {
        let board = self.board();
        let best = board.plans.iter().min_by_key(|(time, by, (_, cost))| (*cost, *time, *by));
        best.map(|(_, _, plan)| plan.clone())
    }

    /// When who told a plan of which cost: the tree, and others so long as the tree learned of it.
    #[cfg(test)]
    pub(super) fn told(&self) -> Vec<(u64, usize, i64)> {
        let board = self.board();
        let told = board.plans.iter().map(|(time, by, (_, cost))| (*time, *by, *cost));
        let mut told: Vec<_> = told.filter(|(time, by, _)| *by == TREE || *time < board.mattered).collect();
        told.sort_unstable();
        told
    }

    /// When the tree ended.
    #[cfg(test)]
    pub(super) fn ended(&self) -> u64 {
        self.over.load(SeqCst)
    }

    fn board(&self) -> MutexGuard<'_, Board<J>> {
        self.board.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// Whether the tree has ended: nobody learns what others find from then on.
    fn is_over(&self) -> bool {
        self.over.load(SeqCst) != AT_REST
    }
}

impl<J> Strand<'_, J> {
    /// Where its clock stands.
    pub(super) fn now(&self) -> u64 {
        self.all.clocks[self.index].load(SeqCst)
    }

    /// Begins at this time.
    pub(super) fn begin(&self, now: u64) {
        self.all.clocks[self.index].store(now, SeqCst);
    }

    /// Whether it is that of the tree which ends all.
    pub(super) fn is_first(&self) -> bool {
        self.index == TREE
    }

    /// What was told before this is known by now.
    fn horizon(&self) -> u64 {
        let now = self.now();
        now.saturating_sub(LAG[0] + now / LAG[1])
    }

    /// Waits until all that others tell up to the horizon has been told; the board then, and the horizon.
    fn known(&self) -> (MutexGuard<'_, Board<J>>, u64) {
        let horizon = self.horizon();
        let behind = |clock: &AtomicU64| clock.load(SeqCst) < horizon;
        let mut board = self.all.board();
        while self.all.clocks.iter().any(behind) && !self.all.is_over() && !self.all.watch.stop() {
            board = self.all.moved.wait_timeout(board, LOOK).unwrap_or_else(PoisonError::into_inner).0;
        }
        (board, horizon)
    }

    /// Waits until all that others tell up to the horizon has been told; the horizon.
    pub(super) fn wait(&self) -> u64 {
        self.known().1
    }

    /// The cheapest plan that others have told and that is known by now, if it is cheaper than this.
    pub(super) fn learn(&self, cost: Option<i64>) -> Option<Priced> {
        let (mut board, horizon) = self.known();
        if self.is_first() {
            board.mattered = horizon;
        }
        let known = board.plans.iter().filter(|(time, by, _)| *time < horizon && *by != self.index);
        let (_, _, plan) = known.min_by_key(|(time, by, (_, cost))| (*cost, *time, *by))?;
        cost.is_none_or(|cost| plan.1 < cost).then(|| plan.clone())
    }

    /// Tells the others a plan.
    pub(super) fn tell(&self, plan: Priced) {
        self.all.board().plans.push((self.now(), self.index, plan));
    }

    /// Tells the others that no plan costs less than this, in units.
    pub(super) fn tell_bound(&self, bound: i64) {
        let (mut board, now) = (self.all.board(), self.now());
        if board.bounds.last().is_none_or(|(_, least)| *least < bound) {
            board.bounds.push((now, bound));
        }
    }

    /// What no plan costs less than, in units, as far as that is known by now.
    pub(super) fn bound(&self) -> Option<i64> {
        let (board, horizon) = self.known();
        board.bounds.iter().rev().find(|(time, _)| *time < horizon).map(|(_, bound)| *bound)
    }

    /// Hands work over to the finder.
    pub(super) fn hand_over(&self, job: J) {
        let (mut board, now) = (self.all.board(), self.now());
        board.jobs.push_back((now, job));
        let clock = &self.all.clocks[FINDER];
        if clock.load(SeqCst) == AT_REST {
            clock.store(now.max(board.rested), SeqCst);
        }
        self.all.moved.notify_all();
    }

    /// The next work, waited for where there is none yet; none where none will come.
    pub(super) fn next(&self) -> Option<J> {
        let mut board = self.all.board();
        let clock = &self.all.clocks[self.index];
        if self.now() != AT_REST {
            board.rested = self.now();
        }
        loop {
            if self.all.watch.stop() {
                return None;
            }
            if let Some((time, job)) = board.jobs.pop_front() {
                clock.store(time.max(board.rested), SeqCst);
                return Some(job);
            }
            clock.store(AT_REST, SeqCst);
            if board.done || self.all.is_over() {
                return None;
            }
            board = self.all.moved.wait_timeout(board, LOOK * 10).unwrap_or_else(PoisonError::into_inner).0;
        }
    }

    /// Work that was handed over in the meantime, if that is known by now.
    pub(super) fn newer(&self) -> Option<J> {
        let (mut board, horizon) = self.known();
        let known = board.jobs.front().is_some_and(|(time, _)| *time < horizon);
        known.then(|| board.jobs.pop_front()).flatten().map(|(_, job)| job)
    }

    /// The end of the strand; that of the tree is the end of all.
    pub(super) fn end(&self) {
        if self.is_first() {
            self.all.over.fetch_min(self.now(), SeqCst);
        }
        self.rest();
    }

    fn rest(&self) {
        self.all.board().done |= self.index == TREE;
        self.all.clocks[self.index].store(AT_REST, SeqCst);
        self.all.moved.notify_all();
    }

    /// Ends the strand where it goes out of scope; and all others where that is because it broke down.
    pub(super) fn guard(&self) -> Guard<'_, J> {
        Guard(self)
    }
}

/// The watch of work on a strand that is in vain once others have told a plan that costs no more than this.
pub(super) struct Until<'a, J> {
    pub strand: &'a Strand<'a, J>,
    /// In units.
    pub cost: i64,
}

impl<J: Send> Watch for Until<'_, J> {
    fn stop(&self) -> bool {
        self.strand.stop() || self.strand.learn(Some(self.cost + 1)).is_some()
    }
    fn worked(&self, work: u64) {
        self.strand.worked(work);
    }
    fn seconds(&self) -> f64 {
        self.strand.seconds()
    }
    fn allowed(&self) -> f64 {
        self.strand.allowed()
    }
    fn report(&self, progress: Progress) {
        self.strand.report(progress);
    }
}

/// See [`Strand::guard`].
pub(super) struct Guard<'a, J>(&'a Strand<'a, J>);

impl<J> Drop for Guard<'_, J> {
    fn drop(&mut self) {
        if std::thread::panicking() {
            self.0.all.over.store(0, SeqCst);
        }
        self.0.rest();
    }
}

impl<J: Send> Watch for Strand<'_, J> {
    fn stop(&self) -> bool {
        self.worked(TURN);
        self.all.is_over() || self.all.watch.stop()
    }
    fn worked(&self, work: u64) {
        self.all.clocks[self.index].fetch_add(work, SeqCst);
    }
    fn seconds(&self) -> f64 {
        self.all.watch.seconds()
    }
    fn allowed(&self) -> f64 {
        self.all.watch.allowed()
    }
    fn report(&self, progress: Progress) {
        // What a second tree knows of the bound is not all.
        if self.is_first() {
            self.all.watch.report(progress);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::solve::Patient;
    use std::thread;

    fn plan(cost: i64) -> Priced {
        (Draft::default(), cost)
    }

    const MILLISECOND: u64 = LAG[0];

    fn go_on(strand: &Strand<&str>, to: u64) {
        strand.worked(to * MILLISECOND - strand.now());
    }

    #[test]
    fn what_is_told_is_known_a_lag_later_and_no_sooner() {
        let strands = Strands::new(&Patient);
        let [first, second] = [TREE, ANEW].map(|index| strands.strand(index));
        second.begin(0);
        go_on(&first, 10);
        first.tell(plan(500));
        go_on(&first, 100);
        // Known are things before 11 - 1 - 11/16 = 9.3, then those before 12 - 1 - 12/16 = 10.25.
        go_on(&second, 11);
        assert_eq!(second.learn(None), None);
        go_on(&second, 12);
        assert_eq!(second.learn(None), Some(plan(500)));
        assert_eq!(second.learn(Some(501)), Some(plan(500)));
        assert_eq!(second.learn(Some(500)), None, "it is no cheaper");
        go_on(&second, 100);
        assert_eq!(first.learn(None), None, "its own plan is no news");
    }

    #[test]
    fn a_bound_is_known_a_lag_after_it_was_told_and_never_falls() {
        let strands = Strands::new(&Patient);
        let [first, second] = [TREE, ANEW].map(|index| strands.strand(index));
        second.begin(0);
        first.tell_bound(500);
        go_on(&first, 10);
        first.tell_bound(600);
        first.tell_bound(550);
        go_on(&first, 100);
        assert_eq!(second.bound(), None);
        go_on(&second, 11);
        assert_eq!(second.bound(), Some(500));
        go_on(&second, 12);
        assert_eq!(second.bound(), Some(600));
    }

    #[test]
    fn work_stops_where_a_plan_that_others_told_leaves_nothing_to_be_found() {
        let strands = Strands::new(&Patient);
        let [first, second] = [TREE, ANEW].map(|index| strands.strand(index));
        second.begin(0);
        let looking = Until { strand: &first, cost: 500 };
        second.tell(plan(501));
        go_on(&second, 10);
        go_on(&first, 5);
        assert!(!looking.stop(), "a plan for 500 is still to be found");
        second.tell(plan(500));
        go_on(&second, 30);
        go_on(&first, 11);
        assert!(!looking.stop(), "it is not yet known");
        go_on(&first, 12);
        assert!(looking.stop());
        assert!(!first.stop(), "other work goes on");
        first.tell(plan(400));
        go_on(&first, 20);
        let looking = Until { strand: &first, cost: 450 };
        assert!(!looking.stop(), "its own plans it knows");
    }

    #[test]
    fn who_is_ahead_waits_for_what_others_still_tell() {
        let strands = Strands::new(&Patient);
        let [first, second] = [TREE, ANEW].map(|index| strands.strand(index));
        second.begin(0);
        go_on(&second, 50);
        thread::scope(|scope| {
            let learned = scope.spawn(|| second.learn(None));
            thread::sleep(LOOK * 20);
            go_on(&first, 20);
            first.tell(plan(700));
            first.tell(plan(600));
            go_on(&first, 46);
            assert_eq!(
                learned.join().expect("it learns"),
                Some(plan(600)),
                "the cheapest before 50 - 1 - 50/16 = 45.9"
            );
        });
        assert_eq!(strands.best(), Some(plan(600)));
    }

    #[test]
    fn the_finder_rests_between_jobs_and_keeps_nobody_waiting() {
        let strands = Strands::new(&Patient);
        let [first, finder] = [TREE, FINDER].map(|index| strands.strand(index));
        go_on(&first, 30);
        assert_eq!(first.learn(None), None);
        first.hand_over("dive");
        first.hand_over("rework");
        assert_eq!((finder.next(), finder.now()), (Some("dive"), 30 * MILLISECOND));
        go_on(&finder, 33);
        assert_eq!(finder.newer(), None, "handed over at 30, which is not before 33 - 1 - 33/16 = 29.9");
        go_on(&finder, 34);
        go_on(&first, 31);
        assert_eq!(finder.newer(), Some("rework"));
        first.end();
        assert_eq!((finder.next(), finder.now()), (None, AT_REST));
    }

    #[test]
    fn where_the_tree_ends_all_end() {
        let strands: Strands<&str> = Strands::new(&Patient);
        let [tree, finder, anew] = [TREE, FINDER, ANEW].map(|index| strands.strand(index));
        anew.begin(0);
        go_on(&tree, 40);
        tree.tell(plan(500));
        go_on(&anew, 20);
        anew.tell(plan(450));
        go_on(&anew, 37);
        anew.tell(plan(430));
        assert_eq!(tree.learn(Some(500)), Some(plan(450)), "the cheapest before 40 - 1 - 40/16 = 36.5");
        assert!(!anew.stop());
        tree.end();
        assert!(anew.stop());
        assert_eq!(finder.next(), None, "no work will come");
        anew.tell(plan(400));
        go_on(&anew, 50);
        anew.tell(plan(300));
        let told = [(20 * MILLISECOND, ANEW, 450), (40 * MILLISECOND, TREE, 500)];
        assert_eq!(strands.told(), told, "what came later did not matter");
    }

    #[test]
    fn where_one_breaks_down_nobody_waits_for_it() {
        let strands: Strands<&str> = Strands::new(&Patient);
        let [first, second] = [TREE, ANEW].map(|index| strands.strand(index));
        second.begin(0);
        go_on(&first, 50);
        let broken = thread::scope(|scope| {
            let thread = scope.spawn(|| {
                let _guard = second.guard();
                assert_eq!(second.now(), 1, "it breaks down, as it is meant to");
            });
            thread.join()
        });
        assert!(broken.is_err());
        assert_eq!(first.learn(None), None);
        assert!(first.stop());
    }
}
