//! What is wrong with an input, as data: place, cause, remedy. The English of the frame stands in one `Display`.

use std::fmt;

/// Where in the user's files something stands.
#[derive(Clone, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub struct Place {
    /// The file as the user named it; empty where no file is at fault.
    pub file: String,
    /// Line from 1; 0 where no line is at fault.
    pub line: usize,
    /// Key or column, as the user wrote it; may be empty.
    pub key: String,
}

/// One fault of the input, or one reason why a job cannot be done.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Fault {
    /// Where it stands.
    pub place: Place,
    /// What is wrong, in the user's words and units; lower case, no final period.
    pub cause: String,
    /// What to do about it; lower case, no final period; may be empty.
    pub remedy: String,
}

impl Fault {
    /// A fault that no single line of a file is to blame for.
    pub fn anywhere(cause: impl Into<String>, remedy: impl Into<String>) -> Self {
        Fault { place: Place::default(), cause: cause.into(), remedy: remedy.into() }
    }
}

impl fmt::Display for Place {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", self.file)?;
        if self.line > 0 {
            write!(f, ", line {}", self.line)?;
        }
        if !self.key.is_empty() {
            write!(f, ", `{}`", self.key)?;
        }
        Ok(())
    }
}

impl fmt::Display for Fault {
    /// Up to three lines: the cause, `  --> place`, `  try: remedy`.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", self.cause)?;
        if !self.place.file.is_empty() {
            write!(f, "\n  --> {}", self.place)?;
        }
        if !self.remedy.is_empty() {
            write!(f, "\n  try: {}", self.remedy)?;
        }
        Ok(())
    }
}

impl std::error::Error for Fault {}
