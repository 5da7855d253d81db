//! How the columns of a knapsack's table count lengths: in the greatest unit that divides them all; or, where each row
//! of the table stands for a number of pieces, in the greatest unit that divides their differences. The second is much
//! larger, since sizes are whole and only the kerf that each piece takes along is not: so many pieces take just so many
//! kerfs. Where the unit is too fine for a table, a coarser one rounds lengths down.

use crate::model::gcd;

/// Most columns of a table.
const FINEST: i64 = 1 << 14;

/// The columns of a table.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Grid {
    /// Raw units that a column stands for.
    pub unit: i64,
    /// What each piece is longer than whole units; nothing where pieces are not counted.
    pub rest: i64,
    /// False where lengths are rounded down.
    pub exact: bool,
}

impl Grid {
    /// The columns for these lengths up to `room`, however many pieces there are.
    pub(super) fn plain(lengths: impl Iterator<Item = i64>, room: i64) -> Grid {
        Grid::of(lengths.fold(0, gcd), 0, room)
    }

    /// The columns for these lengths up to `room` where the number of pieces is known.
    pub(super) fn counted(mut lengths: impl Iterator<Item = i64>, room: i64) -> Grid {
        let Some(first) = lengths.next() else { return Grid::of(0, 0, room) };
        let apart = lengths.fold(0, |unit, length| gcd(unit, (length - first).abs()));
        if apart == 0 { Grid::of(first, 0, room) } else { Grid::of(apart, first % apart, room) }
    }

    /// Columns of this unit, which rounds lengths down.
    pub(super) fn rounded(unit: i64) -> Grid {
        Grid { unit, rest: 0, exact: false }
    }

    fn of(unit: i64, rest: i64, room: i64) -> Grid {
        // Without any length one column will do.
        let unit = if unit == 0 { room.max(0) + 1 } else { unit };
        if room / unit <= FINEST { Grid { unit, rest, exact: true } } else { Grid::rounded(room / FINEST + 1) }
    }

    /// Columns of a table up to `room`.
    pub(super) fn columns(&self, room: i64) -> usize {
        whole(room.max(0) / self.unit) + 1
    }

    /// Columns that a piece takes up.
    pub(super) fn steps(&self, length: i64) -> usize {
        whole(length / self.unit)
    }

    /// The column of so much room for so many pieces; none where it does not even hold what they are longer than whole
    /// units.
    pub(super) fn column(&self, room: i64, pieces: usize) -> Option<usize> {
        let left = room - self.beside(pieces);
        (left >= 0).then(|| whole(left / self.unit))
    }

    /// The room that so many pieces and this many columns come to.
    pub(super) fn room(&self, columns: usize, pieces: usize) -> i64 {
        self.beside(pieces) + self.unit * i64::try_from(columns).expect("columns are few")
    }

    /// Whether so many pieces can use up the room to the last.
    pub(super) fn fits(&self, room: i64, pieces: usize) -> bool {
        self.exact && (room - self.beside(pieces)) % self.unit == 0
    }

    fn beside(&self, pieces: usize) -> i64 {
        if self.rest == 0 { 0 } else { self.rest * i64::try_from(pieces).expect("pieces are few") }
    }
}

fn whole(number: i64) -> usize {
    usize::try_from(number).expect("lengths are not negative")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn kerfs_are_counted_apart_from_whole_sizes() {
        // Strips of 8, 11 and 16 in with a kerf of 1/8 in, in eighths, on 48 in and one kerf.
        let lengths = [65, 89, 129];
        let (plain, counted) = (Grid::plain(lengths.into_iter(), 385), Grid::counted(lengths.into_iter(), 385));
        assert_eq!((plain.unit, plain.columns(385)), (1, 386));
        assert_eq!((counted.unit, counted.rest, counted.columns(385)), (8, 1, 49));
        assert_eq!(lengths.map(|length| counted.steps(length)), [8, 11, 16]);
        // Two strips leave room for 47 7/8 in of wood, three for 47 3/4: only one kerf uses it up.
        assert_eq!([1, 2, 3].map(|strips| counted.column(385, strips)), [Some(48), Some(47), Some(47)]);
        assert_eq!([1, 2, 3, 9].map(|strips| counted.fits(385, strips)), [true, false, false, true]);
        assert_eq!(counted.room(47, 2), 378);
    }

    #[test]
    fn lengths_too_fine_for_a_table_are_rounded_down() {
        let plain = Grid::plain([10_007, 10_009].into_iter(), 1 << 20);
        assert!(!plain.exact && plain.columns(1 << 20) <= 1 + (1 << 14));
        assert!(plain.room(plain.steps(10_007), 1) <= 10_007);
        // Their difference is not: two pieces of them are 20,014, 20,016 or 20,018 long.
        let counted = Grid::counted([10_007, 10_009].into_iter(), 1 << 14);
        assert_eq!((counted.unit, counted.rest, counted.exact), (2, 1, true));
    }

    #[test]
    fn equal_lengths_and_none_take_few_columns() {
        assert_eq!(Grid::counted([65, 65].into_iter(), 385).columns(385), 6);
        assert_eq!(Grid::plain(std::iter::empty(), 1 << 30).columns(1 << 30), 1);
    }
}
