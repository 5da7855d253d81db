//! Defaults that were used, in small print at the foot of a page that is drawn by hand.

use crate::documents::font::{self, Weight};
use crate::documents::frame::{Frame, Spot};
use crate::documents::page_size::{FOOT, MARGIN, content};
use crate::plan::Plan;

const SIZE: f64 = 2.4;
/// Room for the page's number on one side and the date on the other.
const BESIDE: f64 = 28.0;

/// Writes the defaults of one section of the job file between date and page number.
pub(super) fn add(page: &mut Frame, plan: &Plan, section: &str) {
    let mut told: Vec<(String, &str)> = Vec::new();
    for assumption in &plan.assumptions {
        let Some(key) = assumption.key.strip_prefix(section).and_then(|key| key.strip_prefix('.')) else { continue };
        let value = format!("{key} {}", assumption.value);
        match told.last_mut() {
            Some((values, origin)) if *origin == assumption.origin => *values = format!("{values}, {value}"),
            _ => told.push((value, &assumption.origin)),
        }
    }
    let told: Vec<String> = told.iter().map(|(values, origin)| format!("{values} ({origin})")).collect();
    if told.is_empty() {
        return;
    }
    let text = format!("Assumed, since the job file does not say: {}.", told.join("; "));
    let field = content(page);
    let mut base = page.height - MARGIN - FOOT + SIZE;
    for line in font::wrap(&text, field.width - 2.0 * BESIDE, SIZE, Weight::Regular) {
        page.write(Spot::new(field.x + BESIDE, base), line, SIZE, Weight::Regular);
        base += SIZE * 1.2;
    }
}
