//! Faults that are found long after reading know the key they are about, such as `yard.narrowest` or `panel[2].grain`
//! (the third panel of the job); its file and line are found here.

use super::reading::Document;
use super::{Fault, Place, Source, read};
use toml::de::{DeTable, DeValue};

/// The fault with the place of its key in the job's files: its line, or its section's where the key is silent. A fault
/// that has a file already, or is about no key, comes back as it is.
pub fn located(source: &Source, fault: Fault) -> Fault {
    if !fault.place.file.is_empty() || fault.place.key.is_empty() {
        return fault;
    }
    let place = in_job(source, &fault.place.key).or_else(|| in_list(source, &fault.place.key));
    let nowhere = || Place { file: source.job.name.clone(), line: 0, key: plain(&fault.place.key) };
    Fault { place: place.unwrap_or_else(nowhere), ..fault }
}

fn in_job(source: &Source, key: &str) -> Option<Place> {
    let text = source.job.text().ok()?;
    let (table, _) = DeTable::parse_recoverable(text);
    byte(table.get_ref(), key).map(|byte| Document::new(&source.job.name, text).place(byte, plain(key)))
}

/// The row of a panel that the job takes from its list.
fn in_list(source: &Source, key: &str) -> Option<Place> {
    let (section, number, column) = parts(key);
    let place = read::panel_places(source).into_iter().nth(number.filter(|_| section == "panel")?)?;
    Some(Place { key: format!("column {column}"), ..place })
}

/// Where the key, or as much of it as there is, stands; nowhere among several tables of one name.
fn byte(table: &DeTable, key: &str) -> Option<usize> {
    let (section, number, rest) = parts(key);
    let value = table.get(section)?;
    let within = match (value.get_ref(), number) {
        (DeValue::Table(table), _) => byte(table, rest),
        (DeValue::Array(array), None) if array.len() > 1 => return None,
        (DeValue::Array(array), number) => {
            let one = array.get(number.unwrap_or(0))?;
            let inside = one.get_ref().as_table().and_then(|table| byte(table, rest));
            return Some(inside.unwrap_or(one.span().start));
        }
        _ => None,
    };
    Some(within.unwrap_or(value.span().start))
}

/// `panel[2].grain` as `panel`, 2 and `grain`.
fn parts(key: &str) -> (&str, Option<usize>, &str) {
    let (first, rest) = key.split_once('.').unwrap_or((key, ""));
    match first.split_once('[') {
        Some((section, number)) => (section, number.trim_end_matches(']').parse().ok(), rest),
        None => (first, None, rest),
    }
}

/// The key as the user knows it: without numbers.
fn plain(key: &str) -> String {
    let (section, _, rest) = parts(key);
    if rest.is_empty() { section.to_owned() } else { format!("{section}.{rest}") }
}
