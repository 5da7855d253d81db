//! The user's files become a consistent [`Job`], or every fault in them at once, each with place, cause and remedy.
//! This is the only home of raw, unchecked input; what leaves it keeps the promises written on [`Job`].

mod fault;
mod job;
mod money;

pub use fault::{Fault, Place};
pub use job::*;
pub use money::Cents;
