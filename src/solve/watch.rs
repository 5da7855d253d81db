//! How the outside world watches and stops a solve. The solver itself has no clock and prints nothing.

use crate::data::Cents;

/// A picture of the work so far, for whoever watches.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Progress {
    /// What is being done, in a few shop words.
    pub doing: &'static str,
    /// Cost of the best plan so far.
    pub best: Option<Cents>,
    /// No plan can cost less than this.
    pub bound: Option<Cents>,
}

/// What the solver may ask and tell while it works, from all the threads that it works on.
pub trait Watch: Sync {
    /// True once the solver should stop and hand over the best plan it has (time is up, or the user asked).
    fn stop(&self) -> bool;
    /// Seconds since the work began, to share the time out among its parts; tests may stand still at 0.
    fn seconds(&self) -> f64;
    /// Seconds the whole may take.
    fn allowed(&self) -> f64;
    /// Called after work of about so many nanoseconds, as told by what was done and not by any clock; for whoever has
    /// several things go on beside each other.
    fn worked(&self, _work: u64) {}
    /// Called now and then.
    fn report(&self, progress: Progress);
}

/// Never stops and hears nothing; for tests and examples that have all the time in the world.
#[derive(Clone, Copy, Debug, Default)]
pub struct Patient;

impl Watch for Patient {
    fn stop(&self) -> bool {
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
