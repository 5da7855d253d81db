//! Ctrl-C: the first one asks for the best plan so far, the second one ends the program, except in the moment in which
//! papers are put in their place.

use std::io::Write;
use std::sync::atomic::{AtomicBool, AtomicU32, Ordering::SeqCst};

static PRESSES: AtomicU32 = AtomicU32::new(0);
static WRITING: AtomicBool = AtomicBool::new(false);

/// What a shell reports for a program that was ended by Ctrl-C: 128 and the number of the signal.
const ENDED: i32 = 130;

/// Listens from now on. Where that is not possible, Ctrl-C ends the program as usual: nothing is half-written then
/// either.
pub(super) fn listen() {
    let _ = ctrlc::set_handler(|| {
        if PRESSES.fetch_add(1, SeqCst) == 0 {
            let _ = writeln!(std::io::stderr(), "\nstopping with the best plan so far; Ctrl-C again ends at once");
        } else if !WRITING.load(SeqCst) {
            std::process::exit(ENDED);
        }
    });
}

/// True once the user asked to stop.
pub(super) fn asked() -> bool {
    PRESSES.load(SeqCst) > 0
}

/// Does a short piece of work that must not be cut off in the middle.
pub(super) fn undisturbed<T>(work: impl FnOnce() -> T) -> T {
    WRITING.store(true, SeqCst);
    let result = work();
    WRITING.store(false, SeqCst);
    result
}
