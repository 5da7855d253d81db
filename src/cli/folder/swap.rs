//! Puts a finished folder in the place of an old one: in one step where the system can, else in two that are undone
//! when the second fails. At no moment is either folder incomplete.

use crate::cli::disk::spare_name;
use std::fs;
use std::io;
use std::path::{Path, PathBuf};

/// Puts the staged folder in its place; returns where what stood there is now.
pub(super) fn swap_in(staged: &Path, target: &Path) -> io::Result<Option<PathBuf>> {
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
