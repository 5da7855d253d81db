//! Single files: read whole with a plain reason when they cannot be, written completely or not at all, and never over
//! a file of the user's unasked.

use std::fs::File;
use std::io::{self, ErrorKind, Read, Write};
use std::path::{Path, PathBuf};
use yardslip::data;

/// The largest file that is read; a job with every size there is stays far below.
const LARGEST: u64 = 64 << 20;

/// Reads a file for the library, which knows how to say that it could not be read.
pub(super) fn read(path: &Path) -> data::File {
    match read_bytes(path) {
        Ok(bytes) => data::File::of(path.display().to_string(), bytes),
        Err(error) => data::File::unreadable(path.display().to_string(), reason(&error)),
    }
}

fn read_bytes(path: &Path) -> io::Result<Vec<u8>> {
    let mut bytes = Vec::new();
    File::open(path)?.take(LARGEST + 1).read_to_end(&mut bytes)?;
    if bytes.len() as u64 > LARGEST {
        return Err(io::Error::other("it is larger than 64 MB"));
    }
    Ok(bytes)
}

/// Writes a new file completely or not at all; an existing file is left alone and is an error.
pub(super) fn write_new(path: &Path, bytes: &[u8]) -> io::Result<()> {
    let file = beside(path, bytes)?;
    file.persist_noclobber(path).map(drop).map_err(|error| error.error)
}

/// Exchanges a file for new bytes, completely or not at all; the old file is kept under the name that is returned.
pub(super) fn exchange(path: &Path, bytes: &[u8]) -> io::Result<PathBuf> {
    let file = beside(path, bytes)?;
    let kept = spare_name(path);
    std::fs::hard_link(path, &kept).or_else(|_| std::fs::copy(path, &kept).map(drop))?;
    file.persist(path).map_err(|error| error.error)?;
    Ok(kept)
}

/// A temporary file in the same folder, with the bytes on the disk and the rights of any new file.
fn beside(path: &Path, bytes: &[u8]) -> io::Result<tempfile::NamedTempFile> {
    let mut file = new_entry(".yardslip-").tempfile_in(folder_of(path))?;
    file.write_all(bytes)?;
    file.as_file().sync_all()?;
    Ok(file)
}

/// A temporary name whose file or folder gets the rights that the user's umask leaves to any new one.
pub(super) fn new_entry(prefix: &str) -> tempfile::Builder<'_, 'static> {
    let mut builder = tempfile::Builder::new();
    builder.prefix(prefix);
    builder
}

/// The folder that holds a path.
pub(super) fn folder_of(path: &Path) -> &Path {
    match path.parent() {
        Some(folder) if !folder.as_os_str().is_empty() => folder,
        _ => Path::new("."),
    }
}

/// The first name of `X.old`, `X.old-2`, `X.old-3`, ... that is free.
pub(super) fn spare_name(path: &Path) -> PathBuf {
    let name = |suffix: &str| {
        let mut name = path.as_os_str().to_owned();
        name.push(suffix);
        PathBuf::from(name)
    };
    let numbered = (2..).map(|n| name(&format!(".old-{n}")));
    std::iter::once(name(".old")).chain(numbered).find(|path| path.symlink_metadata().is_err()).unwrap_or_default()
}

/// Why the system refused, in a few plain words.
pub(super) fn reason(error: &io::Error) -> String {
    match error.kind() {
        ErrorKind::NotFound => "no such file or folder".into(),
        ErrorKind::PermissionDenied => "no permission".into(),
        ErrorKind::IsADirectory => "it is a folder".into(),
        ErrorKind::NotADirectory => "a part of its path is not a folder".into(),
        ErrorKind::AlreadyExists => "it exists already".into(),
        ErrorKind::StorageFull | ErrorKind::QuotaExceeded => "the disk is full".into(),
        ErrorKind::ReadOnlyFilesystem => "the disk is read-only".into(),
        ErrorKind::FileTooLarge => "the file would be larger than allowed here".into(),
        _ => strip_number(&error.to_string()),
    }
}

/// `Is a directory (os error 21)` without the number that helps nobody.
fn strip_number(text: &str) -> String {
    text.split(" (os error").next().unwrap_or(text).to_lowercase()
}
