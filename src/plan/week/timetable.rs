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
    let mut state = State { works, clock, tasks: Vec::new(), done: vec![Vec::new(); works.len()] };
    let mut hands = start;
    while let Some(task) = state.next(hands) {
        hands = task.free;
        state.done[task.work].push(state.tasks.len());
        state.tasks.push(task);
    }
    state.tasks
}

struct State<'a> {
    works: &'a [Work],
    clock: &'a Clock,
    tasks: Vec<Task>,
    /// For each work, its tasks in order.
    done: Vec<Vec<usize>>,
}

impl State<'_> {
    fn next(&self, hands: Minute) -> Option<Task> {
        let open = (0..self.works.len()).filter_map(|work| self.task(work, hands));
        open.min_by_key(|task| (task.begin, std::cmp::Reverse(task.work)))
    }

    /// The next batch of a work, if all it waits for is planned.
    fn task(&self, work: usize, hands: Minute) -> Option<Task> {
        let batch = self.done[work].len();
        let panels = *self.works[work].batches.get(batch)?;
        let first: u32 = self.works[work].batches[..batch].iter().sum();
        let mut after = hands.max(self.place_free(self.works[work].place));
        for before in 0..work {
            after = after.max(self.ready(before, first, first + panels)?);
        }
        let minutes = self.works[work].minutes(panels);
        let (begin, free) = self.clock.hands_on(after, minutes);
        let ready = free + Minute::from(self.works[work].wait);
        Some(Task { work, batch: u32::try_from(batch).ok()? + 1, panels, begin, free, ready })
    }

    /// When an earlier work is ready with all of the panels `from..to` that it handles.
    fn ready(&self, before: usize, from: u32, to: u32) -> Option<Minute> {
        let mut covered = 0;
        let mut last = LONG_AGO;
        for (batch, panels) in self.works[before].batches.iter().enumerate() {
            if covered >= to {
                break;
            }
            covered += panels;
            if covered > from {
                last = last.max(self.tasks[*self.done[before].get(batch)?].ready);
            }
        }
        Some(last)
    }

    /// When the bench or the press is free for the next batch.
    fn place_free(&self, place: Place) -> Minute {
        let there = |task: &&Task| place != Place::Hands && self.works[task.work].place == place;
        self.tasks.iter().filter(there).map(|task| task.ready).max().unwrap_or(LONG_AGO)
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
    let last_day = deadline.div_euclid(DAY);
    let day = (0..=LOOKED_BACK / DAY).map(|back| (last_day - back) * DAY).find(in_time)?;
    (0..96).rev().map(|quarter| day + quarter * 15).find(|start| clock.works_at(*start) && in_time(start)).or(Some(day))
}
