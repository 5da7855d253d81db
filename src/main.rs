//! The `yardslip` program: runs the command it is given, says on standard error what went wrong, and ends with 0 when
//! the work is done, 1 when the job cannot be done and 2 when the input is wrong.

mod cli;

use std::process::ExitCode;

fn main() -> ExitCode {
    match cli::run() {
        Ok(()) => ExitCode::SUCCESS,
        Err(failure) => failure.report(),
    }
}
