//! Job files: what is read, what is assumed, and how every fault is told.

use yardslip::data::{Breakdown, Cents, File, Grain, RipWidths, Rips, Source, listed, locate, read};
use yardslip::length::{Length, Unit};

/// A sheet and a panel: the least a job can say.
const LEAST: &str = "[[sheet]]\nlength = 96\nwidth = 48\nprice = 38.50\n\n[[panel]]\nsize = \"12 x 16\"\ncount = 24\n";

fn source(job: &str) -> Source {
    Source { job: File::of("harbour.toml", job), list: None, rack: None }
}

fn job(text: &str) -> yardslip::data::Job {
    read(&source(text)).unwrap_or_else(|faults| panic!("{}", told(&faults)))
}

fn told(faults: &[yardslip::data::Fault]) -> String {
    faults.iter().map(|fault| format!("{fault}\n")).collect()
}

/// The faults of a job file, as they are printed.
fn faults(text: &str) -> String {
    told(&read(&source(text)).expect_err("the job has faults"))
}

#[test]
fn a_sheet_and_a_panel_are_enough() {
    let job = job(LEAST);
    assert_eq!((job.title.as_str(), job.units, job.currency.as_str()), ("harbour", Unit::In, "$"));
    assert_eq!((job.sheets[0].name.as_str(), job.sheets[0].price), ("48 x 96 sheet", Cents(3850)));
    assert_eq!((job.panels[0].name.as_str(), job.panels[0].count), ("12 x 16", 24));
    assert_eq!((job.panels[0].width, job.panels[0].height), (Length::inches(12), Length::inches(16)));
}
#[test]
fn x() {
    println!("{:#?}", job(LEAST).assumptions);
    println!("{}", faults(""));
    println!(
        "{}",
        faults(
            "title=3\nunits=\"furlong\"\nkerf = 1/8\n[yrd]\nkerf=1\n[[panel]]\nsize=\"9 x 100\"\ncount=-3\nscant=\"12\"\ngrain=\"uprigth\"\n[[panel]]\nsize=\"90 x 100\"\ncount=3\n[[panel]]\nsize=\"0 x 3\"\ncount=99999999999\n[[sheet]]\nname=\"a\"\nlength=96\nwidth=48\nprice=-1\n[saw]\nkerf=50\ncrosses=nan\n[saw]\n"
        )
    );
    println!(
        "{}",
        faults(
            "[[sheet]]\nname=\"a\"\nlength=96\nwidth=48\nprice=1\n[[sheet]]\nname=\"A\"\nlength=96\nwidth=48\nprice=1.234\n[[panel]]\nsize=\"90 x 100\"\ncount=3\n[[panel]]\nsize=\"50 x 60\"\ncount=3\nsheets=[\"b\"]\n[[panel]\n"
        )
    );
}
