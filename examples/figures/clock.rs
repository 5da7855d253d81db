//! The time that a case takes: what the processor spends on it where the system tells, so that other work on the
//! machine does not count, else what passes on the wall.

use cpu_time::ProcessTime;
use std::time::Instant;
use yardslip::solve::{Progress, Watch};

/// A clock that stops the solver after so many seconds.
pub(crate) struct Clock {
    wall: Instant,
    processor: Option<ProcessTime>,
    limit: f64,
}

impl Clock {
    pub(crate) fn new(limit: f64) -> Clock {
        Clock { wall: Instant::now(), processor: ProcessTime::try_now().ok(), limit }
    }
}

impl Watch for Clock {
    fn stop(&self) -> bool {
        self.seconds() > self.limit
    }
    fn seconds(&self) -> f64 {
        let spent = self.processor.and_then(|start| start.try_elapsed().ok());
        spent.unwrap_or_else(|| self.wall.elapsed()).as_secs_f64()
    }
    fn allowed(&self) -> f64 {
        self.limit
    }
    fn report(&self, _: Progress) {}
}
