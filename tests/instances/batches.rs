//! Made-up batches of painting panels: those that a hobby painter would cut, some at random with every rip direction,
//! grain, one to three sheet kinds and paid cuts. The same seed gives the same batch.

use super::dice::Dice;
use super::{bare_job, panel_mm};
use yardslip::data::{Cents, FreePer, Grain, Job, Panel, Rips, Sheet};
use yardslip::length::{Length, Unit};

/// Usual painting panel sizes in inches (common practice, no source).
pub(crate) const USUAL: [(i64, i64); 16] = [
    (5, 7),
    (6, 6),
    (6, 8),
    (8, 8),
    (8, 10),
    (9, 12),
    (10, 10),
    (11, 14),
    (12, 12),
    (12, 16),
    (14, 18),
    (16, 20),
    (18, 24),
    (20, 24),
    (24, 30),
    (24, 36),
];

/// A workshop with 4 x 8 ft sheets, 1/8 in. kerfs, 1/4 in. of squaring; panels under 4 in. are not held by hand.
pub(crate) fn workshop() -> Job {
    let mut job = bare_job(Length::inches(96), Length::inches(48));
    job.units = Unit::In;
    (job.sheets[0].name, job.sheets[0].price) = ("4 x 8 ft".into(), Cents(3850));
    (job.yard.kerf, job.yard.narrowest) = (Length::sixty_fourths(8), Length::inches(3));
    (job.saw.kerf, job.saw.squaring) = (Length::sixty_fourths(8), Length::sixty_fourths(16));
    job.saw.shortest = Length::inches(4);
    job
}

/// A line of panels at nominal size, grain either way.
pub(crate) fn line((width, height): (i64, i64), count: u32) -> Panel {
    Panel { width: Length::inches(width), height: Length::inches(height), ..panel_mm(width, height, count) }
}

/// Eight usual sizes, 4 to 30 of each, so many times over.
pub(crate) fn hobby(seed: u64, times: u32, trims: bool) -> Job {
    let mut dice = Dice::new(seed);
    let mut job = workshop();
    job.saw.trims = trims;
    job.panels = dice.several(8, &USUAL).into_iter().map(|size| line(size, dice.between(4, 30) * times)).collect();
    job
}

/// 3 to 15 usual sizes, 10 to 400 panels, any direction, grain, scant and charges, one to three sheet kinds.
pub(crate) fn random(seed: u64) -> Job {
    let mut dice = Dice::new(1000 + seed);
    let mut job = workshop();
    let many = dice.between(3, 15);
    let each = (dice.between(10, 400) / many).max(1);
    job.yard.rips = dice.among(&[Rips::Along, Rips::Across, Rips::Either]);
    job.saw.trims = dice.among(&[false, true]);
    for size in dice.several(many as usize, &USUAL) {
        let count = dice.between(each.div_ceil(2), each + each / 2);
        let grain = dice.among(&[Grain::Any, Grain::Any, Grain::Upright, Grain::Level]);
        let scant = Length::sixty_fourths(dice.among(&[0, 8]));
        job.panels.push(Panel { grain, scant, ..line(size, count) });
    }
    add_kinds(&mut job, &mut dice);
    if dice.among(&[false, true]) {
        (job.yard.cut_price, job.yard.free_cuts) = (Cents(50), dice.between(0, 4));
        job.yard.free_per = dice.among(&[FreePer::Sheet, FreePer::Order]);
    }
    job
}

/// None, one or both of two more sheet kinds.
fn add_kinds(job: &mut Job, dice: &mut Dice) {
    let kinds = [("5 x 5 ft", 60, 60, 3300), ("half sheet", 48, 48, 2200)];
    for (name, length, width, price) in kinds.into_iter().take(dice.between(0, 2) as usize) {
        let (length, width) = (Length::inches(length), Length::inches(width));
        let sheet = Sheet { name: name.into(), length, width, price: Cents(price), ..job.sheets[0].clone() };
        job.sheets.push(sheet);
    }
}
