//! The solver's figures on problems with known answers and on made-up batches:
//! `cargo run --release --example figures -- [PARTS OF NAMES] [--seconds MOST]`. With `--features highs` and
//! `--beside`, the same cases side by side with a general-purpose solver on the textbook's integer program.

mod cases;
mod clock;
mod growth;
#[path = "../../tests/instances/mod.rs"]
mod instances;
mod row;
mod summary;

#[cfg(feature = "highs")]
mod beside;
#[cfg(feature = "highs")]
#[path = "../../tests/textbook/mod.rs"]
mod textbook;

use row::Row;

/// What was asked for on the command line.
struct Asked {
    /// Groups and parts of cases' names; none asks for all cases.
    parts: Vec<String>,
    /// Time for each case.
    seconds: f64,
    /// Whether the other solver is to run too.
    beside: bool,
}

fn asked() -> Result<Asked, String> {
    let mut asked = Asked { parts: Vec::new(), seconds: 10.0, beside: false };
    let mut words = std::env::args().skip(1);
    while let Some(word) = words.next() {
        if word == "--seconds" {
            let value = words.next().and_then(|text| text.parse().ok());
            asked.seconds = value.ok_or("--seconds wants a number")?;
        } else if word == "--beside" {
            asked.beside = true;
        } else {
            asked.parts.push(word);
        }
    }
    Ok(asked)
}

fn main() -> Result<(), String> {
    let asked = asked()?;
    let wanted = |case: &cases::Case| {
        let named = |part: &String| case.group == part || case.name.contains(part);
        asked.parts.is_empty() || asked.parts.iter().any(named)
    };
    let cases = cases::all().into_iter().filter(wanted);
    if asked.beside { beside(cases, asked.seconds) } else { alone(cases, asked.seconds) }
}

/// Our own figures.
fn alone(cases: impl Iterator<Item = cases::Case>, seconds: f64) -> Result<(), String> {
    row::print_head();
    let mut rows = Vec::new();
    for case in cases {
        let row = Row::of(case, seconds);
        row.print();
        rows.push(row);
    }
    let told = summary::print(&rows);
    growth::print(&rows, seconds);
    told
}

#[cfg(feature = "highs")]
fn beside(cases: impl Iterator<Item = cases::Case>, seconds: f64) -> Result<(), String> {
    beside::print(cases, seconds)
}

#[cfg(not(feature = "highs"))]
fn beside(_: impl Iterator<Item = cases::Case>, _: f64) -> Result<(), String> {
    Err("build with `--features highs` to have another solver beside ours".into())
}
