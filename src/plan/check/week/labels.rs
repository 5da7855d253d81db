//! Labels: one for every panel, in the order of the lines, as large as the job says, with the lines it asks for.

use super::super::Rule;
use super::super::findings::Findings;
use super::made::Made;
use crate::data::Job;
use crate::data::week::{LabelLine, Labels, Word};
use crate::plan::{PanelLine, Plan};

/// Checks the labels, if there are any.
pub(super) fn check(job: &Job, plan: &Plan, made: &[Made], found: &mut Findings) {
    const PLACE: &str = "labels";
    let Some((labels, set)) = job.week.labels.as_ref().zip(plan.week.labels.as_ref()) else { return };
    found.same(Rule::Label, PLACE, "their width", set.width, labels.width);
    found.same(Rule::Label, PLACE, "their height", set.height, labels.height);
    let wanted: u64 = made.iter().map(|line| u64::from(line.count)).sum();
    found.equal(Rule::Count, PLACE, "how many there are", set.texts.len() as u64, wanted);
    let mut texts = set.texts.iter();
    let mut number = 0;
    for line in &plan.panels {
        for text in texts.by_ref().take((line.count + line.extras) as usize) {
            number += 1;
            let said = lines(job, labels, line, number);
            found.hold(Rule::Label, *text == said, PLACE, || {
                format!("label {number} should say {said:?}, not {text:?}")
            });
        }
    }
}

fn lines(job: &Job, labels: &Labels, line: &PanelLine, number: u64) -> Vec<String> {
    let said = |text: &LabelLine| text.0.iter().map(|word| says(job, labels, line, number, word)).collect::<String>();
    labels.lines.iter().map(said).filter(|text| !text.trim().is_empty()).collect()
}

fn says(job: &Job, labels: &Labels, line: &PanelLine, number: u64, word: &Word) -> String {
    let units = job.units;
    match word {
        Word::Own(own) => own.clone(),
        Word::Title => job.title.clone(),
        Word::Size => format!("{} x {}", line.width.show(units), line.height.say(units)),
        Word::Name => line.name.clone(),
        Word::Materials => labels.materials.clone(),
        Word::Date => labels.date.clone(),
        Word::Batch => labels.batch.clone(),
        Word::Number => number.to_string(),
    }
}
