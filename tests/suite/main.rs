//! One integration test binary; a module a concern.
