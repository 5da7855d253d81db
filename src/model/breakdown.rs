//! Where a breakdown crosscut can matter. Of the two boards of any plan one can be cut down to what its strips need,
//! the other grows by as much, until the car takes it no more: so only those places count where the shorter board is
//! just long enough for some row of panels, or the longer one just short enough for the car. The same again from the
//! other side leaves fewer still (reduced raster points, Scheithauer and Terno 1996).

use super::family::Family;
use super::problem::Size;
use super::ripping::Ripping;
use crate::length::Length;
use std::collections::BTreeSet;

/// The lengths of the shorter board that can matter, ascending; the longer one is the rest less the kerf. Which of the
/// two comes first makes no difference: both have one factory end.
pub(super) fn first_boards(ripping: &Ripping, family: &Family, sizes: &[Size], saw: Saw) -> Vec<Length> {
    let rest = ripping.board - ripping.kerf;
    let half = Length::from_raw(rest.raw() / 2);
    // A board that ends closer to the far factory end than its rough wood would take some of that wood along. One that
    // is no longer than that may be cut off for the sake of the other, whose far end is then good.
    let sliver = (ripping.edge_trim - ripping.kerf).max(Length::from_raw(1));
    let left = rest - ripping.longest.min(rest);
    let shortest = sliver.max(left);
    if left > half {
        // The car takes one board only: as long as it may be.
        return if ripping.longest < sliver { Vec::new() } else { vec![ripping.longest] };
    }
    let mut rows: Vec<Length> =
        rows(family, sizes, rest - ripping.first, saw).into_iter().map(|row| row + ripping.first).collect();
    rows.sort_unstable();
    let used = |most: Length| rows[..rows.partition_point(|row| *row <= most)].last().copied();
    // The longer board needs no more than its longest row; what it leaves may do for a longer row of the shorter one.
    let grown = |board: Length| {
        let most = used(rest - board).and_then(|other| used(rest - other)).unwrap_or(board);
        if board <= most && most <= rest - shortest { most.min(rest - most) } else { board }
    };
    let bare = (ripping.edge_trim.is_positive() || left.is_positive()).then_some(shortest);
    let boards = rows.iter().copied().chain(bare).filter(|board| (shortest..=half).contains(board));
    boards.map(grown).collect::<BTreeSet<Length>>().into_iter().collect()
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

#[cfg(test)]
mod tests {
    use crate::data::{File, Source, read};
    use crate::length::{Length, Unit};
    use crate::model::build;

    /// Where a 96 in. sheet may be crosscut at 1/8 in. for these panels, in a shop with these rules.
    fn places(panels: &str, shop: &str) -> Vec<String> {
        let text = format!("[[sheet]]\nlength = 96\nwidth = 48\nprice = 40\n{panels}\n{shop}");
        let job = read(&Source { job: File::of("job", text), list: None, rack: None }).expect("the job is sound");
        let problem = build(&job).expect("its panels can be made");
        problem.rippings[0].breaks.iter().map(|first: &Length| first.show(Unit::In)).collect()
    }

    const YARD: &str = "[yard]\nbreakdown = \"allowed\"\n[saw]\nsquaring = 0\nshortest = 0\n";
    const UPRIGHT: &str = "grain = \"upright\"\n";

    #[test]
    fn only_rows_of_panels_count() {
        // Of 95 7/8 in. one board may take a panel of 40 in., the other then takes one too.
        let long = format!("[[panel]]\nsize = \"12 x 40\"\ncount = 3\n{UPRIGHT}");
        assert_eq!(places(&long, YARD), ["40"]);
    }

    #[test]
    fn what_the_longer_board_leaves_goes_to_the_shorter_one() {
        // Rows of 30 and of 60 1/8 in.: beside a panel of 30 in. there is room for two; beside two there are 35 3/4 in.
        let some = format!("[[panel]]\nsize = \"12 x 30\"\ncount = 3\n{UPRIGHT}");
        assert_eq!(places(&some, YARD), ["30"]);
        // Beside 30 and 34 in. there is room for 30 in., beside 30 and 30 in. for 34 in.
        let two = format!("{some}[[panel]]\nsize = \"12 x 34\"\ncount = 1\n{UPRIGHT}");
        assert_eq!(places(&two, YARD), ["30", "34"]);
    }

    #[test]
    fn a_car_that_takes_one_board_only_takes_it_as_long_as_may_be() {
        let short = format!("[[panel]]\nsize = \"12 x 30\"\ncount = 3\n{UPRIGHT}");
        assert_eq!(places(&short, &format!("{YARD}[car]\nlongest = 40")), ["40"]);
        assert_eq!(places(&short, &format!("{YARD}[car]\nlongest = 50")), ["45 7/8"]);
    }
}
