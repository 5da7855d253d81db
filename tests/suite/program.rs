//! Runs the program itself in a folder of its own, for the tests of the command line.

use std::fs;
use std::path::Path;
use std::process::{Command, Output};
use tempfile::TempDir;

/// What one run of the program left behind.
#[derive(Debug, PartialEq, Eq)]
pub(crate) struct Run {
    pub(crate) code: Option<i32>,
    pub(crate) out: String,
    pub(crate) err: String,
}

/// An empty folder with these files in it.
pub(crate) fn folder(files: &[(&str, &str)]) -> TempDir {
    let folder = tempfile::tempdir().expect("a temporary folder");
    for (name, text) in files {
        fs::write(folder.path().join(name), text).expect("a file in it");
    }
    folder
}

/// The program with its arguments, ready to be run in a folder.
pub(crate) fn command(folder: &Path, arguments: &[&str]) -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_yardslip"));
    command
        .args(arguments)
        .current_dir(folder)
        .env("COLUMNS", "100")
        .env_remove("NO_COLOR")
        .env_remove("CLICOLOR_FORCE");
    command
}

/// Runs the program in a folder.
pub(crate) fn yardslip(folder: &Path, arguments: &[&str]) -> Run {
    ended(&command(folder, arguments).output().expect("the program starts"))
}

/// What a finished run left behind.
pub(crate) fn ended(output: &Output) -> Run {
    let text = |bytes: &[u8]| String::from_utf8(bytes.to_vec()).expect("UTF-8");
    Run { code: output.status.code(), out: text(&output.stdout), err: text(&output.stderr) }
}

/// The names in a folder, sorted; hidden ones too.
pub(crate) fn names(folder: &Path) -> Vec<String> {
    let entries = fs::read_dir(folder).expect("a folder").flatten();
    let mut names: Vec<String> = entries.map(|entry| entry.file_name().to_string_lossy().into_owned()).collect();
    names.sort();
    names
}
