//! One integration test binary; a module a concern.

mod beginnings;
mod by_hand;
mod damaged_plans;
mod checker;
mod job_faults;
mod job_files;
mod jobs;
mod laying_out;
mod panel_lists;
mod papers_in;
mod solved_by_hand;
mod program;

mod layers;
mod refusals;
mod paper_frames;
mod optima;
