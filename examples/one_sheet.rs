//! How many 12 x 16 panels come out of one 4 x 8 ft sheet? Asks the library for more and more of them, at nominal size
//! and 1/8 in. scant, until a second sheet is needed.
//!
//!     cargo run --example one_sheet

use yardslip::data::{File, Job, Source, read};
use yardslip::solve::{Patient, solve};

/// A job for so many panels that may come out so much under size.
fn job(count: u32, scant: &str) -> Job {
    let text = format!(
        "[[sheet]]\nname = \"birch\"\nlength = 96\nwidth = 48\nprice = 38.50\n\
         [[panel]]\nsize = \"12 x 16\"\ncount = {count}\nscant = {scant:?}\n[saw]\nsquaring = 0\n"
    );
    read(&Source { job: File::of("one sheet", text), list: None, rack: None }).expect("the job is sound")
}

/// Sheets that a proved plan buys.
fn sheets(job: &Job) -> u32 {
    let solved = solve(job, &Patient).expect("sheets are not limited");
    assert!(solved.proof.proved, "the plan is not proved");
    solved.sheets.iter().map(|sheet| sheet.count).sum()
}

fn main() {
    for scant in ["0", "1/8"] {
        let most = (1..1000).take_while(|count| sheets(&job(*count, scant)) == 1).last().unwrap_or_default();
        println!("up to {scant} in. under size: {most} panels from one sheet, and proved not {}", most + 1);
    }
}
