//! The solver's figures on problems with known answers and on made-up batches:
//! `cargo run --release --example figures -- [PART OF A NAME] [--seconds MOST]`.

mod cases;
mod clock;
#[path = "../../tests/instances/mod.rs"]
mod instances;
mod row;
mod summary;

use row::Row;

/// What was asked for on the command line.
struct Asked {
    /// Part of a group's or a case's name.
    part: String,
    /// Time for each case.
    seconds: f64,
}

fn asked() -> Result<Asked, String> {
    let mut asked = Asked { part: String::new(), seconds: 10.0 };
    let mut words = std::env::args().skip(1);
    while let Some(word) = words.next() {
        if word == "--seconds" {
            let value = words.next().and_then(|text| text.parse().ok());
            asked.seconds = value.ok_or("--seconds wants a number")?;
        } else {
            asked.part = word;
        }
    }
    Ok(asked)
}

fn main() -> Result<(), String> {
    let asked = asked()?;
    let wanted = |case: &cases::Case| case.group == asked.part || case.name.contains(&asked.part);
    row::print_head();
    let mut rows = Vec::new();
    for case in cases::all().into_iter().filter(wanted) {
        let row = Row::of(case, asked.seconds);
        row.print();
        rows.push(row);
    }
    summary::print(&rows);
    Ok(())
}
