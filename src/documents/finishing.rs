//! The finishing sheet: fill, sand, seal, step by step, with times and grits of common practice where the job does not
//! give its own, and the cautions where the work happens.

use super::blocks::{Column, Paper, Table};
use super::{assumptions, cautions, week, wording};
use crate::data::Job;
use crate::data::week::Step;
use crate::plan::{Note, Plan, Stage};

/// Usual grits where the job gives none: 120, 180, then 220 (common practice), as `[finish]` assumes.
const GRITS: [u32; 3] = [120, 180, 220];

/// The finishing sheet; what the job does not ask for is left out.
pub fn paper(job: &Job, plan: &Plan) -> Paper {
    let mut paper = Paper::new("finishing", "Finishing");
    let fills = job.week.finish.as_ref().is_none_or(|finish| finish.flaws > 0);
    let coats = job.week.finish.as_ref().map_or(2, |finish| finish.coats);
    paper.list(false, notes(plan));
    if fills {
        paper.heading("Fill");
        paper.list(true, fill(job));
    }
    paper.heading("Sand");
    paper.list(true, sand(job));
    paper.caution(cautions::dust());
    if coats > 0 {
        paper.heading("Seal");
        paper.list(true, seal(job, coats));
        paper.caution(cautions::finish());
    }
    paper.heading("Tick off");
    let steps = [("filled", fills), ("sanded", true), ("sealed", coats > 0)];
    paper.table(panels(plan, steps.into_iter().filter(|step| step.1).map(|step| step.0)));
    paper.text(
        "Times and grits without a source of their own are common practice; the maker's sheet of what is used holds.",
    );
    assumptions::add(&mut paper, plan, &["finish"]);
    paper
}

fn notes(plan: &Plan) -> Vec<String> {
    let bench = |note: &&Note| note.stage == Stage::Bench;
    plan.notes.iter().filter(bench).map(|note| note.text.clone()).collect()
}

/// How long a step waits in the job's calendar, in words; `None` where there is no calendar or no wait in it.
fn wait(job: &Job, step: Step) -> Option<String> {
    let minutes = job.week.calendar.as_ref()?.times.get(&step)?.wait;
    (minutes > 0).then(|| week::duration(minutes.into()))
}

fn fill(job: &Job) -> Vec<String> {
    let dry = match wait(job, Step::Fill) {
        Some(wait) => format!("Let fills dry {wait}, as the calendar reckons."),
        None => "Thin fills dry in 1 to 2 hours.".into(),
    };
    vec![
        "Choose the better face of each panel; mark the back.".into(),
        "Fill flaws, knots and open edges with interior spackle; what is left will print through.".into(),
        format!("{dry} Deep ones go in layers of at most 1/4 in. (6 mm) and dry overnight."),
    ]
}

fn sand(job: &Job) -> Vec<String> {
    let grits = job.week.finish.as_ref().map_or(GRITS.to_vec(), |finish| finish.grits.clone());
    let grits: Vec<String> = grits.iter().map(u32::to_string).collect();
    vec![
        format!("By hand, on a flat block: grit {}.", grits.join(", then ")),
        "The face veneer is thin, often under 0.6 mm: stop when the fill is flush, before the glue line shows.".into(),
        "Ease all edges and corners with the last grit; keep faces flat to the edge.".into(),
        "Vacuum, then wipe with a damp cloth.".into(),
    ]
}

fn seal(job: &Job, coats: u32) -> Vec<String> {
    let finish = job.week.finish.as_ref();
    let both = finish.is_none_or(|finish| finish.both_faces);
    let faces = if both { "both faces" } else { "the face" };
    let edges = if finish.is_none_or(|finish| finish.edges) { " and the edges" } else { "" };
    let mut steps = vec![format!("First coat of waterborne varnish or sealer, thin: {faces}{edges}.")];
    if both {
        steps.push(
            "Give both faces the same coats: a panel sealed on one side takes up moisture on the other and cups."
                .into(),
        );
    }
    if coats > 1 {
        steps.push(match wait(job, Step::Seal) {
            Some(wait) => format!("Let it dry {wait}, as the calendar reckons (the maker's sheet holds)."),
            None => "Let it dry about 2 hours (the maker's sheet holds).".into(),
        });
        let last = finish.and_then(|finish| finish.grits.last().copied()).unwrap_or(220);
        steps.push(format!("Sand lightly with grit {last}, wipe the dust off."));
        steps.push(format!("Then {} the same way.", wording::counted(coats - 1, "more coat")));
    }
    let last = if coats > 1 { Step::Coat } else { Step::Seal };
    steps.push(match wait(job, last) {
        Some(wait) => format!("Let the last coat dry {wait}, as the calendar reckons, standing free, not stacked."),
        None => "Let it dry overnight standing free, not stacked.".into(),
    });
    steps
}

fn panels(plan: &Plan, steps: impl Iterator<Item = &'static str>) -> Table {
    let columns = [Column::left("panel").bold(), Column::left("size"), Column::right("how many")];
    let steps: Vec<Column> = steps.map(|step| Column::left(step).big()).collect();
    let many = steps.len();
    let mut table = Table::new(columns.into_iter().chain(steps));
    for line in &plan.panels {
        let count = (line.count + line.extras).to_string();
        let boxes = std::iter::repeat_n("\u{25a1}".to_string(), many);
        table.row([wording::called(plan, line), wording::cut_size(plan, line), count].into_iter().chain(boxes));
    }
    table
}
