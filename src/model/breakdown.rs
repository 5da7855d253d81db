//! Where a breakdown crosscut can matter. Of the two boards of any plan one can be cut down to what its strips need,
//! the other grows by as much, until the car takes it no more: so only those places count where the shorter board is
//! just long enough for some row of panels, or the longer one just short enough for the car.

use super::family::Family;
use super::problem::Size;
use super::ripping::Ripping;
use crate::length::Length;
use std::collections::BTreeSet;

/// The lengths of the first board that can matter, ascending; the second is the rest less the kerf.
pub(super) fn first_boards(ripping: &Ripping, family: &Family, sizes: &[Size], saw: Saw) -> Vec<Length> {
    let rest = ripping.board - ripping.kerf;
    let shortest_for_car = rest - ripping.longest.min(rest);
    // Where the rough far end of a whole board is lost, a sliver taken off it may be worth its kerf.
    let sliver = ripping.edge_trim.is_positive() || !shortest_for_car.is_positive();
    let most = if sliver { rest - Length::from_raw(1) } else { Length::from_raw(rest.raw() / 2) };
    let mut boards: BTreeSet<Length> =
        rows(family, sizes, most - ripping.first, saw).into_iter().map(|row| row + ripping.first).collect();
    boards.insert(shortest_for_car);
    // A board that ends closer to the far factory end than its rough wood would take some of that wood along.
    let good = |board: Length| board.is_positive() && board + ripping.kerf >= ripping.edge_trim;
    boards.retain(|first| good(*first) && good(rest - *first));
    boards.into_iter().collect()
}

/// What the lengths of rows depend on at home.
#[derive(Clone, Copy, Debug)]
pub(super) struct Saw {
    /// Width of the cut.
    pub kerf: Length,
    /// Shortest piece that is safe to hold.
    pub shortest: Length,
}

/// The lengths of all rows of panels up to `most`, kerfs between them included, and with something behind the last one
/// for the hand to hold where all of them are short.
fn rows(family: &Family, sizes: &[Size], most: Length, saw: Saw) -> BTreeSet<Length> {
    let laid = family.widths.iter().flat_map(|width| &width.laid);
    // Each size counts, also beside another that is as long and as many.
    let pieces: BTreeSet<(Length, usize)> = laid.map(|laid| (laid.along, laid.size)).collect();
    let (mut rows, mut short) = (BTreeSet::from([Length::ZERO]), BTreeSet::from([Length::ZERO]));
    for (along, size) in pieces {
        let count = sizes[size].count;
        if along < saw.shortest {
            add(&mut short, along + saw.kerf, count, most + saw.kerf);
        }
        add(&mut rows, along + saw.kerf, count, most + saw.kerf);
    }
    let held = short.into_iter().filter(|row| row.is_positive()).map(|row| row + saw.shortest);
    let rows = rows.into_iter().filter(|row| row.is_positive()).map(|row| row - saw.kerf);
    rows.chain(held).filter(|row| *row <= most).collect()
}

/// Adds so many of a piece to each row; a row may end a kerf beyond.
fn add(rows: &mut BTreeSet<Length>, piece: Length, count: u32, most: Length) {
    let mut ends: Vec<Length> = rows.iter().copied().collect();
    for _ in 0..count {
        ends = ends.into_iter().map(|end| end + piece).filter(|end| *end <= most).collect();
        if ends.is_empty() {
            return;
        }
        rows.extend(&ends);
    }
}
