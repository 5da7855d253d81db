//! The time that a case may take.

use std::time::Instant;
use yardslip::solve::{Progress, Watch};

/// A clock that stops the solver after so many seconds.
pub(crate) struct Clock {
    start: Instant,
    seconds: f64,
}

impl Clock {
    pub(crate) fn new(seconds: f64) -> Clock {
        Clock { start: Instant::now(), seconds }
    }
}

impl Watch for Clock {
    fn stop(&self) -> bool {
        self.seconds() > self.seconds
    }
    fn seconds(&self) -> f64 {
        self.start.elapsed().as_secs_f64()
    }
    fn allowed(&self) -> f64 {
        self.seconds
    }
    fn report(&self, _: Progress) {}
}
