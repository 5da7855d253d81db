//! `[labels]`: what stands on the backs.

use crate::data::reading::{Fields, Section, Wrong};
use crate::length::Length;
use serde::{Deserialize, Serialize};

/// Labels for the backs.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Labels {
    /// Width of one label.
    pub width: Length,
    /// Its height.
    pub height: Length,
    /// Its lines from the top.
    pub lines: Vec<LabelLine>,
    /// What `{materials}` stands for.
    pub materials: String,
    /// What `{date}` stands for, as it is to be printed.
    pub date: String,
    /// What `{batch}` stands for.
    pub batch: String,
}

/// One line: words and the maker's own text in turn.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct LabelLine(pub Vec<Word>);

/// A part of a line.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Word {
    /// The maker's own words.
    Own(String),
    /// The job's title.
    Title,
    /// The panel's nominal size.
    Size,
    /// The panel line's name.
    Name,
    /// What it is made of.
    Materials,
    /// The date as given.
    Date,
    /// The batch number as given.
    Batch,
    /// A running number, from 1.
    Number,
}

impl LabelLine {
    /// Reads `batch {batch}, no. {number}`.
    ///
    /// # Errors
    /// The part in braces that is not a word of labels, or a brace without its partner.
    pub fn parse(text: &str) -> Result<LabelLine, String> {
        let mut words = Vec::new();
        let mut rest = text;
        while let Some(open) = rest.find('{') {
            let close = rest[open..].find('}').ok_or_else(|| rest[open..].to_string())? + open;
            if open > 0 {
                words.push(Word::Own(rest[..open].to_string()));
            }
            words.push(word(&rest[open + 1..close])?);
            rest = &rest[close + 1..];
        }
        if !rest.is_empty() {
            words.push(Word::Own(rest.to_string()));
        }
        Ok(LabelLine(words))
    }
}

/// The word in braces.
fn word(text: &str) -> Result<Word, String> {
    match text.trim() {
        "title" => Ok(Word::Title),
        "size" => Ok(Word::Size),
        "name" => Ok(Word::Name),
        "materials" => Ok(Word::Materials),
        "date" => Ok(Word::Date),
        "batch" => Ok(Word::Batch),
        "number" => Ok(Word::Number),
        _ => Err(format!("{{{text}}}")),
    }
}

/// Lines of a label where the job names none.
const USUAL: [&str; 4] = ["{title}", "{size}", "{materials}", "{date}"];

/// `[labels]`, with the usual values where the job is silent.
pub(super) fn read(section: &mut Section) -> Labels {
    let wide = section.notes().usual(Length::sixty_fourths(7 * 32), Length::mm(90));
    let high = section.notes().usual(Length::inches(2), Length::mm(50));
    let line = |text: &str| {
        LabelLine::parse(text).map_err(|part| {
            let known = "{title}, {size}, {name}, {materials}, {date}, {batch} and {number}";
            Wrong::new(format!("`{part}` is no word of labels"), format!("the words are {known}"))
        })
    };
    let lines = section.read_some("lines", line);
    let usual = USUAL.iter().filter_map(|text| LabelLine::parse(text).ok()).collect();
    let labels = Labels {
        width: size(section, "width", wide),
        height: size(section, "height", high),
        lines: section.or("lines", lines, usual, USUAL.join(" / "), "common practice: what, how large, of what, when"),
        materials: section.text("materials").unwrap_or_default(),
        date: section.text("date").unwrap_or_default(),
        batch: section.text("batch").unwrap_or_default(),
    };
    section.end();
    labels
}

fn size(section: &mut Section, key: &'static str, usual: Length) -> Length {
    let read = section.length(key);
    section.or(key, read, usual, usual.say(section.units()), "common practice: the size of a business card")
}
