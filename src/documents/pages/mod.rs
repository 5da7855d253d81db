//! Papers as printed pages: blocks become slabs (what must not be torn apart), slabs fill pages from top to bottom,
//! and every page carries the job's title, the paper's name and its number. A table that goes over a page repeats
//! its head.

mod blocks;
mod furniture;
mod slab;
mod table;

pub use furniture::furnish;

use super::blocks::{Block, Paper};
use super::frame::Frame;
use super::page_size::{self, PageSize};
use slab::Slab;

/// All pages of a packet: each paper begins a new page; papers drawn by hand are printed as they are.
pub fn pages(title: &str, papers: &[Paper], size: PageSize, date: &str) -> Vec<Frame> {
    let made: Vec<(&Paper, Frame)> =
        papers.iter().flat_map(|paper| bare_pages(paper, size).into_iter().map(move |frame| (paper, frame))).collect();
    let count = made.len();
    let number = |(at, (paper, mut frame)): (usize, (&Paper, Frame))| {
        furnish(&mut frame, title, &paper.title, &format!("page {} of {count}", at + 1), date);
        frame
    };
    made.into_iter().enumerate().map(number).collect()
}

/// A paper's pages without the lines at head and foot.
pub fn bare_pages(paper: &Paper, size: PageSize) -> Vec<Frame> {
    if !paper.printed.is_empty() {
        return paper.printed.clone();
    }
    let field = page_size::content(&size.upright());
    let mut slabs = vec![blocks::title(&paper.title, field.width)];
    for (at, block) in paper.blocks.iter().enumerate() {
        let mut made = blocks::slabs(block, field.width, field.height);
        if let Some(last) = made.last_mut().filter(|_| belongs_to_next(block, paper.blocks.get(at + 1))) {
            last.keep = true;
        }
        slabs.extend(made);
    }
    fill(&slabs, size)
}

/// A sentence right above or under a table is about it, and stands on its page.
fn belongs_to_next(block: &Block, next: Option<&Block>) -> bool {
    matches!((block, next), (Block::Table(_), Some(Block::Text(_))) | (Block::Text(_), Some(Block::Table(_))))
}

/// Fills pages with slabs, keeping each with the next where it asks for it.
fn fill(slabs: &[Slab], size: PageSize) -> Vec<Frame> {
    let field = page_size::content(&size.upright());
    let mut pages = vec![size.upright()];
    let mut y = field.y;
    for (at, slab) in slabs.iter().enumerate() {
        if y > field.y && y + together(&slabs[at..], field.height) > field.bottom() {
            pages.push(size.upright());
            y = field.y;
            if let Some(head) = &slab.head {
                pages.last_mut().expect("just added").place(head, field.x, y, 1.0);
                y += head.height;
            }
        }
        let page = pages.last_mut().expect("there is always a page");
        page.place(&slab.frame, field.x, y, 1.0);
        y += slab.frame.height;
    }
    pages
}

/// The height of the first slab and of all that must stay with it, as far as one page has room for them.
fn together(slabs: &[Slab], page: f64) -> f64 {
    let mut height = 0.0;
    for slab in slabs {
        if height > 0.0 && height + slab.frame.height > page {
            break;
        }
        height += slab.frame.height;
        if !slab.keep {
            break;
        }
    }
    height
}
