//! Problems with known answers, shared by the tests and the table of figures.

pub(crate) mod awkward;
pub(crate) mod batches;
pub(crate) mod dice;
pub(crate) mod literature;

use literature::Instance;
#[allow(clippy::wildcard_imports)] // a job is made of nearly all of it
use yardslip::data::*;
use yardslip::length::{Length, Unit};

/// One sheet kind at 1.00, nothing lost to any saw, no panels yet.
pub(crate) fn bare_job(length: Length, width: Length) -> Job {
    Job {
        title: "Harbour week".into(),
        units: Unit::Mm,
        currency: "$".into(),
        rule: Length::mm(1),
        sheets: vec![Sheet {
            name: "birch".into(),
            length,
            width,
            thickness: None,
            price: Cents(100),
            stock: None,
            density: None,
            edge_trim: Length::ZERO,
            tolerance: Length::ZERO,
        }],
        panels: vec![],
        strips: vec![],
        keepers: vec![],
        yard: bare_yard(),
        car: Car::default(),
        saw: Saw {
            kind: SawKind::RadialArm,
            kerf: Length::ZERO,
            crosses: None,
            squaring: Length::ZERO,
            shortest: Length::ZERO,
            trims: false,
        },
        week: Week::default(),
        assumptions: vec![],
    }
}

fn bare_yard() -> Yard {
    Yard {
        kerf: Length::ZERO,
        rips: Rips::Along,
        rip_widths: RipWidths::Any,
        narrowest: Length::from_raw(1),
        widest: None,
        most_cuts: None,
        free_cuts: 0,
        free_per: FreePer::Sheet,
        cut_price: Cents::ZERO,
        tolerance: Length::ZERO,
        breakdown: Breakdown::Never,
    }
}

/// A line of panels of so many millimetres.
pub(crate) fn panel_mm(width: i64, height: i64, count: u32) -> Panel {
    Panel {
        name: format!("{width} x {height}"),
        width: Length::mm(width),
        height: Length::mm(height),
        count,
        scant: Length::ZERO,
        grain: Grain::Any,
        extra: 0,
        worth: Cents::ZERO,
        sheets: vec![],
    }
}

impl Instance {
    /// The instance as a job, a unit a millimetre. The sheet's length is the extent along the strips; a panel's height
    /// lies along it, and an upright grain forbids turning.
    pub(crate) fn job(&self, along_length: bool, trims: bool) -> Job {
        let swap = |a: i64, b: i64| if along_length { (a, b) } else { (b, a) };
        let (length, width) = swap(self.length, self.height);
        let mut job = bare_job(Length::mm(length), Length::mm(width));
        job.saw.trims = trims;
        for (along, across, count) in self.panels {
            let (along, across) = swap(*along, *across);
            let grain = if self.turns { Grain::Any } else { Grain::Upright };
            job.panels.push(Panel { grain, ..panel_mm(across, along, *count) });
        }
        job
    }
}
