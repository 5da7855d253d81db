//! Jobs for tests: small ones built in a line or two, and a strategy that makes up whole jobs with every shop rule.

use yardslip::data::*;
use yardslip::length::{Length, Unit};

/// A length as the shop writes it, in inches.
pub(crate) fn len(text: &str) -> Length {
    Length::parse(text, Unit::In).unwrap()
}

/// A sheet at 38.50 of which there is no end.
pub(crate) fn sheet(name: &str, length: &str, width: &str) -> Sheet {
    Sheet {
        name: name.into(),
        length: len(length),
        width: len(width),
        thickness: None,
        price: Cents(3850),
        stock: None,
        density: None,
        edge_trim: Length::ZERO,
        tolerance: len("1/16"),
    }
}

/// A line of panels at their nominal size, grain either way.
pub(crate) fn panel(width: &str, height: &str, count: u32) -> Panel {
    Panel {
        name: format!("{width} x {height}"),
        width: len(width),
        height: len(height),
        count,
        scant: Length::ZERO,
        grain: Grain::Any,
        extra: 0,
        worth: Cents::ZERO,
        sheets: vec![],
    }
}

/// One 48 x 96 sheet kind, both kerfs 1/8 in., nothing squared or trimmed, every cut free, no panels yet.
pub(crate) fn small_job() -> Job {
    Job {
        title: "Harbour week".into(),
        units: Unit::In,
        currency: "$".into(),
        rule: len("1/16"),
        sheets: vec![sheet("birch 1/4", "96", "48")],
        panels: vec![],
        strips: vec![],
        keepers: vec![],
        yard: Yard {
            kerf: len("1/8"),
            rips: Rips::Along,
            rip_widths: RipWidths::Any,
            narrowest: len("1"),
            widest: None,
            most_cuts: None,
            free_cuts: 0,
            free_per: FreePer::Sheet,
            cut_price: Cents::ZERO,
            tolerance: Length::ZERO,
            breakdown: Breakdown::Never,
        },
        car: Car::default(),
        saw: Saw {
            kind: SawKind::RadialArm,
            kerf: len("1/8"),
            crosses: None,
            squaring: Length::ZERO,
            shortest: Length::ZERO,
            trims: false,
        },
        week: Week::default(),
        assumptions: vec![],
    }
}
