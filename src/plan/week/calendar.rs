//! The calendar of the week with its dates: every batch at every step, the finish, and where the deadline cannot be
//! met, what would help and by how much, each found by running the week again.

use super::clock::{Clock, Minute};
use super::timetable::{LOOKED_BACK, Task, finish, latest_start, run};
use super::work::{Place, Work};
use crate::data::week::{Calendar, Step};
use jiff::civil::{Date, DateTime};

/// The week in order.
#[derive(Clone, Debug, PartialEq)]
pub struct WeekPlan {
    /// Every batch at every step, in the order the hands do them.
    pub rows: Vec<Row>,
    /// Names of the steps in the order of the work, as the rows number them.
    pub steps: Vec<Step>,
    /// When the hands begin.
    pub start: DateTime,
    /// When the last step is done.
    pub finish: DateTime,
    /// By when it should be.
    pub deadline: Option<DateTime>,
    /// Minutes after the deadline; zero or less where it is met.
    pub late: i64,
    /// True where the start was chosen as late as the deadline allows.
    pub backwards: bool,
    /// The latest start that meets the deadline, where there is a deadline.
    pub latest_start: Option<DateTime>,
    /// What would help where the deadline is missed, the best first.
    pub helps: Vec<HelpRow>,
    /// Hands-on minutes in all.
    pub hands_on: i64,
    /// True where some batch takes longer than any shift and is spread over several.
    pub spread: bool,
}

/// One batch at one step.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Row {
    /// Index into [`WeekPlan::steps`].
    pub step: usize,
    /// Which batch, from 1.
    pub batch: u32,
    /// Of how many.
    pub batches: u32,
    /// Panels in it.
    pub panels: u32,
    /// Hands begin.
    pub begin: DateTime,
    /// Hands are free.
    pub free: DateTime,
    /// Dry, pressed or done.
    pub ready: DateTime,
}

/// What one could change.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Help {
    /// Beginning by the latest start.
    StartBy(DateTime),
    /// A bench for twice as many panels.
    TwiceTheBench,
    /// Room under weight for twice as many.
    TwiceThePress,
    /// Two more hours at the end of each working day.
    LongerDays,
    /// Working on all seven days.
    EveryDay,
    /// One coat of sealer less.
    OneCoatLess,
}

/// A change, and the finish it gives.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct HelpRow {
    /// The change.
    pub help: Help,
    /// When all is done then.
    pub finish: DateTime,
    /// Whether that meets the deadline.
    pub meets: bool,
}

/// Plans the week; `None` where the job names neither a start nor a deadline, or there is nothing to do.
pub fn week_plan(calendar: &Calendar, works: &[Work]) -> Option<WeekPlan> {
    let base = base(calendar)?;
    let clock = Clock::new(calendar, base);
    let deadline = calendar.deadline.map(|at| clock.minute(at));
    let latest = deadline.and_then(|deadline| latest_start(works, &clock, deadline));
    let start = calendar.start.map(|at| clock.minute(at)).or(latest).or(deadline.map(|end| end - LOOKED_BACK))?;
    let tasks = run(works, &clock, start);
    let first = tasks.first()?.begin;
    let end = finish(&tasks, start);
    let late = deadline.map_or(0, |deadline| end - deadline);
    let helps = if late > 0 { helps(works, &clock, start, deadline?, latest) } else { Vec::new() };
    Some(WeekPlan {
        rows: tasks.iter().map(|task| row(task, works, &clock)).collect(),
        steps: works.iter().map(|work| work.step).collect(),
        start: clock.at(first),
        finish: clock.at(end),
        deadline: calendar.deadline,
        late,
        backwards: calendar.start.is_none(),
        latest_start: latest.map(|minute| clock.at(minute)),
        helps,
        hands_on: tasks.iter().map(|task| works[task.work].minutes(task.panels)).sum(),
        spread: tasks.iter().any(|task| task.free - task.begin > works[task.work].minutes(task.panels)),
    })
}

fn base(calendar: &Calendar) -> Option<Date> {
    calendar.start.or(calendar.deadline).map(DateTime::date)
}

fn row(task: &Task, works: &[Work], clock: &Clock) -> Row {
    Row {
        step: task.work,
        batch: task.batch,
        batches: u32::try_from(works[task.work].batches.len()).unwrap_or(u32::MAX),
        panels: task.panels,
        begin: clock.at(task.begin),
        free: clock.at(task.free),
        ready: clock.at(task.ready),
    }
}

/// Every single change that brings the finish forward, the best first.
fn helps(works: &[Work], clock: &Clock, start: Minute, deadline: Minute, latest: Option<Minute>) -> Vec<HelpRow> {
    let now = finish(&run(works, clock, start), start);
    let mut changes: Vec<(Help, Vec<Work>, Clock)> = vec![
        (Help::TwiceTheBench, twice(works, Place::Bench), clock.clone()),
        (Help::TwiceThePress, twice(works, Place::Press), clock.clone()),
        (Help::LongerDays, works.to_vec(), clock.clone().longer(120)),
        (Help::EveryDay, works.to_vec(), clock.clone().every_day()),
    ];
    changes.extend(one_coat_less(works).map(|works| (Help::OneCoatLess, works, clock.clone())));
    let row = |(help, works, clock): (Help, Vec<Work>, Clock)| {
        let end = finish(&run(&works, &clock, start), start);
        (end < now).then(|| HelpRow { help, finish: clock.at(end), meets: end <= deadline })
    };
    let mut rows: Vec<HelpRow> = changes.into_iter().filter_map(row).collect();
    rows.sort_by_key(|row| row.finish);
    let start_by = latest.map(|latest| {
        let end = finish(&run(works, clock, latest), latest);
        HelpRow { help: Help::StartBy(clock.at(latest)), finish: clock.at(end), meets: true }
    });
    start_by.into_iter().chain(rows).collect()
}

/// The same works with batches of one place put together two by two.
fn twice(works: &[Work], place: Place) -> Vec<Work> {
    let pair = |work: &Work| {
        let mut work = work.clone();
        if work.place == place {
            work.batches = work.batches.chunks(2).map(|pair| pair.iter().sum()).collect();
        }
        work
    };
    works.iter().map(pair).collect()
}

fn one_coat_less(works: &[Work]) -> Option<Vec<Work>> {
    let coat = works.iter().rposition(|work| work.step == Step::Coat)?;
    let mut works = works.to_vec();
    works.remove(coat);
    Some(works)
}
