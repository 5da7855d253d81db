//! One integration test binary; a module a concern.

mod job_files;
