//! The finishing sheet: fill, sand, seal, step by step, with times and grits of common practice where the job does not
//! give its own, and the cautions where the work happens.

use super::blocks::{Column, Paper, Table};
use super::{assumptions, cautions, wording};
use crate::data::Job;
use crate::plan::{Note, Plan, Stage};

/// Usual grits where the job gives none: 120, 150, then 220 (common practice).
const GRITS: [u32; 3] = [120, 150, 220];

/// The finishing sheet.
pub fn paper(job: &Job, plan: &Plan) -> Paper {
    let mut paper = Paper::new("finishing", "Finishing");
    paper.list(false, notes(plan));
    paper.heading("Fill");
    paper.list(true, fill());
    paper.heading("Sand");
    paper.list(true, sand(job));
    paper.caution(cautions::dust());
    paper.heading("Seal");
    paper.list(true, seal(job));
    paper.caution(cautions::finish());
    paper.heading("Tick off");
    paper.table(panels(plan));
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

fn fill() -> Vec<String> {
    [
        "Choose the better face of each panel; mark the back.",
        "Fill flaws, knots and open edges with interior spackle; what is left will print through.",
        "Thin fills dry in 1 to 2 hours. Deep ones go in layers of at most 1/4 in. (6 mm) and dry overnight.",
    ]
    .map(String::from)
    .to_vec()
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

fn seal(job: &Job) -> Vec<String> {
    let finish = job.week.finish.as_ref();
    let coats = finish.map_or(2, |finish| finish.coats);
    let faces = if finish.is_none_or(|finish| finish.both_faces) { "both faces" } else { "the face" };
    let edges = if finish.is_none_or(|finish| finish.edges) { " and the edges" } else { "" };
    let mut steps = vec![format!("First coat of waterborne varnish or sealer, thin: {faces}{edges}.")];
    if faces == "both faces" {
        steps.push(
            "Give both faces the same coats: a panel sealed on one side takes up moisture on the other and cups."
                .into(),
        );
    }
    if coats > 1 {
        steps.push("Let it dry about 2 hours (the maker's sheet holds).".into());
        steps.push("Sand lightly with grit 220, wipe the dust off.".into());
        steps.push(format!("Then {} the same way.", wording::counted(coats - 1, "more coat")));
    }
    steps.push("Let it dry overnight standing free, not stacked.".into());
    steps
}

fn panels(plan: &Plan) -> Table {
    let columns = [Column::left("panel").bold(), Column::left("size"), Column::right("how many")];
    let mut table =
        Table::new(columns.into_iter().chain(["filled", "sanded", "sealed"].map(|step| Column::left(step).big())));
    for line in &plan.panels {
        let count = (line.count + line.extras).to_string();
        let blank = || "\u{25a1}".to_string();
        table.row([wording::called(plan, line), wording::cut_size(plan, line), count, blank(), blank(), blank()]);
    }
    table
}
