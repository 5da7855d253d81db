//! Threads to solve on.

use std::panic::resume_unwind;
use std::thread::{Builder, Scope, ScopedJoinHandle};

/// Bytes for the calls of a thread; they are only taken from the machine where they are used.
const STACK: usize = 16 << 20;

/// Work on a thread of its own, with room for the deepest search.
pub(crate) fn spawn<'scope, 'env, T: Send + 'scope>(
    scope: &'scope Scope<'scope, 'env>,
    work: impl FnOnce() -> T + Send + 'scope,
) -> ScopedJoinHandle<'scope, T> {
    Builder::new().stack_size(STACK).spawn_scoped(scope, work).expect("the system has a thread to give")
}

/// What came of it; where it broke down, so does this thread.
pub(crate) fn joined<T>(thread: ScopedJoinHandle<T>) -> T {
    thread.join().unwrap_or_else(|panic| resume_unwind(panic))
}
