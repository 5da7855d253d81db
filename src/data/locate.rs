//! Faults that are found long after reading know the key they are about, such as `yard.narrowest`; its line is found here.

use super::reading::Document;
use super::{Fault, File, Place};
use toml::de::{DeTable, DeValue};

/// The fault with the place of its key in the job file: its line, or its section's where the key is silent. A fault that
/// has a file already, or is about no key, comes back as it is.
pub fn located(job: &File, fault: Fault) -> Fault {
    if !fault.place.file.is_empty() || fault.place.key.is_empty() {
        return fault;
    }
    Fault { place: place(job, &fault.place.key), ..fault }
}

fn place(job: &File, key: &str) -> Place {
    let found = job.text().ok().and_then(|text| {
        let (table, _) = DeTable::parse_recoverable(text);
        byte(table.get_ref(), key).map(|byte| Document::new(&job.name, text).place(byte, key))
    });
    found.unwrap_or_else(|| Place { file: job.name.clone(), line: 0, key: key.to_owned() })
}

/// Where the key, or as much of it as there is, stands; nowhere among several tables of one name.
fn byte(table: &DeTable, key: &str) -> Option<usize> {
    let (first, rest) = key.split_once('.').unwrap_or((key, ""));
    let value = table.get(first)?;
    let within = match value.get_ref() {
        DeValue::Table(table) => byte(table, rest),
        DeValue::Array(array) => match array.iter().collect::<Vec<_>>()[..] {
            [only] => only.get_ref().as_table().and_then(|table| byte(table, rest)),
            _ => return None,
        },
        _ => None,
    };
    Some(within.unwrap_or(value.span().start))
}
