//! A part of the time that is left, as a watch of its own.

use super::watch::{Progress, Watch};

/// A share of another watch's time, counted from where it began.
pub(crate) struct Share<'a> {
    whole: &'a dyn Watch,
    began: f64,
    seconds: f64,
}

impl<'a> Share<'a> {
    /// One of so many equal shares of the time left.
    pub(crate) fn one_of(shares: usize, whole: &'a dyn Watch) -> Self {
        let shares = f64::from(u32::try_from(shares.max(1)).expect("shares are few"));
        Share::part(1.0 / shares, whole)
    }

    /// This part, from 0 to 1, of the time left.
    pub(crate) fn part(part: f64, whole: &'a dyn Watch) -> Self {
        Share::of((whole.allowed() - whole.seconds()).max(0.0) * part, whole)
    }

    /// So many seconds, as far as the other watch allows them.
    pub(crate) fn of(seconds: f64, whole: &'a dyn Watch) -> Self {
        Share { whole, began: whole.seconds(), seconds }
    }
}

impl Watch for Share<'_> {
    fn stop(&self) -> bool {
        self.whole.stop() || self.seconds() > self.seconds
    }
    fn seconds(&self) -> f64 {
        self.whole.seconds() - self.began
    }
    fn allowed(&self) -> f64 {
        self.seconds
    }
    fn report(&self, progress: Progress) {
        self.whole.report(progress);
    }
}
