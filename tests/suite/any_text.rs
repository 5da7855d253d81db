//! Any text at all, in any file: an answer or faults with a cause, never a panic.

use crate::papers_in::source;
use proptest::prelude::*;
use yardslip::data::{Fault, File, Source, listed, read, read_strips};
use yardslip::length::{Length, Unit};

/// A job file made of lines that are right, wrong and torn.
fn lines() -> impl Strategy<Value = String> {
    let line = prop_oneof![
        Just("[[sheet]]\nlength = 96\nwidth = 48\nprice = 38.50".to_owned()),
        Just("[[panel]]\nsize = \"12 x 16\"\ncount = 24".to_owned()),
        "\\[{0,3}(sheet|panel|yard|saw|car|keep|strip|finish)\\]{0,3}",
        "(size|count|kerf|length|width|price|rip_widths|sheets|name|panels|units|scant) ?= ?\\PC{0,12}",
        "(size|count|kerf|length|width|price|worth|extra|stock) = \"?[-0-9./ x\"']{0,10}\"?",
        "(kerf|tolerance|edge_trim|scant|rule) = (nan|inf|-inf|1e999|0x1F|1_000|true|\\[1, \\[2\\]\\]|\\{a = 1\\}|1979-05-27)",
        "\\PC{0,20}",
    ];
    proptest::collection::vec(line, 0..12).prop_map(|lines| lines.join("\n"))
}

/// A list with a header that is almost right.
fn list() -> impl Strategy<Value = String> {
    let header = "(size|width|height|count|name|worth|zzz)([,;\t](size|count|Count|name|scant|sheets|\"worth\")){0,5}";
    let row = prop_oneof!["[-0-9./ x\"',;\t]{0,30}", "\\PC{0,30}", "(9 ?x ?12|12\" x 16\"|)[,;\t][0-9]{0,12}"];
    (header, proptest::collection::vec(row, 0..8), "(\n|\r\n|\n\n)")
        .prop_map(|(header, rows, end)| format!("{header}{end}{}", rows.join(&end)))
}

/// Every fault has a cause and a place in one of the files.
fn told_well(faults: &[Fault]) -> Result<(), TestCaseError> {
    prop_assert!(!faults.is_empty());
    for fault in faults {
        prop_assert!(!fault.cause.is_empty(), "{:?}", fault.place);
        prop_assert!(["harbour.toml", "panels.csv", "rack.csv"].contains(&fault.place.file.as_str()), "{}", fault);
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(2000))]

    #[test]
    fn any_job_file_is_read_or_refused(text in lines()) {
        let _ = listed(&File::of("harbour.toml", text.clone()));
        match read(&source(&text, None)) {
            Ok(job) => {
                prop_assert!(job.panels.iter().any(|panel| panel.count > 0));
                prop_assert!(job.sheets.iter().all(|sheet| sheet.length > Length::ZERO && sheet.width > Length::ZERO));
                prop_assert!(job.panels.iter().all(|panel| panel.scant < panel.width.min(panel.height)));
            }
            Err(faults) => told_well(&faults)?,
        }
    }

    #[test]
    fn any_list_is_read_or_refused(text in list()) {
        let job = "panels = \"panels.csv\"\n[[sheet]]\nlength = 96\nwidth = 48\nprice = 38.50\n";
        if let Err(faults) = read(&source(job, Some(&text))) {
            told_well(&faults)?;
        }
    }

    #[test]
    fn any_bytes_are_read_or_refused(bytes in proptest::collection::vec(any::<u8>(), 0..200)) {
        let job = File::of("harbour.toml", bytes.clone());
        let list = Some(File::of("panels.csv", bytes.clone()));
        let rack = Some(File::of("rack.csv", bytes.clone()));
        if let Err(faults) = read(&Source { job, list, rack }) {
            told_well(&faults)?;
        }
        if let Err(faults) = read_strips(&File::of("rack.csv", bytes), Unit::Mm, &[]) {
            told_well(&faults)?;
        }
    }
}
