//! The clock, the time limit and the progress line while a plan is being searched for. The line stands on standard
//! error, only on a terminal, and only when the work takes more than a moment.

use super::interrupt;
use indicatif::{ProgressBar, ProgressDrawTarget, ProgressStyle};
use std::sync::OnceLock;
use std::time::{Duration, Instant};
use yardslip::data::Cents;
use yardslip::solve::{Progress, Watch};

/// Work shorter than this shows no progress.
const MOMENT: Duration = Duration::from_millis(500);

/// Watches one search.
#[derive(Debug)]
pub(super) struct Clock {
    began: Instant,
    allowed: f64,
    currency: String,
    line: OnceLock<ProgressBar>,
    quiet: bool,
}

impl Clock {
    /// Starts the clock; `allowed` in seconds.
    pub(super) fn start(allowed: f64, currency: &str, quiet: bool) -> Self {
        Clock { began: Instant::now(), allowed, currency: currency.to_owned(), line: OnceLock::new(), quiet }
    }

    /// Whether a search that did not get to its end might have got further with more time.
    pub(super) fn was_short(&self) -> bool {
        self.seconds() > self.allowed / 2.0
    }

    /// Takes the progress line away.
    pub(super) fn finish(&self) {
        if let Some(line) = self.line.get() {
            line.finish_and_clear();
        }
    }

    fn show(&self, progress: Progress) {
        if !self.quiet && self.began.elapsed() >= MOMENT {
            self.line.get_or_init(|| line(self.began.elapsed())).set_message(words(progress, &self.currency));
        }
    }
}

impl Watch for Clock {
    fn stop(&self) -> bool {
        interrupt::asked() || self.seconds() >= self.allowed
    }
    fn seconds(&self) -> f64 {
        self.began.elapsed().as_secs_f64()
    }
    fn allowed(&self) -> f64 {
        self.allowed
    }
    fn report(&self, progress: Progress) {
        self.show(progress);
    }
}

/// `filling the rest: best plan $192.50, none under $154.00`
fn words(progress: Progress, currency: &str) -> String {
    if progress.best.is_none() && progress.bound.is_none() {
        return progress.doing.into();
    }
    let money = |cents: Cents| cents.in_currency(currency);
    let best = progress.best.map_or("no plan yet".into(), |cost| format!("best plan {}", money(cost)));
    let bound = progress.bound.map_or(String::new(), |cost| format!(", none under {}", money(cost)));
    format!("{}: {best}{bound}", progress.doing)
}

/// A line whose seconds go on between reports; the terminal crate draws nothing where standard error is no terminal.
fn line(elapsed: Duration) -> ProgressBar {
    let line = ProgressBar::with_draw_target(None, ProgressDrawTarget::stderr()).with_elapsed(elapsed);
    line.set_style(ProgressStyle::with_template("{spinner} {elapsed} {msg}").expect("the template is fixed and valid"));
    line.enable_steady_tick(MOMENT / 5);
    line
}
