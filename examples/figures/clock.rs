//! The time that a case takes: what passes on the wall, and what the processor spends on it on all its cores together,
//! in which other work on the machine does not count.

use cpu_time::ProcessTime;
use std::time::Instant;
use yardslip::solve::{Progress, Watch};

/// A clock that stops the solver after so many seconds.
pub(crate) struct Clock {
    wall: Instant,
    processor: Option<ProcessTime>,
    limit: f64,
}

/// Seconds that something took.
#[derive(Clone, Copy)]
pub(crate) struct Took {
    pub(crate) wall: f64,
    /// On all cores together; 0 where the system does not tell.
    pub(crate) processor: f64,
}

impl Clock {
    pub(crate) fn new(limit: f64) -> Clock {
        Clock { wall: Instant::now(), processor: ProcessTime::try_now().ok(), limit }
    }

    /// What it took until now.
    pub(crate) fn took(&self) -> Took {
        let processor = self.processor.and_then(|start| start.try_elapsed().ok());
        Took { wall: self.seconds(), processor: processor.unwrap_or_default().as_secs_f64() }
    }
}

impl Watch for Clock {
    fn stop(&self) -> bool {
        self.seconds() > self.limit
    }
    fn seconds(&self) -> f64 {
        self.wall.elapsed().as_secs_f64()
    }
    fn allowed(&self) -> f64 {
        self.limit
    }
    fn report(&self, _: Progress) {}
}
