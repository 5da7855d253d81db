//! Any one number of a plan, changed a little, is noticed.

use super::*;
use crate::made_up_jobs::settings;
use proptest::prelude::*;
use yardslip::length::Area;
use yardslip::plan::{SheetGroup, Strip};

/// A number somewhere in a plan.
enum Number<'a> {
    Length(&'a mut Length),
    Count(&'a mut u32),
    Index(&'a mut usize),
    Money(&'a mut Cents),
    Aim(&'a mut i64),
    Area(&'a mut Area),
    Weight(&'a mut f64),
    Flag(&'a mut bool),
}

impl Number<'_> {
    /// Changes it by some steps, up or down; a flag and a number that would fall below zero go the other way.
    #[allow(clippy::cast_possible_truncation, clippy::cast_precision_loss)] // a step is a handful
    fn change(self, by: i64) {
        match self {
            Number::Length(length) => *length += Length::sixty_fourths(by),
            Number::Count(count) => *count = count.checked_add_signed(by as i32).unwrap_or(*count + 1),
            Number::Index(index) => *index = index.checked_add_signed(by as isize).unwrap_or(*index + 1),
            Number::Money(Cents(cents)) | Number::Aim(cents) => *cents += by,
            Number::Area(area) => *area = *area + Length::from_raw(by) * Length::from_raw(1),
            Number::Weight(weight) => *weight += 0.001 * by as f64,
            Number::Flag(flag) => *flag = !*flag,
        }
    }
}

/// Every number that the papers print or the cuts follow, but for the widths a strip is refused at, which are limits.
fn numbers(plan: &mut Plan) -> Vec<Number<'_>> {
    use Number::*;
    let cost = &mut plan.cost;
    let mut all = vec![Money(&mut cost.sheets), Money(&mut cost.cuts), Money(&mut cost.total)];
    all.extend([&mut cost.sheets_bought, &mut cost.yard_cuts, &mut cost.paid_cuts].map(Count));
    if plan.proof.proved {
        all.push(Money(&mut plan.proof.bound));
    }
    all.extend(plan.levels.iter_mut().flat_map(|level| [Aim(&mut level.value), Aim(&mut level.bound)]));
    all.extend([&mut plan.areas.stock, &mut plan.areas.panels, &mut plan.areas.kept].map(Area));
    all.extend([Length(&mut plan.load.longest), Length(&mut plan.load.widest), Count(&mut plan.load.trips)]);
    all.extend(plan.load.weight.as_mut().map(Weight));
    plan.sheets.iter_mut().for_each(|group| of_sheets(group, &mut all));
    plan.strips.iter_mut().for_each(|strip| of_strip(strip, &mut all));
    for yard in &mut plan.yard {
        all.push(Count(&mut yard.count));
        all.extend(yard.sheets.iter_mut().map(Index));
    }
    for line in &mut plan.panels {
        all.extend([&mut line.width, &mut line.height, &mut line.cut_width, &mut line.cut_height].map(Length));
        all.extend([&mut line.count, &mut line.extras].map(Count));
        all.extend(line.weight.as_mut().map(Weight));
    }
    for stop in &mut plan.stops {
        all.push(Length(&mut stop.setting));
        for cut in &mut stop.cuts {
            all.extend([Index(&mut cut.strip), Count(&mut cut.strips), Length(&mut cut.left)]);
            all.extend([&mut cut.square_first, &mut cut.hold_long_end].map(Flag));
            all.extend(cut.pieces.iter_mut().map(Index));
        }
    }
    for trim in &mut plan.trims {
        all.extend([Index(&mut trim.panel), Index(&mut trim.strip), Count(&mut trim.count)]);
        all.extend([&mut trim.from, &mut trim.to].map(Length));
    }
    for offcut in &mut plan.offcuts {
        all.extend([Length(&mut offcut.width), Length(&mut offcut.length), Count(&mut offcut.count)]);
        all.extend([Flag(&mut offcut.grain_along), Money(&mut offcut.worth)]);
    }
    all
}

fn of_sheets<'a>(group: &'a mut SheetGroup, all: &mut Vec<Number<'a>>) {
    use Number::*;
    all.extend([Count(&mut group.number), Count(&mut group.count), Index(&mut group.sheet)]);
    let sizes = [&mut group.length, &mut group.width, &mut group.edge_trim, &mut group.needs, &mut group.leaves];
    all.extend(sizes.map(Length));
    all.push(Flag(&mut group.measure_first));
    for board in &mut group.boards {
        all.extend([&mut board.start, &mut board.length, &mut board.fall_off].map(Length));
        all.push(Flag(&mut board.from_far_end));
        for rip in &mut board.rips {
            all.extend([Length(&mut rip.across), Length(&mut rip.width), Index(&mut rip.strip)]);
        }
    }
    for cut in &mut group.cuts {
        match cut {
            YardCut::Breakdown { at } => all.push(Length(at)),
            YardCut::EdgeTrim { board, off } => all.extend([Index(board), Length(off)]),
            YardCut::Rip { board, rip, width, left } => {
                all.extend([Index(board), Index(rip), Length(width), Length(left)]);
            }
        }
    }
}

fn of_strip<'a>(strip: &'a mut Strip, all: &mut Vec<Number<'a>>) {
    use Number::*;
    match &mut strip.origin {
        Origin::Sheet { sheet, grain_along } => all.extend([Index(sheet), Flag(grain_along)]),
        Origin::OnHand { strip } => all.push(Index(strip)),
    }
    all.extend([&mut strip.width, &mut strip.length, &mut strip.squaring, &mut strip.fall_off].map(Length));
    all.push(Count(&mut strip.count));
    all.extend(strip.weight.as_mut().map(Weight));
    for piece in &mut strip.pieces {
        all.push(Index(&mut piece.panel));
        all.extend([&mut piece.along, &mut piece.length, &mut piece.width].map(Length));
        all.extend([&mut piece.turned, &mut piece.extra, &mut piece.trimmed].map(Flag));
    }
}

/// Changes the number at a place and holds that the checker notices.
fn noticed(job: &Job, mut plan: Plan, place: usize, by: i64) -> Result<(), TestCaseError> {
    let sound = plan.clone();
    let mut all = numbers(&mut plan);
    all.swap_remove(place).change(by);
    let difference = || format!("number {place} by {by} goes unnoticed");
    prop_assert!(plan != sound && check(job, &plan).is_err(), "{}", difference());
    Ok(())
}

/// By how much a number is changed: a step or a few, up or down.
fn steps() -> impl Strategy<Value = i64> {
    prop_oneof![1..=3_i64, -3..=-1_i64, 100..10_000_i64]
}

#[test]
fn every_number_changed_by_one_step_is_noticed() {
    for (job, plan) in [(mixed_job(), mixed_plan()), (broken_down_job(), broken_down_plan())] {
        let count = numbers(&mut plan.clone()).len();
        assert!(count > 100, "a plan has many numbers");
        for (place, by) in (0..count).flat_map(|place| [(place, 1), (place, -1)]) {
            noticed(&job, plan.clone(), place, by).unwrap_or_else(|unnoticed| panic!("{unnoticed}"));
        }
    }
}

proptest! {
    #![proptest_config(settings(500))]

    #[test]
    fn any_number_changed_by_any_step_is_noticed(place in any::<prop::sample::Index>(), by in steps()) {
        let mut plan = mixed_plan();
        let place = place.index(numbers(&mut plan).len());
        noticed(&mixed_job(), plan, place, by)?;
    }

    #[test]
    fn two_numbers_changed_at_once_break_nothing_but_the_plan(
        places in any::<[prop::sample::Index; 2]>(),
        by in (any::<i64>(), steps()),
    ) {
        let mut plan = broken_down_plan();
        for (place, by) in places.iter().zip([by.0 >> 12, by.1]) {
            let mut all = numbers(&mut plan);
            let place = place.index(all.len());
            all.swap_remove(place).change(by);
        }
        // Changes may undo each other; what counts is that the checker comes back with an answer.
        prop_assert!(plan == broken_down_plan() || check(&broken_down_job(), &plan).is_err());
    }
}
