//! The steps that the job asks for and their batches: every panel goes through each step once, in the order of the
//! work, no more at a time than bench or press hold.

use super::super::Rule;
use super::super::findings::Findings;
use super::made::Made;
use crate::data::Job;
use crate::data::week::{Calendar, Step};
use crate::plan::Plan;
use crate::plan::week::{Row, WeekPlan};

/// The steps in the order of the work.
pub(super) fn steps(job: &Job, plan: &Plan, made: &[Made]) -> Vec<Step> {
    let week = &job.week;
    let mut steps = Vec::new();
    if let Some(finish) = &week.finish {
        steps.extend((finish.flaws > 0).then_some(Step::Fill));
        steps.push(Step::Sand);
        steps.extend((0..finish.coats).map(|coat| if coat == 0 { Step::Seal } else { Step::Coat }));
    }
    if glued(plan, made) > 0 {
        steps.extend([Step::Glue, Step::Trim]);
    }
    steps.extend(week.labels.is_some().then_some(Step::Label));
    steps.extend(week.pack.is_some().then_some(Step::Pack));
    steps
}

/// Panels that are glued: those under the press, or without one all that get canvas.
fn glued(plan: &Plan, made: &[Made]) -> u32 {
    match &plan.week.press {
        Some(press) => press.loads.iter().map(|load| load.panels).sum(),
        None => made.iter().filter(|line| line.canvas.is_some()).map(|line| line.count).sum(),
    }
}

/// Checks how many panels each batch of each step has.
pub(super) fn check(plan: &Plan, calendar: &Calendar, week: &WeekPlan, made: &[Made], found: &mut Findings) {
    let all: u32 = made.iter().map(|line| line.count).sum();
    for (at, step) in week.steps.iter().enumerate() {
        let place = format!("calendar, {step:?}");
        let rows: Vec<&Row> = week.rows.iter().filter(|row| row.step == at).collect();
        let batches: Vec<u32> = rows.iter().map(|row| row.panels).collect();
        let of_canvas = matches!(step, Step::Glue | Step::Trim);
        let wanted = if of_canvas { glued(plan, made) } else { all };
        found.equal(Rule::Count, &place, "panels in all batches", batches.iter().sum(), wanted);
        let numbered = rows.iter().map(|row| (row.batch as usize, row.batches as usize));
        let numbered = numbered.eq((1..=rows.len()).map(|number| (number, rows.len())));
        found.hold(Rule::Calendar, numbered, &place, || "its batches are numbered wrongly".into());
        let held = match (step, &plan.week.press) {
            (Step::Label | Step::Pack, _) => batches.len() == 1,
            (Step::Glue | Step::Trim, Some(press)) => {
                batches.iter().copied().eq(press.loads.iter().map(|load| load.panels))
            }
            _ => batches.iter().all(|panels| (1..=calendar.bench).contains(panels)),
        };
        found.hold(Rule::Calendar, held, &place, || format!("batches of {batches:?} are not those of bench or press"));
    }
}
