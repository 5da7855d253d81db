//! The time that a case takes: what the processor spends on it where the system tells, so that other work on the
//! machine does not count, else what passes on the wall.

use std::fs::read_to_string;
use std::time::Instant;
use yardslip::solve::{Progress, Watch};

/// Below this the wall's clock is the better one, since the system counts the processor's time in hundredths.
const SHORT: f64 = 0.03;

/// A clock that stops the solver after so many seconds.
pub(crate) struct Clock {
    wall: Instant,
    processor: Option<f64>,
    limit: f64,
}

impl Clock {
    pub(crate) fn new(limit: f64) -> Clock {
        Clock { wall: Instant::now(), processor: processor(), limit }
    }
}

impl Watch for Clock {
    fn stop(&self) -> bool {
        self.seconds() > self.limit
    }
    fn seconds(&self) -> f64 {
        let wall = self.wall.elapsed().as_secs_f64();
        match self.processor.filter(|_| wall > SHORT).zip(processor()) {
            Some((start, now)) => (now - start).clamp(SHORT / 3.0, wall),
            None => wall,
        }
    }
    fn allowed(&self) -> f64 {
        self.limit
    }
    fn report(&self, _: Progress) {}
}

/// Seconds that the processor has spent on all threads of this program, where the system tells.
fn processor() -> Option<f64> {
    let told = read_to_string("/proc/self/stat").ok()?;
    // After the program's name in parentheses the twelfth and thirteenth numbers: time of its own and of the system for
    // it, in hundredths of a second.
    let numbers = told.rsplit_once(')')?.1.split_whitespace();
    let both: Vec<f64> = numbers.skip(11).take(2).filter_map(|number| number.parse().ok()).collect();
    Some(both.iter().sum::<f64>() / 100.0)
}
