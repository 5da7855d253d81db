//! Rectangles on a board seen from above: inside it, and clear of each other.

use crate::length::Length;
use crate::plan::week::Spot;

/// Whether a rectangle lies wholly on a board of this length and width.
pub(super) fn inside(spot: &Spot, length: Length, width: Length) -> bool {
    let ends = (spot.along + spot.length, spot.across + spot.width);
    let starts = spot.along.min(spot.across) >= Length::ZERO;
    starts && ends.0 <= length && ends.1 <= width
}

/// Whether two rectangles are at least `gap` apart one way or the other.
pub(super) fn clear(one: &Spot, other: &Spot, gap: Length) -> bool {
    let apart = |from: Length, extent: Length, other_from: Length, other_extent: Length| {
        from + extent + gap <= other_from || other_from + other_extent + gap <= from
    };
    apart(one.along, one.length, other.along, other.length) || apart(one.across, one.width, other.across, other.width)
}

/// Whether all rectangles are clear of each other.
pub(super) fn all_clear<'a>(spots: impl Iterator<Item = &'a Spot>, gap: Length) -> bool {
    let spots: Vec<&Spot> = spots.collect();
    (0..spots.len()).all(|at| spots[at + 1..].iter().all(|other| clear(spots[at], other, gap)))
}
