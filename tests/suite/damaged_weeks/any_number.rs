//! Any one number of the week, changed a little, is noticed.

use super::*;
use yardslip::length::Length;

/// A number somewhere in the week.
#[derive(Debug)]
enum Number<'a> {
    Length(&'a mut Length),
    Count(&'a mut u32),
    Index(&'a mut usize),
    Money(&'a mut Cents),
    Weight(&'a mut f64),
    Flag(&'a mut bool),
}

impl Number<'_> {
    /// Changes it by a step up or down; what would fall below zero goes up.
    fn change(self, up: bool) {
        let by = if up { 1 } else { -1 };
        match self {
            Number::Length(length) => *length += Length::sixty_fourths(by),
            Number::Count(count) => *count = if up || *count == 0 { *count + 1 } else { *count - 1 },
            Number::Index(index) => *index = if up || *index == 0 { *index + 1 } else { *index - 1 },
            Number::Money(Cents(cents)) => *cents += by,
            Number::Weight(weight) => *weight *= 1.0 + 1e-6,
            Number::Flag(flag) => *flag = !*flag,
        }
    }
}

/// Every number of canvas, press, packing and list but the places where stacks lie, which may be many.
fn numbers(week: &mut Week) -> Vec<Number<'_>> {
    use Number::*;
    let mut all = Vec::new();
    let roll = week.canvas.as_mut().expect("canvas");
    all.push(Length(&mut roll.needs));
    all.extend([Money(&mut roll.cost), Count(&mut roll.fewest)]);
    all.extend(roll.lengths.iter_mut().map(Length));
    for strip in &mut roll.strips {
        all.extend([Length(&mut strip.at), Length(&mut strip.depth), Index(&mut strip.from)]);
        for piece in &mut strip.pieces {
            all.extend([Length(&mut piece.across), Length(&mut piece.along)]);
            all.extend([Index(&mut piece.panel), Flag(&mut piece.turned)]);
        }
    }
    let pressed = week.press.as_mut().expect("a press");
    all.push(Count(&mut pressed.floor));
    for load in &mut pressed.loads {
        all.push(Count(&mut load.panels));
        for stack in &mut load.stacks {
            all.extend([Index(&mut stack.panel), Count(&mut stack.count), Length(&mut stack.height)]);
            all.extend([Length(&mut stack.spot.length), Length(&mut stack.spot.width)]);
        }
    }
    let packed = week.packing.as_mut().expect("packing");
    all.extend(packed.inside.iter_mut().flatten().map(Length));
    all.extend([Flag(&mut packed.weight_unknown), Flag(&mut packed.height_unknown), Count(&mut packed.floor)]);
    for misfit in &mut packed.misfits {
        all.extend([Index(&mut misfit.panel), Count(&mut misfit.count)]);
    }
    for parcel in &mut packed.parcels {
        all.push(Weight(&mut parcel.weight));
        for stack in &mut parcel.stacks {
            all.extend([Length(&mut stack.height), Length(&mut stack.spot.length), Length(&mut stack.spot.width)]);
            all.extend(stack.layers.iter_mut().flat_map(|layer| [Index(&mut layer.0), Count(&mut layer.1)]));
        }
    }
    let list = week.shopping.as_mut().expect("a list");
    all.push(Money(&mut list.total));
    for line in &mut list.lines {
        all.extend([Money(&mut line.cost), Flag(&mut line.priced)]);
        all.extend(line.buy.iter_mut().flat_map(|bought| [Count(&mut bought.count), Money(&mut bought.each)]));
    }
    all.extend(list.each.iter_mut().flat_map(|cost| [Index(&mut cost.panel), Money(&mut cost.each)]));
    all
}

#[test]
fn every_number_changed_by_one_step_is_noticed() {
    let job = week_job();
    let count = numbers(&mut week_plan().week).len();
    assert!(count > 150, "a week has many numbers: {count}");
    for (place, up) in (0..count).flat_map(|place| [(place, true), (place, false)]) {
        let mut plan = week_plan();
        let number = numbers(&mut plan.week).swap_remove(place);
        let told = format!("{number:?}, number {place}, up: {up}, goes unnoticed");
        number.change(up);
        assert!(check(&job, &plan).is_err(), "{told}");
    }
}
