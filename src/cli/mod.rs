//! Files, clock, terminal and signals: the only place with side effects. A command reads its files, calls the library,
//! and prints or writes what comes back; no figure of a plan is computed here.

mod arguments;
mod failure;
mod terminal;
mod disk;
mod folder;
mod interrupt;
mod watch;
mod source;
mod printing;
mod machine;
mod summary;
mod comparison;
mod rack;
mod check;
mod plan;
mod cut_plan;
mod recut;
mod start;
mod sizes;
mod shell;

use arguments::{Arguments, Command};
use clap::Parser;
use failure::Failure;

/// Runs the command that the program was called with.
pub(crate) fn run() -> Result<(), Failure> {
    match Arguments::parse().command {
        Command::Plan(request) => plan::run(&request),
        Command::Check(request) => check::run(&request),
        Command::Start { file } => start::run(&file),
        Command::Recut(request) => recut::run(&request),
        Command::Sizes => sizes::run(),
        Command::Completions { shell } => shell::completions(shell),
        Command::Man => shell::man(),
    }
}
