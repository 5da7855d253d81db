//! A moment to solve a job in: what comes of it unproved counts as much in these tests as what is proved.

use std::time::Instant;
use yardslip::solve::{Progress, Watch};

/// So many seconds from now.
pub(crate) struct Moment {
    start: Instant,
    seconds: f64,
}

impl Moment {
    pub(crate) fn of(seconds: f64) -> Moment {
        Moment { start: Instant::now(), seconds }
    }
}

impl Watch for Moment {
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
