//! What the rows come to: share proved, median and worst time of each group.

use crate::row::Row;
use std::collections::BTreeMap;

/// Prints everything that can be said of all rows together.
///
/// # Errors
/// Names the cases that came out other than is known.
pub(crate) fn print(rows: &[Row]) -> Result<(), String> {
    let mut groups: BTreeMap<&str, Vec<&Row>> = BTreeMap::new();
    for row in rows {
        groups.entry(row.case.group).or_default().push(row);
    }
    println!();
    for (group, rows) in groups {
        print_group(group, &rows);
    }
    if let Some(memory) = peak_memory() {
        println!("most memory: {memory}");
    }
    let wrong: Vec<&str> = rows.iter().filter(|row| row.wrong()).map(|row| row.case.name.as_str()).collect();
    if wrong.is_empty() { Ok(()) } else { Err(format!("not what is known: {}", wrong.join(", "))) }
}

fn print_group(group: &str, rows: &[&Row]) {
    let proved = rows.iter().filter(|row| row.proved()).count();
    let figures = |seconds: fn(&Row) -> f64| {
        let seconds: Vec<f64> = rows.iter().map(|row| seconds(row)).collect();
        let [median, worst] = [median(&seconds), seconds.iter().copied().fold(0.0, f64::max)].map(|s| s * 1000.0);
        format!("median {median:>8.1} ms, worst {worst:>9.1} ms")
    };
    let [wall, processor] = [figures(|row| row.took.wall), figures(|row| row.took.processor)];
    println!("{group:12} {:>3} cases, {proved:>3} proved, {wall}; all cores: {processor}", rows.len());
}

/// The middle of these figures; 0 of none.
pub(crate) fn median(figures: &[f64]) -> f64 {
    let mut sorted = figures.to_vec();
    sorted.sort_by(f64::total_cmp);
    sorted.get(sorted.len() / 2).copied().unwrap_or_default()
}

/// The most memory that the whole run has held, where the system tells.
fn peak_memory() -> Option<String> {
    let status = std::fs::read_to_string("/proc/self/status").ok()?;
    let line = status.lines().find(|line| line.starts_with("VmHWM:"))?;
    Some(line.trim_start_matches("VmHWM:").trim().to_string())
}
