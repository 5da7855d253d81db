//! The columns of a program, one after the other in the same few lists: what is read together lies together.

use super::Column;

/// An entry that is kept free: a part of nothing.
const FREE: (usize, f64) = (0, 0.0);

/// Columns that are looked at together.
const TOGETHER: usize = 16;

/// All columns.
#[derive(Clone, Debug, Default)]
pub(super) struct Columns {
    /// Cost of one of each.
    pub cost: Vec<f64>,
    /// Least value of each.
    pub least: Vec<f64>,
    /// Greatest value of each.
    pub most: Vec<f64>,
    /// Where the entries of each begin and end; up to where those of the next begin there is room for more.
    spans: Vec<(usize, usize)>,
    /// With how many of the entries that the column before begins with each begins too, the last ones left aside.
    alike: Vec<usize>,
    entries: Vec<(usize, f64)>,
}

impl Columns {
    pub(super) fn count(&self) -> usize {
        self.cost.len()
    }

    /// The entries of a column: (row, coefficient).
    pub(super) fn entries(&self, column: usize) -> &[(usize, f64)] {
        let (start, end) = self.spans[column];
        &self.entries[start..end]
    }

    /// With how many of the entries that the column before begins with a column begins too, at least.
    pub(super) fn alike(&self, column: usize) -> usize {
        self.alike[column]
    }

    /// The columns whose room between their bounds, times a number of each, is more than this, or cannot be told to be no
    /// more. Mostly there are few, so some are looked at together first.
    pub(super) fn beyond(&self, times: &[f64], much: f64) -> Vec<usize> {
        let is_beyond = |((times, least), most): ((&f64, &f64), &f64)| {
            let room = times * (most - least);
            room > much || room.is_nan()
        };
        let mut beyond = Vec::new();
        let groups = times.chunks(TOGETHER).zip(self.least.chunks(TOGETHER)).zip(self.most.chunks(TOGETHER));
        for (group, ((times, least), most)) in groups.enumerate() {
            let all = times.iter().zip(least).zip(most);
            if all.clone().fold(false, |some, column| some | is_beyond(column)) {
                let here = all.enumerate().filter(|(_, column)| is_beyond(*column));
                beyond.extend(here.map(|(at, _)| group * TOGETHER + at));
            }
        }
        beyond
    }

    /// Adds a column with room for so many entries more.
    pub(super) fn push(&mut self, column: &Column, room: usize) {
        let before = self.count().checked_sub(1).map_or(&[][..], |before| self.entries(before));
        let most = before.len().min(column.entries.len()).saturating_sub(1);
        let alike = before[..most].iter().zip(&column.entries).take_while(|(before, now)| before == now).count();
        self.alike.push(alike);
        self.cost.push(column.cost);
        self.least.push(column.least);
        self.most.push(column.most);
        let start = self.entries.len();
        self.entries.extend(&column.entries);
        self.spans.push((start, self.entries.len()));
        self.entries.resize(self.entries.len() + room, FREE);
    }

    /// Takes away the last column.
    pub(super) fn pop(&mut self) {
        if let Some((start, _)) = self.spans.pop() {
            self.entries.truncate(start);
        }
        self.alike.pop();
        for values in [&mut self.cost, &mut self.least, &mut self.most] {
            values.pop();
        }
    }

    /// For how many entries more there is room in a column.
    pub(super) fn room(&self, column: usize) -> usize {
        let end = self.spans.get(column + 1).map_or(self.entries.len(), |(start, _)| *start);
        end - self.spans[column].1
    }

    /// Puts an entry behind the others of a column, which must have room for it.
    pub(super) fn put_last(&mut self, column: usize, entry: (usize, f64)) {
        assert!(self.room(column) > 0, "the column has room");
        let (_, end) = &mut self.spans[column];
        self.entries[*end] = entry;
        *end += 1;
    }

    /// Takes the last entry of a column away.
    pub(super) fn drop_last(&mut self, column: usize) {
        self.spans[column].1 -= 1;
    }

