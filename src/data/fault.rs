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
    /// The line at fault with a caret under the spot, where it helps; may be empty.
    pub excerpt: String,
}

impl Place {
    /// A key of the job where no file is at hand, such as `yard.narrowest`.
    pub fn key(key: impl Into<String>) -> Self {
        Place { key: key.into(), ..Place::default() }
    }
}

impl Fault {
    /// A fault at a place.
    pub fn at(place: Place, cause: impl Into<String>, remedy: impl Into<String>) -> Self {
        Fault { place, cause: cause.into(), remedy: remedy.into(), excerpt: String::new() }
    }

    /// A fault that no single line of a file is to blame for.
    pub fn anywhere(cause: impl Into<String>, remedy: impl Into<String>) -> Self {
        Fault::at(Place::default(), cause, remedy)
    }
}

impl fmt::Display for Place {
    /// `panels.csv, line 7, column size`, of which any part may be missing.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let line = if self.line > 0 { format!("line {}", self.line) } else { String::new() };
        let parts = [self.file.as_str(), &line, &self.key];
        let parts: Vec<&str> = parts.into_iter().filter(|part| !part.is_empty()).collect();
        f.write_str(&parts.join(", "))
    }
}

impl fmt::Display for Fault {
    /// The cause, then `  --> place`, the line at fault and `  try: remedy`, each where there is one.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&shortened(&self.cause))?;
        if self.place != Place::default() {
            write!(f, "\n  --> {}", self.place)?;
        }
        for line in self.excerpt.lines() {
            write!(f, "\n  | {line}")?;
        }
        if !self.remedy.is_empty() {
            write!(f, "\n  try: {}", self.remedy)?;
        }
        Ok(())
    }
}

/// The text, or its two ends where it quotes something endless.
fn shortened(text: &str) -> String {
    let signs: Vec<char> = text.chars().collect();
    if signs.len() <= 2 * END {
        return text.to_owned();
    }
    let end = |signs: &[char]| signs.iter().collect::<String>();
    format!("{}...{}", end(&signs[..END]), end(&signs[signs.len() - END..]))
}

/// Signs at either end of a cause that are always printed.
const END: usize = 400;

impl std::error::Error for Fault {}
