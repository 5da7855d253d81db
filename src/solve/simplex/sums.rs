//! What a line of the inverse, or the prices of the rows, come to in each of many columns. Columns that follow one
//! another often begin with the same entries, as patterns of the same strip do: what those come to is worked out once.

/// An entry that is added to what others come to.
#[derive(Clone, Copy, Debug)]
struct Step {
    /// The step before; the first is step 1, and 0 is nothing at all.
    after: u32,
    row: u32,
    part: f64,
}

/// The steps to the sums of all columns.
#[derive(Clone, Debug, Default)]
pub(super) struct Sums {
    steps: Vec<Step>,
    /// What each step comes to, as it was worked out last.
    values: Vec<f64>,
}

/// The last entry of a column, and the step that all before it come to.
#[derive(Clone, Copy, Debug)]
pub(super) struct Leaf {
    pub after: u32,
    pub row: u32,
    pub part: f64,
}

impl Sums {
    /// Adds a column that begins with so many of the entries of the one before, at least: those steps are taken over.
    /// `path` is where each entry of that column stands, and of this one afterwards, but for its last.
    pub(super) fn follow(&mut self, path: &mut Vec<u32>, entries: &[(usize, f64)], alike: usize) -> Leaf {
        let Some(((row, part), before)) = entries.split_last() else { return Leaf::NOTHING };
        path.truncate(alike.min(before.len()));
        let mut after = path.last().copied().unwrap_or(0);
        for entry in &before[path.len()..] {
            after = self.step(after, *entry);
            path.push(after);
        }
        Leaf { after, row: narrow(*row), part: *part }
    }

    /// Adds a column by itself.
    pub(super) fn add(&mut self, entries: &[(usize, f64)]) -> Leaf {
        let Some(((row, part), before)) = entries.split_last() else { return Leaf::NOTHING };
        let after = before.iter().fold(0, |after, entry| self.step(after, *entry));
        Leaf { after, row: narrow(*row), part: *part }
    }

    /// How many steps there are.
    pub(super) fn steps(&self) -> usize {
        self.steps.len()
    }

    /// Forgets all steps but so many.
    pub(super) fn back_to(&mut self, steps: usize) {
        self.steps.truncate(steps);
    }

    /// Works out all steps for a line, a number for each row: what each comes to, by its place.
    pub(super) fn of(&mut self, line: &[f64]) -> &[f64] {
        self.values.resize(self.steps.len() + 1, 0.0);
        for (at, step) in self.steps.iter().enumerate() {
            self.values[at + 1] = self.values[step.after as usize] + line[step.row as usize] * step.part;
        }
        &self.values
    }

    fn step(&mut self, after: u32, (row, part): (usize, f64)) -> u32 {
        self.steps.push(Step { after, row: narrow(row), part });
        narrow(self.steps.len())
    }
}

impl Leaf {
    const NOTHING: Leaf = Leaf { after: 0, row: 0, part: 0.0 };

    /// What a line comes to in the column, where all steps have been worked out for it.
    pub(super) fn of(self, steps: &[f64], line: &[f64]) -> f64 {
        steps[self.after as usize] + line[self.row as usize] * self.part
    }
}

fn narrow(number: usize) -> u32 {
    u32::try_from(number).expect("rows and columns are far fewer")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    #[allow(clippy::float_cmp)] // each number is exact, so sums are too
    fn columns_that_begin_alike_share_the_steps_to_their_sums() {
        let columns: [&[(usize, f64)]; 5] = [
            &[(0, -1.0), (2, 3.0), (3, 1.0)],
            &[(0, -1.0), (2, 3.0), (4, 2.0)],
            &[(0, -1.0), (2, 3.0), (4, 2.0), (5, 1.0)],
            &[(1, 2.0)],
            &[],
        ];
        let (mut sums, mut path) = (Sums::default(), Vec::new());
        let leaves: Vec<Leaf> =
            columns.iter().zip([0, 2, 3, 0, 0]).map(|(of, alike)| sums.follow(&mut path, of, alike)).collect();
        assert_eq!(sums.steps(), 3, "rows 0, 2 and 4 are begun with");
        let line = [1.0, 10.0, 100.0, 1000.0, 0.5, 0.25];
        let expected = [1299.0, 300.0, 300.25, 20.0, 0.0];
        let steps = sums.of(&line).to_vec();
        assert_eq!(leaves.iter().map(|leaf| leaf.of(&steps, &line)).collect::<Vec<_>>(), expected);

        let alone = columns.map(|of| sums.add(of));
        let steps = sums.of(&line).to_vec();
        assert_eq!(alone.map(|leaf| leaf.of(&steps, &line)), expected);
        sums.back_to(3);
        assert_eq!((sums.steps(), sums.of(&line).len()), (3, 4));
    }
}
