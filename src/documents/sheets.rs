//! A paper for each different sheet: its drawing, and its strips in words for a small screen.

use super::blocks::{Block, Column, Paper, Table};
use super::drawing;
use super::page_size::PageSize;
use super::wording;
use crate::data::Job;
use crate::plan::{Plan, SheetGroup};

/// One paper a group of sheets that are alike.
pub fn papers(job: &Job, plan: &Plan, size: PageSize) -> Vec<Paper> {
    plan.sheets.iter().map(|group| paper(job, plan, group, size)).collect()
}

fn paper(job: &Job, plan: &Plan, group: &SheetGroup, size: PageSize) -> Paper {
    let title = wording::numbers(group.number, group.count);
    let mut paper = Paper::new(name(group), title);
    let page = drawing::sheet_page(job, plan, group, size);
    paper.blocks.push(Block::Drawing(page.clone(), format!("{}, to scale when printed.", group.kind)));
    paper.table(strips(plan, group));
    paper.printed = vec![page];
    paper
}

/// `sheet-1`: the file is named after the first sheet of the group.
pub fn name(group: &SheetGroup) -> String {
    format!("sheet-{}", group.number)
}

fn strips(plan: &Plan, group: &SheetGroup) -> Table {
    let columns = [Column::left("strip").big(), Column::right("width"), Column::right("length")];
    let mut table = Table::new(columns.into_iter().chain([Column::left("becomes"), Column::right("left")]));
    for rip in group.boards.iter().flat_map(|board| &board.rips) {
        let strip = &plan.strips[rip.strip];
        let becomes = wording::panels(plan, strip.pieces.iter().map(|piece| piece.panel));
        let (width, length) = (rip.width.show(plan.units), strip.length.show(plan.units));
        table.row([strip.letter.clone(), width, length, becomes, strip.fall_off.show(plan.units)]);
    }
    table
}
