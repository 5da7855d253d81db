//! The time that a case takes: what the processor spends on it where the system tells, so that other work on the machine
//! does not count, else what passes on the wall.

use std::time::Instant;
use yardslip::solve::{Progress, Watch};

/// A clock that stops the solver after so many seconds.
pub(crate) struct Clock {
    start: Time,
    limit: f64,
}

/// A moment, in seconds of the processor or on the wall.
enum Time {
    Processor(f64),
    Wall(Instant),
}

impl Clock {
    /// A clock for one thread, which is what our solver uses.
    pub(crate) fn new(limit: f64) -> Clock {
        let start = processor().map_or_else(|| Time::Wall(Instant::now()), Time::Processor);
        Clock { start, limit }
    }
}

impl Watch for Clock {
    fn stop(&self) -> bool {
        self.seconds() > self.limit
    }
    fn seconds(&self) -> f64 {
        match self.start {
            Time::Processor(start) => processor().unwrap_or(start) - start,
            Time::Wall(start) => start.elapsed().as_secs_f64(),
        }
    }
    fn allowed(&self) -> f64 {
        self.limit
    }
    fn report(&self, _: Progress) {}
}

/// Seconds that the processor has spent on this program's main thread, where the system tells.
fn processor() -> Option<f64> {
    let told = std::fs::read_to_string("/proc/self/schedstat").ok()?;
    let nanoseconds: f64 = told.split_whitespace().next()?.parse().ok()?;
    Some(nanoseconds / 1e9)
}
