//! What every page carries: the job's title, the paper's name, the page's number, and the date where there is one.

use crate::documents::font::{self, Weight};
use crate::documents::frame::{Anchor, Frame, Pen, Spot, Text};
use crate::documents::page_size::MARGIN;

const SIZE: f64 = 3.2;

/// Writes the lines at the head and the foot of a page; an empty text is left out.
pub fn furnish(page: &mut Frame, job: &str, paper: &str, number: &str, date: &str) {
    let (left, right) = (MARGIN, page.width - MARGIN);
    let head = MARGIN + 3.0;
    let half = (right - left) / 2.0 - 2.0;
    page.write(Spot::new(left, head), fitted(job, half), SIZE, Weight::Bold);
    page.text(end(Spot::new(right, head), fitted(paper, half)));
    page.line(Pen::Thin, Spot::new(left, head + 1.6), Spot::new(right, head + 1.6));
    let foot = page.height - MARGIN;
    if !number.is_empty() {
        page.text(end(Spot::new(right, foot), number.into()));
    }
    if !date.is_empty() {
        page.write(Spot::new(left, foot), date, SIZE, Weight::Regular);
    }
}

fn end(at: Spot, text: String) -> Text {
    Text { at, text, size: SIZE, anchor: Anchor::End, ..Text::default() }
}

/// The text, cut short with dots where it is wider than the room.
fn fitted(text: &str, room: f64) -> String {
    let mut text = text.to_string();
    if font::width(&text, SIZE, Weight::Bold) <= room {
        return text;
    }
    while !text.is_empty() && font::width(&format!("{text}..."), SIZE, Weight::Bold) > room {
        text.pop();
    }
    format!("{}...", text.trim_end())
}
