//! Small jobs for tests, built in a line or two.

use crate::instances::{bare_job, panel_mm};
use yardslip::data::*;
use yardslip::length::{Length, Unit};

/// A length as the shop writes it, in inches.
pub(crate) fn len(text: &str) -> Length {
    Length::parse(text, Unit::In).unwrap()
}

/// A sheet at 38.50 of which there is no end.
pub(crate) fn sheet(name: &str, length: &str, width: &str) -> Sheet {
    let bare = bare_job(len(length), len(width)).sheets.remove(0);
    Sheet { name: name.into(), price: Cents(3850), tolerance: len("1/16"), ..bare }
}

/// A line of panels at their nominal size, grain either way.
pub(crate) fn panel(width: &str, height: &str, count: u32) -> Panel {
    Panel { name: format!("{width} x {height}"), width: len(width), height: len(height), ..panel_mm(1, 1, count) }
}

/// One 48 x 96 sheet kind, both kerfs 1/8 in., nothing squared or trimmed, every cut free, no panels yet.
pub(crate) fn small_job() -> Job {
    let sheets = vec![sheet("birch 1/4", "96", "48")];
    let mut job = Job { units: Unit::In, rule: len("1/16"), sheets, ..bare_job(len("96"), len("48")) };
    (job.yard.kerf, job.yard.narrowest, job.saw.kerf) = (len("1/8"), len("1"), len("1/8"));
    job
}
