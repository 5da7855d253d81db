//! Damage to the shopping list.

use super::*;
use yardslip::data::week::{Amount, Measure};
use yardslip::plan::week::Need;

/// Place of each supply on the list: one kind of sheet, cuts, canvas, then these.
const FILLER: usize = 3;
const SANDPAPER: usize = 4;
const SEALER: usize = 6;

#[test]
fn a_total_that_is_not_the_sum_of_its_lines() {
    finds(Rule::Price, |week| list(week).total.0 += 1);
}

#[test]
fn lines_missing_or_twice() {
    for line in 0..9 {
        finds(Rule::Need, |week| list(week).lines.remove(line));
    }
    finds(Rule::Need, |week| {
        let line = list(week).lines[SEALER].clone();
        list(week).lines.push(line);
    });
}

#[test]
fn sheets_cuts_and_canvas_at_a_wrong_price() {
    finds(Rule::Price, |week| list(week).lines[0].cost.0 -= 1);
    finds(Rule::Need, |week| list(week).lines[0].buy[0].count += 1);
    finds(Rule::Price, |week| list(week).lines[1].cost.0 += 1);
    finds(Rule::Need, |week| list(week).lines[2].cost.0 += 1);
    finds(Rule::Need, |week| list(week).lines[2].need = Need::Length(len("1")));
}

#[test]
fn too_little_or_too_much_of_a_supply() {
    finds(Rule::Need, |week| list(week).lines[SEALER].buy[0].count -= 1);
    finds(Rule::Need, |week| list(week).lines[SEALER].buy[0].count += 1);
    finds(Rule::Need, |week| list(week).lines[SEALER].buy.clear());
    finds(Rule::Need, |week| list(week).lines[SEALER].buy[0].name = "1 bucket".into());
    finds(Rule::Need, |week| list(week).lines[FILLER].need = Need::Amount(Amount(1), Measure::Volume));
    finds(Rule::Need, |week| list(week).lines[SANDPAPER].need = Need::Amount(Amount(1000), Measure::Sheets));
    finds_against(Rule::Need, |week| week.finish.as_mut().map(|finish| finish.sheet_sands /= 9.0));
    finds_against(Rule::Need, |week| week.finish.as_mut().map(|finish| finish.coats = 7));
    finds_against(Rule::Need, |week| week.glue.as_mut().map(|glue| glue.waste = 50));
}

#[test]
fn a_dearer_package_than_another_size_alone() {
    finds_against(Rule::Need, |week| week.finish.as_mut().map(|finish| finish.filler[1].price = Cents(1)));
}

#[test]
fn a_package_at_another_price() {
    finds(Rule::Need, |week| list(week).lines[SEALER].buy[0].each = Cents(1));
    finds(Rule::Price, |week| list(week).lines[SEALER].cost.0 += 100);
    finds(Rule::Need, |week| list(week).lines[SEALER].priced = false);
}

#[test]
fn a_panel_that_costs_something_else() {
    finds(Rule::Price, |week| list(week).each[1].each.0 += 2);
    finds(Rule::Need, |week| list(week).each.pop());
}
