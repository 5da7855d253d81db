//! Made-up batches that are awkward to plan: many sheet kinds of which few can be had, no more than a few cuts a sheet,
//! strips on hand, a list of rip widths, a tolerance. Each has one of these rules for sure and others by chance. The
//! same seed gives the same batch.

use super::batches::{USUAL, line, workshop};
use super::dice::Dice;
use yardslip::data::{Cents, FreePer, Grain, Job, Panel, RipWidths, Rips, Sheet, StripOnHand};
use yardslip::length::Length;

/// A rule that makes a batch awkward, and what it is called.
type Rule = (&'static str, fn(&mut Job, &mut Dice));

const RULES: [Rule; 5] = [
    ("few of each kind", few_of_each_kind),
    ("most cuts", most_cuts),
    ("strips on hand", strips_on_hand),
    ("listed widths", listed_widths),
    ("tolerance", tolerance),
];

/// Four to twelve usual sizes, 20 to 250 panels, under the rule whose turn it is and one in four of the others; with
/// the name of the former.
pub(crate) fn awkward(seed: u64) -> (&'static str, Job) {
    let mut dice = Dice::new(2000 + seed);
    let mut job = workshop();
    job.yard.rips = dice.among(&[Rips::Along, Rips::Across, Rips::Either]);
    job.saw.trims = dice.among(&[false, true]);
    let many = dice.between(4, 12);
    let each = (dice.between(20, 250) / many).max(1);
    job.panels = dice.several(many as usize, &USUAL).into_iter().map(|size| a_line(size, each, &mut dice)).collect();
    let turn = usize::try_from(seed).expect("a small number") % RULES.len();
    for (at, (_, rule)) in RULES.iter().enumerate() {
        if at == turn || dice.between(1, 4) == 1 {
            rule(&mut job, &mut dice);
        }
    }
    (RULES[turn].0, job)
}

fn a_line(size: (i64, i64), each: u32, dice: &mut Dice) -> Panel {
    let count = dice.between(each.div_ceil(3), each * 2);
    let grain = dice.among(&[Grain::Any, Grain::Any, Grain::Any, Grain::Upright, Grain::Level]);
    Panel { grain, scant: Length::sixty_fourths(dice.among(&[0, 8])), ..line(size, count) }
}

/// Four kinds beside the first, of each of which there are only a few.
fn few_of_each_kind(job: &mut Job, dice: &mut Dice) {
    let kinds = [
        ("5 x 5 ft", 60, 60, 2890),
        ("half sheet", 48, 48, 1750),
        ("4 x 10 ft", 120, 48, 4595),
        ("quarter sheet", 48, 24, 795),
    ];
    for (name, length, width, price) in kinds {
        let (length, width) = (Length::inches(length), Length::inches(width));
        let stock = Some(dice.between(1, 6));
        job.sheets.push(Sheet {
            name: name.into(),
            length,
            width,
            price: Cents(price),
            stock,
            ..job.sheets[0].clone()
        });
    }
}

/// No more than three to six cuts a sheet, most of them paid.
fn most_cuts(job: &mut Job, dice: &mut Dice) {
    job.yard.most_cuts = Some(dice.between(3, 6));
    (job.yard.cut_price, job.yard.free_cuts) = (Cents(75), dice.between(0, 2));
}

/// Three to eight different strips, up to six of each.
fn strips_on_hand(job: &mut Job, dice: &mut Dice) {
    for at in 1..=dice.between(3, 8) {
        let (width, length) = (dice.among(&[5, 6, 8, 9, 10, 11, 12, 14, 16, 18]), dice.between(20, 94));
        job.strips.push(StripOnHand {
            name: format!("strip {at}"),
            width: Length::inches(width),
            length: Length::inches(i64::from(length)),
            count: dice.between(1, 6),
            sheet: None,
            grain_along: dice.among(&[false, true]),
        });
    }
}

/// Whole inches only: where panels can be trimmed a few widths, else all that some side needs.
fn listed_widths(job: &mut Job, dice: &mut Dice) {
    let inches = if job.saw.trims { dice.several(6, &[6, 8, 9, 10, 12, 14, 15, 16, 18]) } else { (5..=23).collect() };
    let widest = [24, 30, 36];
    job.yard.rip_widths = RipWidths::Only(inches.into_iter().chain(widest).map(Length::inches).collect());
}

/// Strips come out up to 1/32 in. under size, sheets have rough edges, and cuts are paid for by the order. All panels
/// have some scant, so that listed widths still give them.
fn tolerance(job: &mut Job, dice: &mut Dice) {
    job.yard.tolerance = Length::sixty_fourths(2);
    (job.yard.cut_price, job.yard.free_per) = (Cents(50), FreePer::Order);
    job.yard.free_cuts = dice.between(0, 20);
    job.sheets.iter_mut().for_each(|sheet| sheet.edge_trim = Length::sixty_fourths(8));
    job.panels.iter_mut().for_each(|panel| panel.scant = Length::sixty_fourths(dice.among(&[4, 8])));
}
