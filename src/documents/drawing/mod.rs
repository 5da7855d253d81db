//! Sheets drawn to scale, black and white: strips lettered, panels with their sizes, kerfs and squaring cuts black,
//! offcuts hatched, the reference edge and the face grain marked. The longer side of a sheet lies level; rips are
//! read from the reference edge, which is the upper or the left one.

mod place;
mod labels;
mod sheet;
mod measures;
mod page;
mod sketch;

pub(in crate::documents) use labels::label;
pub(in crate::documents) use page::key_letter;
pub use page::sheet_page;
pub use sketch::sketch;
