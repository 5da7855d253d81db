//! Back labels: one for every panel made, in the order of the lines, and how many go on a page.

use super::lots::Lot;
use crate::data::Job;
use crate::data::week::{Labels, Word};
use crate::length::Length;
use crate::plan::Plan;

/// All labels, ready to be set out on pages.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct LabelSet {
    /// Width of one label.
    pub width: Length,
    /// Its height.
    pub height: Length,
    /// The lines of each label.
    pub texts: Vec<Vec<String>>,
}

/// How labels lie on a page: edge to edge, so that one cut parts two of them.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct LabelGrid {
    /// Labels side by side.
    pub columns: u32,
    /// Labels below each other.
    pub rows: u32,
}

/// Writes the labels of all lots.
pub fn label_set(job: &Job, plan: &Plan, lots: &[Lot], labels: &Labels) -> LabelSet {
    let each = lots.iter().flat_map(|lot| std::iter::repeat_n(lot, lot.count as usize));
    let texts = each.enumerate().map(|(index, lot)| {
        let lines = labels.lines.iter().map(|line| {
            let words = line.0.iter().map(|word| fill_in(word, job, plan, lot, labels, index + 1));
            words.collect::<String>()
        });
        lines.filter(|line| !line.trim().is_empty()).collect()
    });
    LabelSet { width: labels.width, height: labels.height, texts: texts.collect() }
}

fn fill_in(word: &Word, job: &Job, plan: &Plan, lot: &Lot, labels: &Labels, number: usize) -> String {
    let line = &plan.panels[lot.panel];
    match word {
        Word::Own(text) => text.clone(),
        Word::Title => job.title.clone(),
        Word::Size => {
            format!("{} x {} {}", line.width.show(job.units), line.height.show(job.units), job.units.sign())
        }
        Word::Name => lot.name.clone(),
        Word::Materials => labels.materials.clone(),
        Word::Date => labels.date.clone(),
        Word::Batch => labels.batch.clone(),
        Word::Number => number.to_string(),
    }
}

/// The grid of labels on the printed part of a page; `None` where not even one fits.
pub fn label_grid(room_width: Length, room_height: Length, width: Length, height: Length) -> Option<LabelGrid> {
    let fit = |room: Length, side: Length| u32::try_from(room.times(side)).ok().filter(|n| *n > 0);
    Some(LabelGrid { columns: fit(room_width, width)?, rows: fit(room_height, height)? })
}
