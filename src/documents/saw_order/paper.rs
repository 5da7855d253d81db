//! The saw order for the wall behind the saw, or the phone beside it: big figures, boxes to tick.

use super::Tally;
use crate::data::Job;
use crate::documents::blocks::{Column, Paper, Table};
use crate::documents::{assumptions, cautions, wording};
use crate::length::Length;
use crate::plan::{Origin, Plan, Stage, StopCut, Strip};

/// The saw order, where there is something to cut.
pub fn paper(job: &Job, plan: &Plan) -> Option<Paper> {
    if plan.stops.is_empty() {
        return None;
    }
    let mut paper = Paper::new("saw-order", "Saw order");
    paper.text(opening(plan));
    paper
        .list(false, plan.notes.iter().filter(|note| note.stage == Stage::Saw).map(|note| note.text.clone()).collect());
    paper.table(strips(job, plan));
    paper.caution(cautions::saw(&job.saw, plan.units));
    let mut tally = Tally::new(plan);
    for (at, stop) in plan.stops.iter().enumerate() {
        let text = format!("stop block, setting {} of {}", at + 1, plan.stops.len());
        paper.figure(stop.setting.say(plan.units), text);
        let mut table = cut_table();
        for cut in &stop.cuts {
            table.row(row(plan, cut, &mut tally));
        }
        paper.table(table);
    }
    trims(&mut paper, plan);
    paper.caution(cautions::dust());
    assumptions::add(&mut paper, plan, &["saw"]);
    Some(paper)
}

fn opening(plan: &Plan) -> String {
    let settings = u32::try_from(plan.stops.len()).unwrap_or(u32::MAX);
    let squaring = plan.strips.iter().map(|strip| strip.squaring).max().unwrap_or_default();
    let first = if squaring.is_positive() {
        format!(
            " Square the first end of every strip before its first cut: {} off, blade included. That end then goes to the stop.",
            squaring.say(plan.units)
        )
    } else {
        String::new()
    };
    format!("{}, set once each, in this order.{first}", wording::counted(settings, "stop-block setting"))
}

/// What the strips are, by letter; where they come from only if that differs.
fn strips(job: &Job, plan: &Plan) -> Table {
    let origins: Vec<String> = plan.strips.iter().map(|strip| origin(job, strip)).collect();
    let differ = origins.iter().any(|origin| *origin != origins[0]);
    let mut columns = vec![Column::left("strip").big(), Column::right("how many"), Column::right("width")];
    columns.extend([Column::right("length"), Column::left("becomes"), Column::right("left")]);
    columns.extend(differ.then(|| Column::left("from")));
    let mut table = Table::new(columns);
    for (strip, origin) in plan.strips.iter().zip(origins) {
        let becomes = wording::panels(plan, strip.pieces.iter().map(|piece| piece.panel));
        let show = |length: Length| length.show(plan.units);
        let mut cells = vec![strip.letter.clone(), strip.count.to_string(), show(strip.width), show(strip.length)];
        cells.extend([becomes, show(strip.fall_off)]);
        cells.extend(differ.then_some(origin));
        table.row(cells);
    }
    table
}

fn origin(job: &Job, strip: &Strip) -> String {
    match strip.origin {
        Origin::Sheet { sheet, .. } => job.sheets[sheet].name.clone(),
        Origin::OnHand { strip: at } => match job.strips[at].name.trim() {
            name if name.eq_ignore_ascii_case(&strip.letter) => "on hand".into(),
            name => format!("on hand {name}").trim().to_string(),
        },
    }
}

fn cut_table() -> Table {
    let words = [Column::left("strip").big(), Column::left("cut from each"), Column::right("left of each").bold()];
    Table::new(words.into_iter().chain([Column::left("made so far")])).ticked()
}

fn row(plan: &Plan, cut: &StopCut, tally: &mut Tally) -> [String; 4] {
    let strip = &plan.strips[cut.strip];
    let letter = if cut.strips == 1 { strip.letter.clone() } else { format!("{} \u{d7} {}", strip.letter, cut.strips) };
    let mut what = wording::panels(plan, cut.pieces.iter().copied());
    if cut.square_first {
        what = format!("Square the end, then {what}");
    }
    if cut.hold_long_end {
        what = format!("{what}. HOLD THE LONG END");
    }
    let off = tally.count(cut);
    let so_far = |(panel, _): &(usize, u32)| {
        let (made, all) = tally.so_far(*panel);
        format!("{}: {made} of {all}", plan.panels[*panel].name)
    };
    let made: Vec<String> = off.iter().map(so_far).collect();
    [letter, what, cut.left.show(plan.units), made.join(", ")]
}

fn trims(paper: &mut Paper, plan: &Plan) {
    if plan.trims.is_empty() {
        return;
    }
    paper.heading("Then trim to width");
    let columns = [
        Column::left("panel"),
        Column::left("from strip"),
        Column::right("how many"),
        Column::right("from"),
        Column::right("to").big(),
    ];
    let mut table = Table::new(columns).ticked();
    for trim in &plan.trims {
        let (from, to) = (trim.from.show(plan.units), trim.to.show(plan.units));
        let panel = wording::called(plan, &plan.panels[trim.panel]);
        table.row([panel, plan.strips[trim.strip].letter.clone(), trim.count.to_string(), from, to]);
    }
    paper.table(table);
}
