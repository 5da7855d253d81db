//! How time grows with the order: batches beside the same batches 25 times over, several times in turn, as the pace of a
//! machine changes from one second to the next.

use crate::row::Row;
use crate::summary::median;

/// How often each batch is planned, its own row among them.
const TURNS: usize = 9;

/// The times of a batch and of the same batch 25 times over, in seconds.
struct Pair {
    once: Vec<f64>,
    often: Vec<f64>,
}

/// Prints the time of the batches with 25 times the panels, beside the time of the batches themselves: the sums of the
/// medians of each. Plans them anew for that, with so much time for each.
pub(crate) fn print(rows: &[Row], seconds: f64) {
    let pairs: Vec<Pair> = rows.iter().filter_map(|row| Some(Pair::of(row, larger(rows, row)?, seconds))).collect();
    if pairs.is_empty() {
        return;
    }
    let sum = |times: fn(&Pair) -> &[f64]| pairs.iter().map(|pair| median(times(pair))).sum::<f64>();
    let [once, often] = [sum(|pair| &pair.once), sum(|pair| &pair.often)];
    println!(
        "{} batches take {:.1} ms, with 25 times the panels {:.1} ms, {:.2} times as long (medians of {TURNS} in turn)",
        pairs.len(),
        once * 1000.0,
        often * 1000.0,
        often / once
    );
}

impl Pair {
    fn of(one: &Row, other: &Row, seconds: f64) -> Pair {
        let mut pair = Pair { once: vec![one.took.wall], often: vec![other.took.wall] };
        for _ in 1..TURNS {
            pair.once.push(one.again(seconds));
            pair.often.push(other.again(seconds));
        }
        pair
    }
}

/// The row of the same batch 25 times over.
fn larger<'a>(rows: &'a [Row], row: &Row) -> Option<&'a Row> {
    let (before, after) = row.case.name.split_once(" x 1 ")?;
    let name = format!("{before} x 25 {after}");
    rows.iter().find(|row| row.case.name == name)
}
