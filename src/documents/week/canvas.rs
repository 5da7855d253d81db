//! The canvas plan: what to buy, the drawing of the roll, the cuts in order, the cautions of the knife.

use super::{cautions, roll};
use crate::data::Job;
use crate::data::week::Canvas;
use crate::documents::blocks::{Block, Column, Paper, Table};
use crate::documents::{assumptions, wording};
use crate::length::Length;
use crate::plan::Plan;
use crate::plan::week::{CanvasPlan, RollStrip};

/// The canvas plan; `None` where no panel gets canvas.
pub(super) fn paper(job: &Job, plan: &Plan) -> Option<Paper> {
    let (canvas, cut) = job.week.canvas.as_ref().zip(plan.week.canvas.as_ref())?;
    let mut paper = Paper::new("canvas", "Canvas from the roll");
    if !cut.strips.is_empty() {
        what_to_buy(&mut paper, plan, canvas, cut);
        for drawing in roll::drawings(plan, canvas, cut) {
            paper.blocks.push(Block::Drawing(drawing.0, drawing.1));
        }
        paper.heading("Cut in this order");
        paper.table(order(plan, cut));
        paper.list(true, how(plan, canvas));
    }
    paper.list(false, misfits(plan, canvas, cut));
    paper.caution(cautions::knife());
    assumptions::add(&mut paper, plan, &["canvas"]);
    Some(paper)
}

fn what_to_buy(paper: &mut Paper, plan: &Plan, canvas: &Canvas, cut: &CanvasPlan) {
    let say = |length: Length| length.say(plan.units);
    let (mut sold, mut lengths) = (Vec::new(), Vec::new());
    for (length, count) in wording::runs(cut.lengths.iter().copied()) {
        let times = if count == 1 { String::new() } else { format!("{count} x ") };
        sold.push(format!("{times}{}", canvas.sold.say(length)));
        lengths.push(format!("{times}{}", say(length)));
    }
    let (name, wide, cost) = (&canvas.name, say(canvas.roll), wording::money(plan, cut.cost));
    paper.figure(wording::and(&sold), format!("({}) of {name}, {wide} wide, {cost}", wording::and(&lengths)));
    let known = if cut.proved {
        "proved: strips across the roll cannot take less".to_string()
    } else {
        format!("not proved: no cut plan of strips across the roll takes less than {}", say(cut.bound))
    };
    let sentence = format!("All strips together take {}; {known}", say(cut.needs));
    paper.text(format!("{}.", sentence.trim_end_matches('.')));
    let many = cut.lengths.len();
    if many > 1 {
        paper.text(if many == cut.fewest as usize {
            format!("Strips are cut from {many} lengths; no fewer hold them.")
        } else {
            format!(
                "Strips are cut from {many} lengths, each from the first with room for it: not proved to be the fewest, which \
                 are at least {}.",
                cut.fewest
            )
        });
    }
}

/// One row for each run of strips that are alike.
fn order(plan: &Plan, cut: &CanvasPlan) -> Table {
    let columns = [Column::right("cut across at").big(), Column::right("strips"), Column::left("then, from the left")];
    let mut table = Table::new(columns.into_iter().chain([Column::right("ends at")])).ticked();
    let mut strips = cut.strips.iter().peekable();
    while let Some(first) = strips.next() {
        let (mut count, mut end) = (1, first.at + first.depth);
        while let Some(next) = strips.next_if(|next| alike(first, next)) {
            count += 1;
            end = next.at + next.depth;
        }
        let from = if cut.lengths.len() > 1 { format!(" (length {})", first.from + 1) } else { String::new() };
        let count = format!("{count}{from}");
        table.row([first.depth.show(plan.units), count, pieces(plan, first), end.show(plan.units)]);
    }
    table
}

fn alike(a: &RollStrip, b: &RollStrip) -> bool {
    a.from == b.from && a.depth == b.depth && a.pieces == b.pieces
}

/// `6 of 13 1/2 wide for 12 x 16; 1 of 9 1/2 wide for 8 x 10, trimmed to 11 1/2`.
fn pieces(plan: &Plan, strip: &RollStrip) -> String {
    let kinds = strip.pieces.iter().map(|piece| (piece.panel, piece.across, piece.along));
    let run = |((panel, across, along), count): ((usize, Length, Length), u32)| {
        let trim = if along < strip.depth { format!(", trimmed to {}", along.show(plan.units)) } else { String::new() };
        format!("{count} of {} wide for {}{trim}", across.show(plan.units), plan.panels[panel].name)
    };
    wording::runs(kinds).into_iter().map(run).collect::<Vec<_>>().join("; ")
}

fn how(plan: &Plan, canvas: &Canvas) -> Vec<String> {
    let more = canvas.overlap * 2;
    vec![
        "Roll the canvas out face down, square the end, and mark each cut across on both edges.".into(),
        format!("Leave {} along each edge of the roll.", canvas.selvedge.say(plan.units)),
        format!("Each piece is its panel plus {} each way; write the panel's size on its back.", more.say(plan.units)),
    ]
}

fn misfits(plan: &Plan, canvas: &Canvas, cut: &CanvasPlan) -> Vec<String> {
    let line = |panel: &usize| {
        format!(
            "{}: its piece is wider than the roll is between its selvedges ({}) or longer than what is sold; \
             choose a wider roll, let it lie either way, or leave it out.",
            plan.panels[*panel].name,
            (canvas.roll - canvas.selvedge * 2).say(plan.units)
        )
    };
    cut.misfits.iter().map(line).collect()
}
