//! A slab: a part of a paper that stays in one piece on a page.

use crate::documents::frame::Frame;
use std::rc::Rc;

/// What is placed on a page in one piece; its frame's height is the room it takes, gap below included.
#[derive(Clone, Debug)]
pub(super) struct Slab {
    pub(super) frame: Frame,
    /// True where the next slab must be on the same page, as after a heading.
    pub(super) keep: bool,
    /// What is repeated above it where it begins a page: the head of its table.
    pub(super) head: Option<Rc<Frame>>,
}

impl Slab {
    /// A slab that may be followed by a new page.
    pub(super) fn of(frame: Frame) -> Slab {
        Slab { frame, keep: false, head: None }
    }

    /// Keeps the first row of a table or list with the second, and the last three together: no page begins or ends with
    /// a row left alone.
    pub(super) fn bind_rows(rows: &mut [Slab]) {
        let many = rows.len();
        for (at, row) in rows.iter_mut().enumerate() {
            row.keep = at + 1 < many && (at == 0 || at + 3 >= many);
        }
    }

    /// A slab that stays with the next one.
    pub(super) fn keeping(frame: Frame) -> Slab {
        Slab { keep: true, ..Slab::of(frame) }
    }
}
