//! `yardslip sizes`: the usual panel sizes, as tables.

use super::failure::Failure;
use super::terminal::print;
use yardslip::data::{SizeTable, UsualSize, usual_sizes};

/// Prints the tables.
pub(super) fn run() -> Result<(), Failure> {
    let tables: Vec<String> = usual_sizes().iter().map(text).collect();
    print(&tables.join("\n"))
}

fn text(table: &SizeTable) -> String {
    let lines: String = table.sizes.iter().map(|size| line(table, size)).collect();
    format!("{} ({})\n{lines}", table.title, table.origin)
}

fn line(table: &SizeTable, size: &UsualSize) -> String {
    let sides = format!("{} x {}", size.width.show(table.units), size.height.show(table.units));
    if size.name.is_empty() { format!("  {sides}\n") } else { format!("  {:<14}{sides}\n", size.name) }
}
