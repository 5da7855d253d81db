//! Standard output. A reader that has gone away (`yardslip sizes | head`) is no fault; any other failure to write is.

use super::failure::Failure;
use std::io::{self, ErrorKind, Write};
use yardslip::data::Fault;

/// Prints a text to standard output.
pub(super) fn print(text: &str) -> Result<(), Failure> {
    print_bytes(text.as_bytes())
}

/// Prints bytes to standard output.
pub(super) fn print_bytes(bytes: &[u8]) -> Result<(), Failure> {
    let mut stream = io::stdout().lock();
    match stream.write_all(bytes).and_then(|()| stream.flush()) {
        Err(error) if error.kind() != ErrorKind::BrokenPipe => {
            let cause = format!("standard output cannot be written: {}", super::disk::reason(&error));
            Err(Failure::undoable(vec![Fault::anywhere(cause, "free some space, or print somewhere else")]))
        }
        _ => Ok(()),
    }
}