    /// Adds the entries of a new row: (column, coefficient).
    pub(super) fn add_row(&mut self, row: usize, added: &[(usize, f64)]) {
        if added.is_empty() {
            return;
        }
        let mut of: Vec<Option<f64>> = vec![None; self.count()];
        for (column, coefficient) in added {
            of[*column] = Some(*coefficient);
        }
        let (mut entries, mut spans) = (Vec::with_capacity(self.entries.len() + added.len()), Vec::new());
        for (column, coefficient) in of.into_iter().enumerate() {
            let start = entries.len();
            entries.extend(self.entries(column));
            entries.extend(coefficient.map(|coefficient| (row, coefficient)));
            spans.push((start, entries.len()));
            entries.resize(entries.len() + self.room(column), FREE);
        }
        (self.entries, self.spans) = (entries, spans);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_new_row_joins_the_columns_that_it_has_entries_in() {
        let mut columns = Columns::default();
        for entries in [vec![(0, 1.0)], vec![], vec![(0, 2.0), (1, 3.0)]] {
            columns.push(&Column { entries, cost: 1.0, least: 0.0, most: 1.0 }, 1);
        }
        columns.add_row(2, &[(2, 7.0), (1, 5.0)]);
        columns.push(&Column { entries: vec![(2, -1.0)], cost: 0.0, least: 0.0, most: 0.0 }, 0);
        let entries: Vec<&[(usize, f64)]> = (0..columns.count()).map(|column| columns.entries(column)).collect();
        let expected: [&[(usize, f64)]; 4] = [&[(0, 1.0)], &[(2, 5.0)], &[(0, 2.0), (1, 3.0), (2, 7.0)], &[(2, -1.0)]];
        assert_eq!(entries, expected);
    }

    #[test]
    fn it_is_known_with_how_many_entries_columns_begin_alike_at_least() {
        let mut columns = Columns::default();
        let first = (0, -1.0);
        for rest in [&[(2, 3.0), (3, 1.0)][..], &[(2, 3.0), (3, 2.0)], &[(2, 3.0), (3, 2.0)], &[(2, 1.0)]] {
            let entries = [&[first], rest].concat();
            columns.push(&Column { entries, cost: 0.0, least: 0.0, most: 1.0 }, 1);
        }
        let alike = |columns: &Columns| (0..columns.count()).map(|column| columns.alike(column)).collect::<Vec<_>>();
        assert_eq!(alike(&columns), [0, 2, 2, 1]);
        columns.put_last(2, (4, 1.0));
        assert_eq!(alike(&columns), [0, 2, 2, 1], "what is put behind the others changes nothing");
        columns.pop();
        assert_eq!(alike(&columns), [0, 2, 2]);
    }

    #[test]
    fn entries_are_put_into_the_room_of_a_column_and_taken_away() {
        let mut columns = Columns::default();
        for room in [2, 0, 1] {
            columns.push(&Column { entries: vec![(0, 1.0)], cost: 0.0, least: 0.0, most: 1.0 }, room);
        }
        columns.put_last(0, (1, 2.0));
        columns.put_last(2, (1, 3.0));
        let rooms = |columns: &Columns| (0..3).map(|column| columns.room(column)).collect::<Vec<_>>();
        assert_eq!(rooms(&columns), [1, 0, 0]);
        assert_eq!(columns.entries(0), [(0, 1.0), (1, 2.0)]);
        columns.put_last(0, (2, 4.0));
        columns.drop_last(0);
        columns.drop_last(2);
        assert_eq!((columns.entries(0), columns.entries(2)), (&[(0, 1.0), (1, 2.0)][..], &[(0, 1.0)][..]));
        assert_eq!(rooms(&columns), [1, 0, 1]);
        columns.add_row(3, &[(1, 5.0)]);
        assert_eq!(rooms(&columns), [1, 0, 1], "a new row leaves the room as it is");
    }

    #[test]
    fn columns_beyond_are_found_wherever_they_stand() {
        let mut columns = Columns::default();
        for at in 0..3 * TOGETHER + 5 {
            let most = if at == 7 { f64::INFINITY } else { 10.0 };
            columns.push(&Column { entries: Vec::new(), cost: 1.0, least: 2.0, most }, 0);
        }
        let mut times = vec![1.0; columns.count()];
        assert_eq!(columns.beyond(&times, 8.0), [7], "eight is no more than that");
        let far = [0, TOGETHER - 1, TOGETHER, 3 * TOGETHER + 4];
        for at in far {
            times[at] = 1.5;
        }
        times[7] = 0.0;
        let expected = [0, 7, TOGETHER - 1, TOGETHER, 3 * TOGETHER + 4];
        assert_eq!(columns.beyond(&times, 8.0), expected, "nothing of what has no end cannot be told");
        assert_eq!(columns.beyond(&times, 12.0), [7]);
    }
}
