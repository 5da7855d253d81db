//! Labels for the backs: pages of them with cut marks, each page an SVG file too.

use super::small_print;
use crate::documents::assumptions;
use crate::documents::blocks::{Block, Paper};
use crate::documents::count;
use crate::documents::font::{self, Weight};
use crate::documents::frame::{Field, Frame, Pen, Spot};
use crate::documents::page_size::{PageSize, content};
use crate::length::{Length, RAW_PER_MM};
use crate::plan::Plan;
use crate::plan::week::{LabelGrid, LabelSet, label_grid};

/// Length of a cut mark, and its distance from the label.
const MARK: f64 = 3.0;
const LEADING: f64 = 1.25;
/// Sizes that labels are written in, the largest first.
const SIZES: [f64; 8] = [4.6, 4.0, 3.6, 3.2, 2.8, 2.4, 2.0, 1.8];

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
    paper.printed.iter_mut().for_each(|page| small_print::add(page, plan, "labels"));
    paper.text(format!(
        "{} labels, {} on a page; cut along the marks and glue them to the backs. They are drawn in the printed packet.",
        labels.texts.len(),
        grid.columns * grid.rows
    ));
    let first = paper.printed.first().map(|page| Block::Drawing(page.clone(), "The first page of labels.".into()));
    paper.blocks.extend(first);
    assumptions::add(&mut paper, plan, &["labels"]);
    Some(paper)
}

/// What fits: the marks beside the labels stand in the margin, those above and below do not.
fn grid(labels: &LabelSet, room: Field) -> Option<LabelGrid> {
    let less = 2.0 * (MARK + 1.0);
    #[allow(clippy::cast_possible_truncation, clippy::cast_precision_loss)] // a page in millimetres
    let exact = |mm: f64| Length::from_raw((mm * RAW_PER_MM as f64) as i64);
    label_grid(exact(room.width), exact(room.height - less), labels.width, labels.height)
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

/// The lines of one label, the first bold and larger, all as large as they fit with long ones over two lines or more.
fn write(page: &mut Frame, field: Field, lines: &[String]) {
    let inner = field.inside((field.width.min(field.height) * 0.12).min(4.0));
    let size = SIZES.into_iter().find(|size| fits(&inner, lines, *size)).unwrap_or(SIZES[SIZES.len() - 1]);
    let mut base = inner.y + size;
    for (at, line) in lines.iter().enumerate() {
        let (size, weight) = styled(at, size);
        for part in font::wrap(line, inner.width, size, weight) {
            if base > inner.bottom() + 0.1 {
                return;
            }
            page.write(Spot::new(inner.x, base), part, size, weight);
            base += size * LEADING;
        }
    }
}

/// The size and weight of a label's line.
fn styled(line: usize, size: f64) -> (f64, Weight) {
    if line == 0 { (size * 1.2, Weight::Bold) } else { (size, Weight::Regular) }
}

fn fits(field: &Field, lines: &[String], size: f64) -> bool {
    let height = |(at, line): (usize, &String)| {
        let (size, weight) = styled(at, size);
        count(font::wrap(line, field.width, size, weight).len()) * size * LEADING
    };
    lines.iter().enumerate().map(height).sum::<f64>() <= field.height
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
