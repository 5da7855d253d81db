//! Damage to the calendar.

use super::*;
use jiff::Span;
use jiff::civil::DateTime;
use yardslip::data::week::Step;

fn later(at: &mut DateTime, minutes: i64) {
    *at = at.checked_add(Span::new().minutes(minutes)).expect("a moment");
}

#[test]
fn a_batch_missing_or_another_number_of_panels() {
    finds(Rule::Count, |week| calendar(week).rows.pop());
    finds(Rule::Count, |week| calendar(week).rows[0].panels += 1);
    finds(Rule::Calendar, |week| calendar(week).rows[0].batch = 2);
}

#[test]
fn hands_in_two_places_or_out_of_hours() {
    finds(Rule::Calendar, |week| {
        let row = &mut calendar(week).rows[0];
        for at in [&mut row.begin, &mut row.free, &mut row.ready] {
            later(at, -60);
        }
    });
    finds_against(Rule::Calendar, |week| week.calendar.as_mut().map(|calendar| calendar.days = vec![2, 3, 4, 5, 6]));
}

#[test]
fn less_time_than_the_work_takes() {
    finds(Rule::Calendar, |week| later(&mut calendar(week).rows[0].free, -1));
    finds(Rule::Calendar, |week| later(&mut calendar(week).rows[0].ready, -1));
    finds_against(Rule::Calendar, |week| {
        week.calendar.as_mut().and_then(|calendar| calendar.times.get_mut(&Step::Sand).map(|time| time.seconds += 1))
    });
}

#[test]
fn a_batch_taken_up_before_it_is_dry() {
    // The last step moved to the first row's moment: everything before it is still to come.
    finds(Rule::Calendar, |week| {
        let rows = &mut calendar(week).rows;
        let (first, last) = (rows[0], rows.len() - 1);
        let took = rows[last].free.duration_since(rows[last].begin).as_mins();
        rows[last].begin = first.begin;
        rows[last].free = first.begin;
        later(&mut rows[last].free, took);
        rows[last].ready = rows[last].free;
    });
}

#[test]
fn more_on_the_bench_than_it_holds() {
    finds_against(Rule::Calendar, |week| week.calendar.as_mut().map(|calendar| calendar.bench = 10));
}

#[test]
fn a_step_left_out() {
    finds_against(Rule::Calendar, |week| week.finish.as_mut().map(|finish| finish.flaws = 0));
}

#[test]
fn a_wrong_end_or_a_deadline_that_is_not_met() {
    finds(Rule::Calendar, |week| later(&mut calendar(week).finish, -1));
    finds(Rule::Calendar, |week| later(&mut calendar(week).start, 1));
    finds(Rule::Calendar, |week| calendar(week).late = 0);
    finds(Rule::Calendar, |week| calendar(week).deadline = None);
    finds(Rule::Calendar, |week| calendar(week).hands_on += 1);
    finds(Rule::Calendar, |week| calendar(week).helps.iter_mut().for_each(|help| help.meets = !help.meets));
}
