//! Notes.
use super::{Note, Plan};
use crate::data::Job;
pub(super) fn notes(_job: &Job, _plan: &Plan) -> Vec<Note> {
    Vec::new()
}
