//! One integration test binary; a module a concern.

mod any_text;
mod beginnings;
mod by_hand;
mod checker;
mod commands;
mod comparing;
mod damaged_plans;
mod growing;
mod job_faults;
mod job_files;
mod job_round_trips;
mod jobs;
mod layers;
mod laying_out;
mod lengths;
mod optima;
mod panel_lists;
mod paper_frames;
mod papers;
mod papers_in;
mod program;
mod readme;
mod refusals;
mod solved_by_hand;
mod lots;
mod quantities;
mod calendar;
mod canvas;
mod press;
mod labels;
mod packing;
mod literature;
#[path = "../instances/mod.rs"]
mod instances;
mod sawing;
mod racks;
