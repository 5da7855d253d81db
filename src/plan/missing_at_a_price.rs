//! The most worth from strips on hand, put as a question of least money: no real sheet is to be had, but each panel may
//! be bought as a sheet of its own that gives just this panel, at what the panel is worth. What is bought is what the
//! strips do not give, and the solver's proof about the money is a proof about the worth.

use crate::data::{Breakdown, Car, Cents, Grain, Job, Panel, RipWidths, Rips, Saw, Sheet, StripOnHand, Week, Yard};
use crate::length::{Length, RAW_PER_MM};

/// The job with these strips and no sheet to be had, its yard and car out of the way. Strips too wide for the saw are
/// of no use, and are left with a count of zero so that their places stay.
pub(super) fn without_yard(job: &Job, mut strips: Vec<StripOnHand>) -> Job {
    let widest = job.saw.crosses.unwrap_or(Length::MAX);
    strips.iter_mut().filter(|strip| strip.width > widest).for_each(|strip| strip.count = 0);
    let yard = Yard {
        rips: Rips::Along,
        rip_widths: RipWidths::Any,
        narrowest: Length::from_raw(1),
        widest: None,
        most_cuts: None,
        cut_price: Cents::ZERO,
        tolerance: Length::ZERO,
        breakdown: Breakdown::Never,
        ..job.yard.clone()
    };
    let sheets = job.sheets.iter().map(|sheet| Sheet { stock: Some(0), ..sheet.clone() }).collect();
    let saw = Saw { crosses: None, ..job.saw.clone() };
    let keepers = Vec::new();
    Job { sheets, strips, keepers, yard, saw, car: Car::default(), week: Week::default(), ..job.clone() }
}

/// The job of these lines alone, each panel to be had for what it is worth: its own worth where every line has one,
/// else its area.
pub(super) fn job(bare: &Job, lines: &[usize]) -> Job {
    let unknown = bare.sheets.len();
    let mut priced = bare.clone();
    priced.sheets.push(Sheet { stock: Some(0), ..blank("wood of an unknown kind") });
    // A panel bound to sheet kinds takes no strip of an unknown kind: give those a kind that the other panels may use.
    priced.strips.iter_mut().filter(|strip| strip.sheet.is_none()).for_each(|strip| strip.sheet = Some(unknown));
    let by_area = bare.panels.iter().any(|panel| panel.worth == Cents::ZERO);
    priced.panels = Vec::new();
    for line in lines {
        let panel = &bare.panels[*line];
        let own = priced.sheets.len();
        let kinds = if panel.sheets.is_empty() { (0..=unknown).collect() } else { panel.sheets.clone() };
        let sheets = kinds.into_iter().chain([own]).collect();
        priced.sheets.push(as_a_sheet(&bare.saw, panel, if by_area { area(panel) } else { panel.worth }));
        priced.panels.push(Panel { extra: 0, sheets, ..panel.clone() });
    }
    priced
}

/// True where each of these lines can be had one panel at a time: one too short for the hand comes off a strip that
/// gives more of them, its price is a guess, and a least price then proves nothing about the worth.
pub(super) fn exact(bare: &Job, lines: &[usize]) -> bool {
    lines.iter().all(|line| lying(&bare.panels[*line]).0 >= bare.saw.shortest)
}

/// A panel's smallest sides, along and across the grain of the sheet that gives it.
fn lying(panel: &Panel) -> (Length, Length) {
    let (width, height) = (panel.width - panel.scant, panel.height - panel.scant);
    let level = panel.grain == Grain::Level || (panel.grain == Grain::Any && width > height);
    if level { (width, height) } else { (height, width) }
}

/// A sheet that gives just one panel of this line, its first end squared.
fn as_a_sheet(saw: &Saw, panel: &Panel, worth: Cents) -> Sheet {
    let (along, across) = lying(panel);
    // A panel too short to hold needs a strip that the hand can hold behind it, and that strip gives more of them.
    let (behind, panels) = if along < saw.shortest {
        (saw.shortest + saw.kerf, 1 + (saw.shortest + saw.kerf).times(along + saw.kerf))
    } else {
        (Length::ZERO, 1)
    };
    Sheet { length: saw.squaring + along + behind, width: across, price: worth * panels, ..blank(&panel.name) }
}

fn blank(name: &str) -> Sheet {
    Sheet {
        name: name.into(),
        length: Length::inches(1),
        width: Length::inches(1),
        thickness: None,
        price: Cents::ZERO,
        stock: None,
        density: None,
        edge_trim: Length::ZERO,
        tolerance: Length::ZERO,
    }
}

/// A panel's area in square centimetres, as money.
fn area(panel: &Panel) -> Cents {
    Cents(((panel.width.raw() / RAW_PER_MM) * (panel.height.raw() / RAW_PER_MM) / 100).max(1))
}
