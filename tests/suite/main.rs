//! One integration test binary; a module a concern.

mod by_hand;
mod checker;
mod jobs;

mod papers_in;

mod job_files;

mod laying_out;
mod solved_by_hand;
mod program;

mod layers;
mod refusals;
