//! One integration test binary; a module a concern.

mod papers_in;

mod job_files;
