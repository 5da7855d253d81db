//! `yardslip check`: reads a job, reports every fault, or what the job asks for and which defaults it leans on.

use super::arguments::Check;
use super::failure::Failure;
use super::source;
use super::terminal::print;
use std::fmt::Write;
use yardslip::data::{Grain, Job, Panel, Sheet};
use yardslip::model;

/// Reads the job and reports on it; writes nothing.
pub(super) fn run(request: &Check) -> Result<(), Failure> {
    let job = source::read_job(&request.job, None)?;
    model::build(&job).map_err(|faults| source::located(&request.job, faults))?;
    print(&report(&job))
}

fn report(job: &Job) -> String {
    let wanted: u64 = job.panels.iter().map(|panel| u64::from(panel.count)).sum();
    let (panels, sizes) = (counted(wanted, "panel"), counted(job.panels.len() as u64, "size"));
    let mut text = format!("{}: {panels} in {sizes}, no fault found\n", job.title);
    text += "\npanels\n";
    text.extend(job.panels.iter().map(|panel| panel_line(job, panel)));
    text += "\nsheets\n";
    text.extend(job.sheets.iter().map(|sheet| sheet_line(job, sheet)));
    if !job.assumptions.is_empty() {
        text += "\nassumed, because the job file is silent\n";
    }
    for assumed in &job.assumptions {
        let _ = writeln!(text, "  {} = {}: {}", assumed.key, assumed.value, assumed.origin);
    }
    text
}

fn panel_line(job: &Job, panel: &Panel) -> String {
    let size = format!("{} x {}", panel.width.show(job.units), panel.height.show(job.units));
    let name = if panel.name == size { String::new() } else { format!("  {}", panel.name) };
    let extra = if panel.extra > 0 { format!(", up to {} more", panel.extra) } else { String::new() };
    let scant = if panel.scant.is_zero() { String::new() } else { format!(", scant {}", panel.scant.show(job.units)) };
    let grain = match panel.grain {
        Grain::Any => "",
        Grain::Upright => ", grain upright",
        Grain::Level => ", grain level",
    };
    let kinds: Vec<&str> = panel.sheets.iter().map(|sheet| job.sheets[*sheet].name.as_str()).collect();
    let only = if kinds.is_empty() { String::new() } else { format!(", from {} only", kinds.join(" or ")) };
    format!("  {:>4}  {size}{name}{scant}{grain}{only}{extra}\n", panel.count)
}

fn sheet_line(job: &Job, sheet: &Sheet) -> String {
    let stock = sheet.stock.map_or(String::new(), |stock| format!(", {stock} to be had"));
    let (length, width) = (sheet.length.show(job.units), sheet.width.show(job.units));
    format!(
        "  {}: {length} along the grain x {width}, {} each{stock}\n",
        sheet.name,
        sheet.price.in_currency(&job.currency)
    )
}

/// `1 panel`, `2 panels`
fn counted(count: u64, noun: &str) -> String {
    format!("{count} {noun}{}", if count == 1 { "" } else { "s" })
}
