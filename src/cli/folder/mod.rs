//! The folder of papers: complete or not there at all. It is filled under a temporary name beside its place and swapped
//! in; whatever stood there before stays until then, and is removed only if every file in it is an unchanged paper of
//! ours; else it is kept under another name.

mod ours;
mod swap;

use super::disk::{folder_of, new_entry, reason, spare_name};
use super::failure::Failure;
use std::fs;
use std::io::{self, Write};
use std::path::{Path, PathBuf};
use yardslip::data::Fault;

/// A place where papers may be put.
#[derive(Debug)]
pub(super) struct Place {
    target: PathBuf,
    shown: PathBuf,
}

impl Place {
    /// Makes sure, before any work is done, that papers may be put there.
    pub(super) fn find(target: &Path, replace: bool) -> Result<Place, Failure> {
        let shown = target.to_owned();
        let target = target.canonicalize().unwrap_or_else(|_| target.to_owned());
        if target.symlink_metadata().is_ok_and(|found| !found.is_dir()) {
            let cause = format!("`{}` is a file, so it cannot be the folder of the papers", target.display());
            return Err(refused(cause, "name another folder with `--out`"));
        }
        if let Some(file) = target.ancestors().skip(1).find(|above| above.is_file()) {
            let cause = format!("`{}` is a file, so no folder of papers can stand in it", file.display());
            return Err(refused(cause, "name another folder with `--out`"));
        }
        if std::env::current_dir().is_ok_and(|here| here.starts_with(&target)) {
            let cause = format!("`{}` is the folder you are in, or one around it", target.display());
            return Err(refused(cause, "name a folder of the papers' own, such as `--out papers`"));
        }
        let foreign = ours::foreign(&target);
        if !foreign.is_empty() && !replace {
            return Err(refused(not_ours(&target, &foreign), REPLACE));
        }
        probe(&target).map_err(|error| unwritable(&target, &error))?;
        Ok(Place { target, shown })
    }

    /// Puts the papers there, all or none. Returns where a folder with files of the user's was moved to, if one was.
    pub(super) fn fill(&self, papers: &[(String, Vec<u8>)]) -> Result<Option<PathBuf>, Failure> {
        self.put(papers).map_err(|error| unwritable(&self.target, &error))
    }

    /// The folder as the user named it.
    pub(super) fn shown(&self) -> &Path {
        &self.shown
    }

    fn put(&self, papers: &[(String, Vec<u8>)]) -> io::Result<Option<PathBuf>> {
        fs::create_dir_all(folder_of(&self.target))?;
        let staging = new_entry(".yardslip-").tempdir_in(folder_of(&self.target))?;
        for (name, bytes) in papers {
            write_through(&staging.path().join(name), bytes)?;
        }
        write_through(&staging.path().join(ours::LIST), ours::listing(papers).as_bytes())?;
        let staged = staging.keep();
        let swapped = swap::swap_in(&staged, &self.target).inspect_err(|_| drop(fs::remove_dir_all(&staged)))?;
        swapped.map_or(Ok(None), |old| clear(&old, &self.target))
    }
}

const REPLACE: &str = "name another folder with `--out`, or add `--replace` (your files are kept in FOLDER.old)";

fn refused(cause: String, remedy: &str) -> Failure {
    Failure::undoable(vec![Fault::anywhere(cause, remedy)])
}

fn unwritable(target: &Path, error: &io::Error) -> Failure {
    let cause = format!("the papers cannot be written to `{}`: {}", target.display(), reason(error));
    refused(cause, "name another folder with `--out`; nothing was written, and what stood there is unchanged")
}

fn not_ours(target: &Path, foreign: &[String]) -> String {
    const SHOWN: usize = 3;
    let more = foreign.len().saturating_sub(SHOWN);
    let mut names: Vec<String> = foreign.iter().take(SHOWN).map(|name| format!("`{name}`")).collect();
    if more > 0 {
        names.push(format!("{more} more"));
    }
    format!("`{}` exists and holds files that are not unchanged papers: {}", target.display(), names.join(", "))
}

/// Fails where a folder cannot be made beside the target, or beside the nearest parent that there is.
fn probe(target: &Path) -> io::Result<()> {
    let there = target.ancestors().skip(1).find(|folder| folder.is_dir()).unwrap_or(Path::new("."));
    new_entry(".yardslip-").tempdir_in(there)?.close()
}

