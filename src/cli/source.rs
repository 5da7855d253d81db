//! Gathers the files that a job is read from: the job file, the list it names, the offcut rack.

use super::disk::{folder_of, read};
use super::failure::Failure;
use std::path::Path;
use yardslip::data::{self, Fault, Job, Source};

/// Reads a job with everything it names; a list is looked for beside the job file.
pub(super) fn read_job(path: &Path, rack: Option<&Path>) -> Result<Job, Failure> {
    data::read(&source(path, rack)).map_err(Failure::input)
}

fn source(path: &Path, rack: Option<&Path>) -> Source {
    let job = read(path);
    let list = data::listed(&job).map(|list| read(&folder_of_job(path).join(list)));
    Source { job, list, rack: rack.map(read) }
}

/// Empty for a job in the current folder, so that messages name its list as the user does.
fn folder_of_job(path: &Path) -> &Path {
    if path.parent().is_some_and(|folder| folder.as_os_str().is_empty()) { Path::new("") } else { folder_of(path) }
}

/// Faults found after reading, which know their key only, with the file and line where that key stands.
pub(super) fn located(path: &Path, faults: Vec<Fault>) -> Failure {
    let source = source(path, None);
    Failure::undoable(faults.into_iter().map(|fault| data::located(&source, fault)).collect())
}
