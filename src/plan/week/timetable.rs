//! Batches through the steps with one pair of hands, one bench and one press: forward from a start, or as late as a
//! deadline allows. Hands work only in working hours, drying and pressing run on.

use super::clock::{Clock, Minute};
use super::work::{Place, Work};

/// Before anything; minutes before the base day are negative.
const LONG_AGO: Minute = Minute::MIN;

/// One batch at one step.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Task {
    /// Index into the works.
    pub work: usize,
    /// Which batch of that step, from 1.
    pub batch: u32,
    /// Panels in it.
    pub panels: u32,
    /// Hands begin.
    pub begin: Minute,
    /// Hands are free again.
    pub free: Minute,
    /// Dry, pressed or done.
    pub ready: Minute,
}

/// Runs all works forward: the batch that can begin first is next; of several, the one furthest on.
pub fn run(works: &[Work], clock: &Clock, start: Minute) -> Vec<Task> {
    let mut state = State::new(works, clock);
    let mut hands = start;
    while let Some(task) = state.next(hands) {
        hands = task.free;
        state.put(task);
    }
    state.tasks
}

struct State<'a> {
    works: &'a [Work],
    clock: &'a Clock,
    tasks: Vec<Task>,
    /// For each work, how many panels its batches up to each one hold together.
    held: Vec<Vec<u32>>,
    /// For each work, when each batch so far is ready; never earlier than the one before.
    ready: Vec<Vec<Minute>>,
    /// When bench and press are free.
    bench: Minute,
    press: Minute,
}

impl<'a> State<'a> {
    fn new(works: &'a [Work], clock: &'a Clock) -> Self {
        let sums = |work: &Work| {
            let sum = |sum: &mut u32, panels: &u32| {
                *sum += panels;
                Some(*sum)
            };
            work.batches.iter().scan(0, sum).collect()
        };
        let (held, ready) = (works.iter().map(sums).collect(), vec![Vec::new(); works.len()]);
        State { works, clock, tasks: Vec::new(), held, ready, bench: LONG_AGO, press: LONG_AGO }
    }

    fn next(&self, hands: Minute) -> Option<Task> {
        let open = (0..self.works.len()).filter_map(|work| self.task(work, hands));
        open.min_by_key(|task| (task.begin, std::cmp::Reverse(task.work)))
    }

    fn put(&mut self, task: Task) {
        match self.works[task.work].place {
            Place::Hands => {}
            Place::Bench => self.bench = self.bench.max(task.ready),
            Place::Press => self.press = self.press.max(task.ready),
        }
        self.ready[task.work].push(task.ready);
        self.tasks.push(task);
    }

    /// The next batch of a work, if all it waits for is planned.
    fn task(&self, work: usize, hands: Minute) -> Option<Task> {
        let batch = self.ready[work].len();
        let panels = *self.works[work].batches.get(batch)?;
        let to = self.held[work][batch];
        let place = match self.works[work].place {
            Place::Hands => LONG_AGO,
            Place::Bench => self.bench,
            Place::Press => self.press,
        };
        let mut after = hands.max(place);
        for before in 0..work {
            after = after.max(self.ready(before, to - panels, to)?);
        }
        let minutes = self.works[work].minutes(panels);
        let (begin, free) = self.clock.hands_on(after, minutes);
        let ready = free + Minute::from(self.works[work].wait);
        Some(Task { work, batch: u32::try_from(batch).ok()? + 1, panels, begin, free, ready })
    }

    /// When an earlier work is ready with all of the panels `from..to` that it handles: its last batch of them is.
    fn ready(&self, before: usize, from: u32, to: u32) -> Option<Minute> {
        let held = &self.held[before];
        if held.last().is_none_or(|all| *all <= from) {
            return Some(LONG_AGO);
        }
        let last = held.partition_point(|sum| *sum < to).min(held.len() - 1);
        self.ready[before].get(last).copied()
    }
}

/// When the last task is ready; `start` where there is none.
pub fn finish(tasks: &[Task], start: Minute) -> Minute {
    tasks.iter().map(|task| task.ready).max().unwrap_or(start)
}

const DAY: Minute = 24 * 60;

/// How far before a deadline a start is looked for: a year.
pub const LOOKED_BACK: Minute = 366 * DAY;

/// The latest start, to the quarter hour, that still ends by the deadline, looking back at most a year.
pub fn latest_start(works: &[Work], clock: &Clock, deadline: Minute) -> Option<Minute> {
    let in_time = |start: &Minute| finish(&run(works, clock, *start), *start) <= deadline;
    let work: Minute = works.iter().flat_map(|work| work.batches.iter().map(|panels| work.minutes(*panels))).sum();
    let last_day = deadline.div_euclid(DAY);
    // A day that leaves the hands too few working hours until the deadline need not be tried.
    let days = (0..=LOOKED_BACK / DAY).map(|back| (last_day - back) * DAY);
    let day = days.skip_while(|day| clock.worked_between(*day, deadline) < work).find(in_time)?;
    (0..96).rev().map(|quarter| day + quarter * 15).find(|start| clock.works_at(*start) && in_time(start)).or(Some(day))
}
