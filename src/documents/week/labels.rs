//! Labels for the backs: pages of them with cut marks, each page an SVG file too.

use crate::documents::blocks::{Block, Paper};
use crate::documents::count;
use crate::documents::font::{self, Weight};
use crate::documents::frame::{Field, Frame, Pen, Spot};
use crate::documents::page_size::{PageSize, content};
use crate::length::Length;
use crate::plan::Plan;
use crate::plan::week::{LabelGrid, LabelSet, label_grid};

/// Length of a cut mark, and its distance from the label.
const MARK: f64 = 3.0;
const LEADING: f64 = 1.25;

/// The labels; none where the job asks for none.
pub(super) fn papers(plan: &Plan, size: PageSize) -> Option<Paper> {
    let labels = plan.week.labels.as_ref().filter(|labels| !labels.texts.is_empty())?;
    let mut paper = Paper::new("labels", "Labels");
    let room = content(&size.upright());
    let Some(grid) = grid(labels, room) else {
        paper.text("A label is larger than the page: make `labels.width` or `labels.height` smaller.");
        return Some(paper);
    };
    paper.printed = pages(labels, grid, size);
    paper.text(format!(
        "{} labels, {} on a page; cut along the marks and glue them to the backs. They are drawn in the printed packet.",
        labels.texts.len(),
        grid.columns * grid.rows
    ));
    paper
        .blocks
        .extend(paper.printed.first().map(|page| Block::Drawing(page.clone(), "The first page of labels.".into())));
    Some(paper)
}

/// What fits between the marks.
fn grid(labels: &LabelSet, room: Field) -> Option<LabelGrid> {
    let less = 2.0 * (MARK + 1.0);
    #[allow(clippy::cast_possible_truncation)] // a page in millimetres
    let room_for = |mm: f64| Length::from_raw(((mm - less) * 320.0) as i64);
    label_grid(room_for(room.width), room_for(room.height), labels.width, labels.height)
}

fn pages(labels: &LabelSet, grid: LabelGrid, size: PageSize) -> Vec<Frame> {
    let on_page = (grid.columns * grid.rows) as usize;
    labels.texts.chunks(on_page).map(|texts| page(labels, texts, grid, size)).collect()
}

fn page(labels: &LabelSet, texts: &[Vec<String>], grid: LabelGrid, size: PageSize) -> Frame {
    let mut page = size.upright();
    let room = content(&page);
    let (wide, high) = (labels.width.to_mm(), labels.height.to_mm());
    let whole = (f64::from(grid.columns) * wide, f64::from(grid.rows) * high);
    let corner = Spot::new(room.x + (room.width - whole.0) / 2.0, room.y + MARK + 1.0);
    for (at, lines) in texts.iter().enumerate() {
        let (column, row) = (at % grid.columns as usize, at / grid.columns as usize);
        let field = Field::new(corner.x + count(column) * wide, corner.y + count(row) * high, wide, high);
        write(&mut page, field, lines);
    }
    let rows = texts.len().div_ceil(grid.columns as usize);
    marks(&mut page, corner, (wide, high), (grid.columns as usize, rows));
    page
}

/// The lines of one label, the first bold and larger, all as large as fits.
fn write(page: &mut Frame, field: Field, lines: &[String]) {
    let inner = field.inside(4.0);
    let size = (inner.height / ((count(lines.len()) + 0.3) * LEADING)).min(5.0);
    let mut base = inner.y + size * 1.1;
    for (at, line) in lines.iter().enumerate() {
        let weight = if at == 0 { Weight::Bold } else { Weight::Regular };
        let wanted = if at == 0 { size * 1.2 } else { size };
        page.write(Spot::new(inner.x, base), line, font::size_within(line, inner.width, wanted, weight), weight);
        base += size * LEADING;
    }
}

/// Marks outside the block at every edge of a label, and small crosses between labels.
fn marks(page: &mut Frame, corner: Spot, label: (f64, f64), (columns, rows): (usize, usize)) {
    let (right, bottom) = (corner.x + count(columns) * label.0, corner.y + count(rows) * label.1);
    for column in 0..=columns {
        let x = corner.x + count(column) * label.0;
        page.line(Pen::Thin, Spot::new(x, corner.y - MARK - 0.5), Spot::new(x, corner.y - 0.5));
        page.line(Pen::Thin, Spot::new(x, bottom + 0.5), Spot::new(x, bottom + MARK + 0.5));
    }
    for row in 0..=rows {
        let y = corner.y + count(row) * label.1;
        page.line(Pen::Thin, Spot::new(corner.x - MARK - 0.5, y), Spot::new(corner.x - 0.5, y));
        page.line(Pen::Thin, Spot::new(right + 0.5, y), Spot::new(right + MARK + 0.5, y));
        for column in 0..=columns {
            let x = corner.x + count(column) * label.0;
            page.line(Pen::Thin, Spot::new(x - 0.8, y), Spot::new(x + 0.8, y));
            page.line(Pen::Thin, Spot::new(x, y - 0.8), Spot::new(x, y + 0.8));
        }
    }
}
