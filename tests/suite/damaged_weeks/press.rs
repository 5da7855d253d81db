//! Damage to the press plan.

use super::*;

#[test]
fn panels_missing_under_the_press_or_pressed_twice() {
    finds(Rule::Count, |week| press(week).loads.pop());
    finds(Rule::Count, |week| {
        let load = press(week).loads[0].clone();
        press(week).loads.push(load);
    });
    finds(Rule::Count, |week| press(week).loads[0].panels += 1);
}

#[test]
fn a_panel_without_canvas_under_the_press() {
    finds(Rule::Count, |week| press(week).loads[0].stacks[0].panel = 1);
}

#[test]
fn a_stack_that_is_too_high_or_said_to_be_lower() {
    finds(Rule::Press, |week| press(week).loads[0].stacks[0].height -= len("1/64"));
    finds_against(Rule::Press, |week| week.press.as_mut().map(|press| press.height = len("1")));
}

#[test]
fn stacks_on_each_other_and_beyond_the_board() {
    finds(Rule::Overlap, |week| {
        let first = press(week).loads[0].stacks[0].spot;
        press(week).loads[0].stacks[1].spot = first;
    });
    finds(Rule::Edge, |week| press(week).loads[0].stacks[0].spot.along = len("30"));
    finds_against(Rule::Overlap, |week| week.press.as_mut().map(|press| press.gap += len("12")));
    finds_against(Rule::Edge, |week| week.press.as_mut().map(|press| press.width = len("12")));
}

#[test]
fn a_stack_drawn_smaller_than_its_canvas() {
    finds(Rule::Press, |week| press(week).loads[0].stacks[0].spot.length -= len("1/64"));
}

#[test]
fn more_panels_than_the_press_takes() {
    finds_against(Rule::Press, |week| week.press.as_mut().map(|press| press.most = Some(5)));
}

#[test]
fn more_than_one_stack_that_is_not_in_pairs() {
    finds(Rule::Press, |week| {
        let stacks = &mut press(week).loads[0].stacks;
        let rise = len("5/16");
        (stacks[0].count, stacks[1].count) = (stacks[0].count - 1, stacks[1].count + 1);
        (stacks[0].height, stacks[1].height) = (stacks[0].height - rise, stacks[1].height + rise);
    });
}

#[test]
fn a_line_said_not_to_fit_that_does_and_the_other_way_round() {
    finds(Rule::Misfit, |week| press(week).misfits.pop());
    finds(Rule::Misfit, |week| press(week).misfits[0].too_large = false);
    finds_against(Rule::Misfit, |week| week.press.as_mut().map(|press| press.width = len("40")));
}
