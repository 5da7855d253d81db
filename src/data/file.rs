//! The user's files as the command line hands them over: a name to speak of, and the bytes or the reason why there
//! are none. `data` opens no file itself.

use super::{Fault, Place};

/// A file that was read, or could not be.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct File {
    /// The name as the user knows it, for messages.
    pub name: String,
    /// The bytes, or why they could not be read (`no such file`).
    pub content: Result<Vec<u8>, String>,
}

/// Everything a job is read from.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Source {
    /// The job file.
    pub job: File,
    /// The panel list that the job file names (see [`super::listed`]).
    pub list: Option<File>,
    /// The offcut rack, where the user keeps one.
    pub rack: Option<File>,
}

impl File {
    /// A file that was read.
    pub fn of(name: impl Into<String>, bytes: impl Into<Vec<u8>>) -> Self {
        File { name: name.into(), content: Ok(bytes.into()) }
    }

    /// A file that could not be read, and why.
    pub fn unreadable(name: impl Into<String>, why: impl Into<String>) -> Self {
        File { name: name.into(), content: Err(why.into()) }
    }

    /// The text without its byte order mark.
    ///
    /// # Errors
    /// One fault when the file could not be read or is not UTF-8.
    pub(super) fn text(&self) -> Result<&str, Box<Fault>> {
        let fault = |line, cause: String, remedy: &str| {
            let place = Place { file: self.name.clone(), line, key: String::new() };
            Box::new(Fault::at(place, cause, remedy))
        };
        let bytes = self.content.as_ref().map_err(|why| {
            fault(
                0,
                format!("`{}` cannot be read: {why}", self.name),
                "name a file that is there and that you may read",
            )
        })?;
        let bytes = bytes.strip_prefix(b"\xef\xbb\xbf").unwrap_or(bytes);
        std::str::from_utf8(bytes).map_err(|error| {
            let line = bytes[..error.valid_up_to()].split(|byte| *byte == b'\n').count();
            let remedy = "save it as UTF-8 (CSV UTF-8 in a spreadsheet)";
            fault(line, format!("`{}` is not UTF-8 text", self.name), remedy)
        })
    }
}
