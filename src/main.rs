//! The `yardslip` program.

fn main() {}