/// Writes a file and waits until the disk has it, so that a full disk is noticed while the old papers still stand.
fn write_through(path: &Path, bytes: &[u8]) -> io::Result<()> {
    let mut file = fs::File::create_new(path)?;
    file.write_all(bytes)?;
    file.sync_all()
}

/// Removes the old folder if it holds nothing but our papers, else keeps it under a name that the user can see.
fn clear(old: &Path, target: &Path) -> io::Result<Option<PathBuf>> {
    if ours::foreign(old).is_empty() {
        return fs::remove_dir_all(old).map(|()| None);
    }
    let kept = spare_name(target);
    fs::rename(old, &kept)?;
    Ok(Some(kept))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn papers(text: &str) -> Vec<(String, Vec<u8>)> {
        vec![("plan.json".into(), text.as_bytes().to_vec()), ("slip.svg".into(), b"<svg/>".to_vec())]
    }

    fn names(folder: &Path) -> Vec<String> {
        let mut names: Vec<String> =
            fs::read_dir(folder).unwrap().flatten().map(|entry| entry.file_name().into_string().unwrap()).collect();
        names.sort();
        names
    }

    #[test]
    fn our_own_unchanged_papers_are_exchanged_and_nothing_else_is_left() {
        let home = tempfile::tempdir().unwrap();
        let target = home.path().join("week");
        for text in ["one", "two"] {
            assert_eq!(Place::find(&target, false).unwrap().fill(&papers(text)).unwrap(), None);
            assert_eq!(fs::read_to_string(target.join("plan.json")).unwrap(), text);
        }
        assert_eq!(names(home.path()), ["week"]);
        assert_eq!(names(&target), [".yardslip", "plan.json", "slip.svg"]);
    }

    #[test]
    fn a_place_inside_a_file_is_refused_before_any_work_is_done() {
        let home = tempfile::tempdir().unwrap();
        fs::write(home.path().join("job.toml"), "title").unwrap();
        for inside in ["job.toml", "job.toml/papers", "job.toml/papers/week"] {
            let refusal = Place::find(&home.path().join(inside), true).unwrap_err().faults()[0].to_string();
            assert!(refusal.contains("job.toml` is a file"), "{refusal}");
        }
        assert_eq!(fs::read_to_string(home.path().join("job.toml")).unwrap(), "title");
    }

    #[test]
    fn an_edited_paper_stops_us_and_is_kept_when_replaced() {
        let home = tempfile::tempdir().unwrap();
        let target = home.path().join("week");
        Place::find(&target, false).unwrap().fill(&papers("one")).unwrap();
        fs::write(target.join("slip.svg"), "with notes").unwrap();
        let refusal = Place::find(&target, false).unwrap_err().faults()[0].to_string();
        assert!(refusal.contains("not unchanged papers: `slip.svg`"), "{refusal}");
        let kept = Place::find(&target, true).unwrap().fill(&papers("two")).unwrap().unwrap();
        assert_eq!(fs::read_to_string(kept.join("slip.svg")).unwrap(), "with notes");
        assert_eq!(names(home.path()), ["week", "week.old"]);
    }

    #[test]
    fn a_paper_that_cannot_be_written_leaves_the_old_ones() {
        let home = tempfile::tempdir().unwrap();
        let target = home.path().join("week");
        Place::find(&target, false).unwrap().fill(&papers("one")).unwrap();
        let unwritable = [papers("two"), vec![("no/such/folder".into(), Vec::new())]].concat();
        assert!(Place::find(&target, false).unwrap().fill(&unwritable).is_err());
        assert_eq!(fs::read_to_string(target.join("plan.json")).unwrap(), "one");
        assert_eq!(names(home.path()), ["week"]);
    }

    #[test]
    fn what_turns_up_in_the_folder_while_we_work_is_kept() {
        let home = tempfile::tempdir().unwrap();
        let target = home.path().join("week");
        let place = Place::find(&target, false).unwrap();
        fs::create_dir(&target).unwrap();
        fs::write(target.join("photo.jpg"), "mine").unwrap();
        let kept = place.fill(&papers("one")).unwrap().unwrap();
        assert_eq!(names(&kept), ["photo.jpg"]);
    }
}
