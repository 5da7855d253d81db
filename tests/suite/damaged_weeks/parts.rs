//! Parts that are missing or that nobody asked for, labels, indices that lead nowhere.

use super::*;
use yardslip::length::Length;

#[test]
fn a_part_that_is_missing() {
    finds(Rule::WeekPart, |week| week.canvas.take());
    finds(Rule::WeekPart, |week| week.press.take());
    finds(Rule::WeekPart, |week| week.calendar.take());
    finds(Rule::WeekPart, |week| week.labels.take());
    finds(Rule::WeekPart, |week| week.packing.take());
    finds(Rule::WeekPart, |week| week.shopping.take());
}

#[test]
fn a_part_that_nobody_asked_for() {
    finds_against(Rule::WeekPart, |week| week.canvas.take());
    finds_against(Rule::WeekPart, |week| week.labels.take());
    finds_against(Rule::WeekPart, |week| week.pack.take());
    finds_against(Rule::WeekPart, |week| week.calendar.take());
}

#[test]
fn a_label_too_few_and_one_too_many() {
    finds(Rule::Count, |week| week.labels.as_mut().map(|set| set.texts.pop()));
    finds(Rule::Count, |week| week.labels.as_mut().map(|set| set.texts.push(set.texts[0].clone())));
}

#[test]
fn a_label_that_says_something_else() {
    finds(Rule::Label, |week| week.labels.as_mut().map(|set| set.texts.swap(0, 20)));
    finds(Rule::Label, |week| week.labels.as_mut().map(|set| set.texts[3].pop()));
    finds(Rule::Label, |week| week.labels.as_mut().map(|set| set.width += len("1/64")));
    finds_against(Rule::Label, |week| week.labels.as_mut().map(|labels| labels.lines.pop()));
}

#[test]
fn indices_that_lead_nowhere() {
    finds(Rule::Reference, |week| canvas(week).strips[0].pieces[0].panel = 9);
    finds(Rule::Reference, |week| canvas(week).strips[0].from = 9);
    finds(Rule::Reference, |week| canvas(week).misfits.push(9));
    finds(Rule::Reference, |week| press(week).loads[0].stacks[0].panel = 9);
    finds(Rule::Reference, |week| packing(week).parcels[0].stacks[0].layers[0].0 = 9);
    finds(Rule::Reference, |week| packing(week).misfits[0].panel = 9);
    finds(Rule::Reference, |week| list(week).each[0].panel = 9);
    finds(Rule::Reference, |week| calendar(week).rows[0].step = 99);
}

#[test]
fn numbers_beyond_all_measure() {
    finds(Rule::Magnitude, |week| canvas(week).strips[0].depth = Length::from_raw(i64::MAX));
    finds(Rule::Magnitude, |week| press(week).loads[0].stacks[0].count = u32::MAX);
    finds(Rule::Magnitude, |week| packing(week).parcels[0].stacks[0].spot.along = Length::from_raw(-1));
    finds(Rule::Magnitude, |week| list(week).total = Cents(i64::MAX));
}
