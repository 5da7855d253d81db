//! The folder of papers: complete or not there at all. It is filled under a temporary name beside its place and swapped
//! in; whatever stood there before stays until then, and is removed only if every file in it is an unchanged paper of
//! ours. A list of the papers with their checksums (`.yardslip`) tells.

use super::disk::{folder_of, new_entry, reason, spare_name};
use super::failure::Failure;
use std::collections::BTreeMap;
use std::fs;
use std::io::{self, Write};
use std::path::{Path, PathBuf};
use yardslip::data::Fault;

/// The list of our papers in their folder.
const LIST: &str = ".yardslip";

/// A place where papers may be put.
#[derive(Debug)]
pub(super) struct Place {
    target: PathBuf,
}

impl Place {
    /// Makes sure, before any work is done, that papers may be put there.
    pub(super) fn find(target: &Path, replace: bool) -> Result<Place, Failure> {
        let target = target.canonicalize().unwrap_or_else(|_| target.to_owned());
        if target.symlink_metadata().is_ok_and(|found| !found.is_dir()) {
            let cause = format!("`{}` is a file, so it cannot be the folder of the papers", target.display());
            return Err(refused(cause, "name another folder with `--out`"));
        }
        let foreign = foreign(&target);
        if !foreign.is_empty() && !replace {
            return Err(refused(not_ours(&target, &foreign), REPLACE));
        }
        probe(&target).map_err(|error| unwritable(&target, &error))?;
        Ok(Place { target })
    }

    /// Puts the papers there, all or none. Returns where a folder with files of the user's was moved to, if one was.
    pub(super) fn fill(&self, papers: &[(String, Vec<u8>)]) -> Result<Option<PathBuf>, Failure> {
        self.put(papers).map_err(|error| unwritable(&self.target, &error))
    }

    /// The folder.
    pub(super) fn path(&self) -> &Path {
        &self.target
    }

    fn put(&self, papers: &[(String, Vec<u8>)]) -> io::Result<Option<PathBuf>> {
        fs::create_dir_all(folder_of(&self.target))?;
        let staging = new_entry(".yardslip-").tempdir_in(folder_of(&self.target))?;
        for (name, bytes) in papers {
            write_through(&staging.path().join(name), bytes)?;
        }
        write_through(&staging.path().join(LIST), listing(papers).as_bytes())?;
        let staged = staging.keep();
        let swapped = swap_in(&staged, &self.target).inspect_err(|_| drop(fs::remove_dir_all(&staged)))?;
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

/// Names in a folder that are not unchanged papers of ours; empty where there is no folder.
fn foreign(folder: &Path) -> Vec<String> {
    let ours = fs::read_to_string(folder.join(LIST)).unwrap_or_default();
    let ours: BTreeMap<&str, &str> =
        ours.lines().filter_map(|line| line.split_once(' ')).map(|(sum, n)| (n, sum)).collect();
    let is_ours = |name: &str| {
        name == LIST
            || ours.get(name).is_some_and(|sum| fs::read(folder.join(name)).is_ok_and(|b| checksum(&b) == *sum))
    };
    let entries = fs::read_dir(folder).into_iter().flatten().flatten();
    let mut names: Vec<String> = entries.map(|entry| entry.file_name().to_string_lossy().into_owned()).collect();
    names.retain(|name| !is_ours(name));
    names.sort();
    names
}

fn listing(papers: &[(String, Vec<u8>)]) -> String {
    let lines: Vec<String> = papers.iter().map(|(name, bytes)| format!("{} {name}", checksum(bytes))).collect();
    lines.join("\n") + "\n"
}

/// FNV-1a, 64 bits, after the length: tells an edited paper from an untouched one, not a forged one.
fn checksum(bytes: &[u8]) -> String {
    let hash = bytes
        .iter()
        .fold(0xcbf2_9ce4_8422_2325_u64, |hash, byte| (hash ^ u64::from(*byte)).wrapping_mul(0x0100_0000_01b3));
    format!("{}-{hash:016x}", bytes.len())
}

/// Puts the staged folder in its place; returns where what stood there is now.
fn swap_in(staged: &Path, target: &Path) -> io::Result<Option<PathBuf>> {
    if target.symlink_metadata().is_err() {
        return fs::rename(staged, target).map(|()| None);
    }
    if exchange(staged, target) {
        return Ok(Some(staged.to_owned()));
    }
    let aside = spare_name(target);
    fs::rename(target, &aside)?;
    fs::rename(staged, target).inspect_err(|_| drop(fs::rename(&aside, target)))?;
    Ok(Some(aside))
}

/// Exchanges two folders in one step where the system can.
#[cfg(any(target_os = "linux", target_os = "macos"))]
fn exchange(one: &Path, other: &Path) -> bool {
    use rustix::fs::{CWD, RenameFlags, renameat_with};
    renameat_with(CWD, one, CWD, other, RenameFlags::EXCHANGE).is_ok()
}

#[cfg(not(any(target_os = "linux", target_os = "macos")))]
fn exchange(_: &Path, _: &Path) -> bool {
    false
}

/// Removes the old folder if it holds nothing but our papers, else keeps it under a name that the user can see.
fn clear(old: &Path, target: &Path) -> io::Result<Option<PathBuf>> {
    if foreign(old).is_empty() {
        return fs::remove_dir_all(old).map(|()| None);
    }
    let kept = spare_name(target);
    fs::rename(old, &kept)?;
    Ok(Some(kept))
}
