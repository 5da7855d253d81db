//! The two page sizes that desks have, and the part of a page that papers are laid out in.

use super::frame::{Field, Frame};

/// A page size.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum PageSize {
    /// US letter, 8 1/2 x 11 in.
    #[default]
    Letter,
    /// ISO 216 A4, 210 x 297 mm.
    A4,
}

/// Free on each side: half an inch, which every printer leaves.
pub const MARGIN: f64 = 12.7;
/// Taken at the head of the page by the line with the job's title.
pub const HEAD: f64 = 7.0;
/// Taken at the foot by the line with the page's number.
pub const FOOT: f64 = 5.0;

impl PageSize {
    /// Shorter and longer side in millimetres.
    pub const fn sides(self) -> (f64, f64) {
        match self {
            PageSize::Letter => (215.9, 279.4),
            PageSize::A4 => (210.0, 297.0),
        }
    }

    /// What style sheets call it.
    pub const fn css(self) -> &'static str {
        match self {
            PageSize::Letter => "letter",
            PageSize::A4 => "A4",
        }
    }

    /// An empty page standing upright.
    pub const fn upright(self) -> Frame {
        let (short, long) = self.sides();
        Frame::new(short, long)
    }

    /// An empty page lying on its side.
    pub const fn lying(self) -> Frame {
        let (short, long) = self.sides();
        Frame::new(long, short)
    }
}

/// The part of a page between its margins, head and foot.
pub fn content(page: &Frame) -> Field {
    let (width, height) = (page.width - 2.0 * MARGIN, page.height - 2.0 * MARGIN - HEAD - FOOT);
    Field::new(MARGIN, MARGIN + HEAD, width, height)
}
