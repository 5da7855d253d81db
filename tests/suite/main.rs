//! One integration test binary; a module a concern.

mod any_text;
mod beginnings;
mod by_hand;
mod damaged_plans;
mod checker;
mod job_faults;
mod job_files;
mod jobs;
mod layers;
mod laying_out;
mod lengths;
mod panel_lists;
mod papers_in;
mod program;

mod commands;
mod layers;
mod refusals;
mod paper_frames;
mod optima;
mod solved_by_hand;
