//! Faults are data: a form or an editor can show each one where it belongs.
//!
//!     cargo run --example faults_as_data

use yardslip::data::{File, Source, read};

const JOB: &str = r#"
[[sheet]]
name = "birch plywood 1/4"
length = 96
width = 48
price = 38.50

[[panel]]
size = "12 x 160"
count = 24

[yard]
kerff = "1/8"
"#;

fn main() {
    let source = Source { job: File::of("harbour.toml", JOB), list: None, rack: None };
    let faults = read(&source).expect_err("the job has two faults");
    for fault in faults {
        println!("line {:>2} {:<12} {}", fault.place.line, fault.place.key, fault.cause);
        println!("        try          {}", fault.remedy);
    }
}
