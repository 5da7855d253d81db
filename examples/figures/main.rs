//! The solver's figures on problems with known answers: `cargo run --release --example figures`.

#[path = "../../tests/instances/mod.rs"]
mod instances;

use instances::literature::{INSTANCES, VARIANTS};
use std::cell::Cell;
use std::time::Instant;
use yardslip::data::{Cents, Job};
use yardslip::solve::{Progress, Watch, solve};

/// Ten seconds for each problem.
struct Clock {
    start: Instant,
    bound: Cell<Option<Cents>>,
}

impl Watch for Clock {
    fn stop(&self) -> bool {
        self.seconds() > self.allowed()
    }
    fn seconds(&self) -> f64 {
        self.start.elapsed().as_secs_f64()
    }
    fn allowed(&self) -> f64 {
        10.0
    }
    fn report(&self, progress: Progress) {
        self.bound.set(progress.bound);
    }
}

fn line(name: &str, optimum: Option<u32>, job: &Job) {
    let clock = Clock { start: Instant::now(), bound: Cell::new(None) };
    let solved = solve(job, &clock).expect("the instance can be done");
    let sheets: u32 = solved.sheets.iter().map(|sheet| sheet.count).sum();
    let optimum = optimum.map_or("-".into(), |optimum| optimum.to_string());
    let proved = if solved.proof.proved { "proved" } else { "within" };
    let millis = clock.seconds() * 1000.0;
    println!("{name:24} {optimum:>8} {sheets:>8} {:>10} {proved:>8} {millis:>10.1} ms", solved.proof.bound.to_string());
}

fn main() {
    let only = std::env::args().nth(1).unwrap_or_default();
    println!("{:24} {:>8} {:>8} {:>10} {:>8} {:>13}", "instance", "optimum", "ours", "bound", "proof", "time");
    for instance in INSTANCES {
        for ((variant, along, trims), optimum) in VARIANTS.into_iter().zip(instance.optima) {
            let name = format!("{} {variant}", instance.name);
            if name.contains(&only) {
                line(&name, Some(optimum), &instance.job(along, trims));
            }
        }
    }
}
