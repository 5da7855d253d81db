//! One integration test binary; a module a concern.

mod papers_in;

mod job_files;

mod laying_out;
mod solved_by_hand;
mod lots;
mod quantities;
mod calendar;
mod press;
mod labels;
mod packing;
