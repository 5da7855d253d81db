//! `yardslip sizes`: the usual panel sizes, as tables that fit a terminal.

use super::failure::Failure;
use super::terminal::print;
use yardslip::data::{SizeTable, UsualSize, usual_sizes};

/// Sizes on one line where they have no names of their own.
const ON_A_LINE: usize = 6;

/// Prints the tables.
pub(super) fn run() -> Result<(), Failure> {
    let tables: Vec<String> = usual_sizes().iter().map(text).collect();
    print(&tables.join("\n"))
}

fn text(table: &SizeTable) -> String {
    let lines: String = rows(&table.sizes).map(|row| line(table, row)).collect();
    format!("{} ({})\n{lines}", table.title, table.origin)
}

/// Named sizes with one number together (`8 Figure`, `8 Paysage`, ...); sizes without names a few on a line.
fn rows(sizes: &[UsualSize]) -> impl Iterator<Item = &[UsualSize]> {
    let named = sizes.first().is_some_and(|size| !size.name.is_empty());
    let mut left = sizes;
    std::iter::from_fn(move || {
        let same = left.iter().take_while(|size| number(size) == number(&left[0])).count();
        let (row, rest) = left.split_at(if named { same } else { same.min(ON_A_LINE) });
        left = rest;
        (!row.is_empty()).then_some(row)
    })
}

fn number(size: &UsualSize) -> &str {
    size.name.split(' ').next().unwrap_or_default()
}

fn line(table: &SizeTable, row: &[UsualSize]) -> String {
    let sides = |size: &UsualSize| format!("{} x {}", size.width.show(table.units), size.height.show(table.units));
    let cell = |size: &UsualSize| match size.name.split_once(' ') {
        Some((_, kind)) => format!("{kind:<8} {:<12}", sides(size)),
        None => format!("{:<10}", sides(size)),
    };
    let cells: String = row.iter().map(cell).collect();
    let number = row.first().map(number).unwrap_or_default();
    let margin = if number.is_empty() { String::new() } else { format!("{number:>4}  ") };
    format!("  {margin}{}\n", cells.trim_end())
}
