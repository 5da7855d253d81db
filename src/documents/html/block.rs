//! Each kind of block as HTML.

use crate::documents::blocks::{Block, Caution, Column, DEFERS, Row, Table};
use crate::documents::font::{Weight, bound};
use crate::documents::svg;
use maud::{Markup, PreEscaped, html};

/// A block; `boxes` counts the boxes of the paper, so that each has a name of its own.
pub(super) fn markup(block: &Block, paper: &str, boxes: &mut usize) -> Markup {
    match block {
        Block::Heading(text) => html! { h3 { (text) } },
        Block::Text(text) => html! { p { (bound(text)) } },
        Block::Figure { figure, text } => html! { div.figure { strong { (bound(figure)) } span { (bound(text)) } } },
        Block::List { steps: true, lines } => html! { ol { @for line in lines { li { (bound(line)) } } } },
        Block::List { steps: false, lines } => html! { ul { @for line in lines { li { (bound(line)) } } } },
        Block::Table(content) => table(content, paper, boxes),
        Block::Drawing(frame, caption) => {
            let least = format!("min-width: {}mm", (frame.width * 0.75).round());
            html! {
                figure.drawing {
                    div { div style=(least) { (PreEscaped(svg::inline(frame, caption))) } }
                    @if !caption.is_empty() { figcaption { (caption) } }
                }
            }
        }
        Block::Caution(content) => caution(content),
    }
}

fn table(table: &Table, paper: &str, boxes: &mut usize) -> Markup {
    let mut rows = Vec::new();
    for row in &table.rows {
        let tick = table.ticks && !row.total;
        *boxes += usize::from(tick);
        let id = format!("{paper}-{boxes}");
        let name = row.cells.join(" ");
        rows.push(html! {
            tr.total[row.total] {
                @if table.ticks { td.tick { @if tick { input type="checkbox" id=(id) aria-label=(name); } } }
                (cells(table, row))
            }
        });
    }
    html! {
        div.table {
            table {
                thead { tr { @if table.ticks { th {} } @for column in &table.columns { th.right[column.right] { (column.title) } } } }
                tbody { @for row in &rows { (row) } }
            }
        }
    }
}

fn cells(table: &Table, row: &Row) -> Markup {
    let class = |column: &Column| {
        let bold = if column.weight == Weight::Bold { "bold " } else { "" };
        format!("{bold}{}{}", if column.right { "right " } else { "" }, if column.big { "big" } else { "" })
    };
    html! {
        @for (cell, column) in row.cells.iter().zip(&table.columns) {
            td class=[Some(class(column).trim()).filter(|class| !class.is_empty())] { (bound(cell)) }
        }
    }
}

fn caution(caution: &Caution) -> Markup {
    html! {
        aside {
            p { strong { "CAUTION: " (caution.title) } }
            @for warning in &caution.warnings {
                p { (warning.text) }
                p.source { "Source: " (warning.source) }
            }
            p.source { strong { (DEFERS) } }
        }
    }
}
