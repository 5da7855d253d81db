//! `yardslip completions` and `yardslip man`: made from the command line's own definition, so that they never lag behind.

use super::arguments::Arguments;
use super::failure::Failure;
use super::terminal::print_bytes;
use clap::CommandFactory;
use clap_complete::Shell;

/// Prints completions for a shell.
pub(super) fn completions(shell: Shell) -> Result<(), Failure> {
    let mut text = Vec::new();
    clap_complete::generate(shell, &mut Arguments::command(), "yardslip", &mut text);
    print_bytes(&text)
}

/// Prints the manual page.
pub(super) fn man() -> Result<(), Failure> {
    let mut text = Vec::new();
    clap_mangen::Man::new(Arguments::command()).render(&mut text).expect("memory takes every write");
    print_bytes(&text)
}
