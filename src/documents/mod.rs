//! The papers of a plan: they compute no figures, open no files and know no clock; the same plan gives the same bytes.
//!
//! A paper is a [`blocks::Paper`]: a title and blocks. [`html::packet`] shows all papers on one screen page,
//! [`pages::pages`] prints them on letter or A4 frames, and [`svg`] and [`pdf`] turn frames into files.
//!
//! To add a paper: write a module with `pub fn paper(job, plan) -> Option<Paper>` (`None` where the job has no use for
//! it) that fills blocks from figures which already stand in the plan, and put it in the order of the work into the
//! list in [`packet()`]. If it must look exactly so on the page, fill [`blocks::Paper::printed`] with frames of the
//! page's size too ([`page_size::PageSize::upright`] or `lying`), drawn inside [`page_size::content`]; each of them
//! becomes an SVG file of its own.

pub mod font;
pub mod frame;
pub mod svg;
pub mod pdf;
pub mod page_size;
pub mod blocks;
pub mod html;
pub mod pages;
pub mod wording;
pub mod cautions;
pub mod assumptions;
pub mod drawing;
pub mod trouble;
pub mod later_aims;
pub mod overview;
pub mod comparison;
pub mod shopping;
pub mod slip;
pub mod sheets;
pub mod saw_order;
pub mod finishing;
pub mod week;
pub mod plan_json;
mod packet;

pub use packet::{Options, packet, papers};
pub use plan_json::plan_json;

/// A small count as a number to draw with.
#[allow(clippy::cast_precision_loss)] // columns, rows and pages
pub(crate) fn count(n: usize) -> f64 {
    n as f64
}
