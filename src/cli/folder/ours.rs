//! Which files in a folder are unchanged papers of ours: a list with their checksums, kept among them, tells.

use std::collections::BTreeMap;
use std::fs;
use std::path::Path;

/// The list's name in the folder.
pub(super) const LIST: &str = ".yardslip";

/// Names in a folder that are not unchanged papers of ours; empty where there is no folder.
pub(super) fn foreign(folder: &Path) -> Vec<String> {
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

/// The text of the list.
pub(super) fn listing(papers: &[(String, Vec<u8>)]) -> String {
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
