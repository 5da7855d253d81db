//! Before buying: sheets that leave no room for a short measure, and sheets that want two people.

use super::super::weigh::{say, weight};
use super::super::{Origin, Plan, SheetGroup};
use super::{capital, needs_along, strip_words};
use crate::data::{Job, KG_PER_POUND};
use crate::length::Length;
use std::collections::{BTreeMap, BTreeSet};

/// One person lifts less than this, in pounds; common practice, no source.
const LIFTED_ALONE: f64 = 50.0;

pub(super) fn notes(job: &Job, plan: &Plan) -> Vec<String> {
    let across = plan.sheets.iter().filter(|group| group.measure_first).map(|group| measure_across(job, group));
    across.chain(measure_along(job, plan)).chain(lifting(job, plan)).collect()
}

fn measure_across(job: &Job, group: &SheetGroup) -> String {
    let sheet = match group.count {
        1 => format!("sheet {}", group.number),
        count => format!("sheets {} to {}", group.number, group.number + count - 1),
    };
    let side = group.needs + group.leaves;
    format!(
        "Measure first: {sheet} must give {} of its {}; a {} sheet may measure up to {} less.",
        group.needs.say(job.units),
        side.say(job.units),
        group.kind,
        job.sheets[group.sheet].tolerance.say(job.units),
    )
}

/// Strips whose panels leave less of the sheet's length than it may fall short, together where they need the same.
fn measure_along(job: &Job, plan: &Plan) -> Vec<String> {
    let mut tight: BTreeMap<(usize, Length, Length), Vec<usize>> = BTreeMap::new();
    for (index, strip) in plan.strips.iter().enumerate() {
        let Origin::Sheet { sheet, .. } = strip.origin else { continue };
        let needs = needs_along(job, plan, index);
        if strip.length - needs < job.sheets[sheet].tolerance {
            tight.entry((sheet, strip.length, needs)).or_default().push(index);
        }
    }
    let told = tight.into_iter().map(|((_, length, needs), strips)| {
        let (length, needs) = (length.say(job.units), needs.say(job.units));
        let (need, their) = if strips.len() == 1 { ("needs", "its") } else { ("need", "their") };
        format!("Measure first: {} {need} {needs} of {their} {length} length.", strip_words(plan, &strips))
    });
    told.collect()
}

fn lifting(job: &Job, plan: &Plan) -> Vec<String> {
    let kinds: BTreeSet<usize> = plan.sheets.iter().map(|group| group.sheet).collect();
    let heavy = kinds.into_iter().filter_map(|index| {
        let sheet = &job.sheets[index];
        let weight = weight(sheet, sheet.width, sheet.length)?;
        let words = capital(&format!("a {} sheet weighs {}", sheet.name, say(weight, job.units)));
        (weight >= LIFTED_ALONE * KG_PER_POUND).then(|| format!("{words}: lift it by two (common practice)."))
    });
    heavy.collect()
}
