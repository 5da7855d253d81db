//! Plans a job in memory and asks the plan: what the yard rips, and in which order the stop block is set.
//!
//!     cargo run --example ask_the_plan

use yardslip::data::{File, Source, read};
use yardslip::plan::{Plan, YardCut, make};
use yardslip::solve::Patient;

const JOB: &str = r#"
title = "Harbour week"
[[sheet]]
name = "birch plywood 1/4"
length = 96
width = 48
price = 38.50
[[panel]]
size = "9 x 12"
count = 12
[[panel]]
size = "8 x 10"
count = 20
"#;

fn rips(plan: &Plan) {
    for group in &plan.sheets {
        println!("{} x {}:", group.count, group.kind);
        for cut in &group.cuts {
            if let YardCut::Rip { width, left, .. } = cut {
                println!("  rip {}, which leaves {}", width.say(plan.units), left.say(plan.units));
            }
        }
    }
}

fn stops(plan: &Plan) {
    for stop in &plan.stops {
        let pieces: usize = stop.cuts.iter().map(|cut| cut.pieces.len() * cut.strips as usize).sum();
        println!("stop at {}: {pieces} panels", stop.setting.say(plan.units));
    }
}

fn main() {
    let source = Source { job: File::of("harbour.toml", JOB), list: None, rack: None };
    let job = read(&source).expect("the job is sound");
    let plan = make(&job, &Patient).expect("the job can be done");
    rips(&plan);
    stops(&plan);
}
