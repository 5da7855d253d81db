//! The calendar, worked by hand. 4 May 2026 is a Monday.

use crate::papers_in::{faults, job};
use jiff::civil::{DateTime, date};
use yardslip::data::week::{Calendar, Step};
use yardslip::plan::week::calendar::week_plan;
use yardslip::plan::week::work::{Place, Work};
use yardslip::plan::week::{Help, WeekPlan};

const PANELS: &str =
    "[[sheet]]\nlength = 96\nwidth = 48\nprice = 40\n[[panel]]\nsize = \"12 x 16\"\ncount = 1\n[finish]\n";

fn calendar(lines: &str) -> Calendar {
    job(&format!("{PANELS}[calendar]\n{lines}\n")).week.calendar.expect("a calendar")
}

fn work(step: Step, batches: &[u32], place: Place, minutes: u32, wait: u32) -> Work {
    Work { step, batches: batches.to_vec(), place, seconds: minutes * 60, wait }
}

fn plan(lines: &str, works: &[Work]) -> WeekPlan {
    week_plan(&calendar(lines), works).expect("a plan")
}

fn may(day: i8, hour: i8, minute: i8) -> DateTime {
    date(2026, 5, day).at(hour, minute, 0, 0)
}

#[test]
fn hands_work_in_working_hours_and_drying_runs_on_overnight() {
    // 12 panels at 10 min fill 2 h from Monday 16:00; the filler dries over the evening; sanding waits for the morning.
    let works = [work(Step::Fill, &[12], Place::Bench, 10, 120), work(Step::Sand, &[12], Place::Hands, 5, 0)];
    let plan = plan("start = \"2026-05-04 16:00\"", &works);
    let rows: Vec<(DateTime, DateTime, DateTime)> =
        plan.rows.iter().map(|row| (row.begin, row.free, row.ready)).collect();
    assert_eq!(rows[0], (may(4, 16, 0), may(4, 18, 0), may(4, 20, 0)));
    assert_eq!(rows[1], (may(5, 9, 0), may(5, 10, 0), may(5, 10, 0)));
}

#[test]
fn work_that_does_not_fit_before_lunch_waits_until_after_it() {
    let works = [work(Step::Sand, &[6], Place::Hands, 15, 0)];
    let plan = plan("start = \"2026-05-04 11:00\"", &works);
    assert_eq!((plan.rows[0].begin, plan.finish), (may(4, 13, 0), may(4, 14, 30)));
    assert!(!plan.spread);
}

#[test]
fn work_longer_than_any_shift_is_spread_and_said_to_be() {
    // 8 h of sanding from Monday 9:00: 3 h + 5 h of Monday.
    let works = [work(Step::Sand, &[48], Place::Hands, 10, 0)];
    let plan = plan("start = \"2026-05-04 09:00\"", &works);
    assert_eq!(plan.finish, may(4, 18, 0));
    assert!(plan.spread);
}

#[test]
fn the_bench_holds_one_batch_at_a_time_while_the_hands_go_on() {
    // Batch 1 is filled 9:00-10:00 and dry at 12:00; batch 2 waits for the bench and begins after lunch.
    let works = [work(Step::Fill, &[12, 12], Place::Bench, 5, 120)];
    let plan = plan("start = \"2026-05-04 09:00\"", &works);
    assert_eq!(plan.rows[1].begin, may(4, 13, 0));
}

#[test]
fn a_batch_is_sanded_while_the_next_one_dries() {
    let works = [work(Step::Fill, &[6, 6], Place::Bench, 5, 60), work(Step::Sand, &[6, 6], Place::Hands, 5, 0)];
    let plan = plan("start = \"2026-05-04 09:00\"", &works);
    let told: Vec<(usize, u32, DateTime)> = plan.rows.iter().map(|row| (row.step, row.batch, row.begin)).collect();
    // Filled 9:00-9:30, dry 10:30. At 10:30 the bench is free too: sanding batch 1 goes first, then batch 2 is filled
    // 11:00-11:30, dry 12:30, and sanded after lunch.
    assert_eq!(told, [(0, 1, may(4, 9, 0)), (1, 1, may(4, 10, 30)), (0, 2, may(4, 11, 0)), (1, 2, may(4, 13, 0))]);
}

#[test]
fn weekends_are_not_worked_unless_the_job_says_so() {
    let works = [work(Step::Fill, &[1], Place::Bench, 60, 24 * 60), work(Step::Sand, &[1], Place::Hands, 60, 0)];
    let start = "start = \"2026-05-08 15:00\"";
    assert_eq!(plan(start, &works).rows[1].begin, may(11, 9, 0), "Friday's fill is sanded on Monday");
    let every = format!("{start}\ndays = [\"Mon\", \"Tue\", \"Wed\", \"Thu\", \"Fri\", \"Sat\"]");
    assert_eq!(plan(&every, &works).rows[1].begin, may(9, 16, 0));
}

#[test]
fn backwards_from_friday_18_00_the_start_is_as_late_as_it_can_be() {
    // 1 h glued, 12 h pressed, 1 h trimmed and packed by Friday 18:00: glued at the latest on Thursday 17:00-18:00.
    let works = [work(Step::Glue, &[6], Place::Press, 10, 720), work(Step::Trim, &[6], Place::Hands, 10, 0)];
    let plan = plan("deadline = \"2026-05-08 18:00\"", &works);
    assert!(plan.backwards);
    assert_eq!(plan.start, may(7, 17, 0));
    assert!(plan.finish <= may(8, 18, 0) && plan.late <= 0);
}

#[test]
fn a_missed_deadline_is_told_with_what_would_help() {
    // Four press loads, 12 h each, one a night from Monday on: the last is trimmed on Friday morning, not by Wednesday.
    let works =
        [work(Step::Glue, &[6, 6, 6, 6], Place::Press, 10, 720), work(Step::Trim, &[6, 6, 6, 6], Place::Hands, 10, 0)];
    let plan = plan("start = \"2026-05-04 16:00\"\ndeadline = \"Wednesday 18:00\"", &works);
    assert!(plan.late > 0);
    let twice = plan.helps.iter().find(|row| row.help == Help::TwiceThePress).expect("a larger press helps");
    assert!(twice.meets, "two nights are enough");
    assert!(matches!(plan.helps[0].help, Help::StartBy(start) if start < may(4, 16, 0)));
    assert!(!plan.helps.iter().any(|row| row.help == Help::TwiceTheBench), "no bench is in the way");
}

#[test]
fn dates_that_cannot_be_read_are_refused() {
    let told = |lines: &str| faults(&format!("{PANELS}[calendar]\n{lines}\n"));
    assert!(told("start = \"soon\"").contains("`soon` is not a date and time"));
    assert!(told("deadline = \"Friday 18:00\"").contains("names a day of the week, but there is no start"));
    assert!(told("start = \"2026-05-08 18:00\"\ndeadline = \"2026-05-04 18:00\"").contains("not after the start"));
    assert!(told("start = \"2026-05-08 18:00\"\nhours = [\"18:00-9:00\"]").contains("is not a working time"));
    assert!(told("bench = 3").contains("neither a start nor a deadline"));
}

/// Eight panels through all steps, four on the bench and four under the press at a time, each step 5 min a panel.
const ALL_STEPS: &str = r#"
[[sheet]]
length = 96
width = 48
thickness = "1/4"
price = 40
[[panel]]
size = "12 x 16"
count = 8
[finish]
coats = 1
[canvas]
roll = 54
price = 30
[press]
length = 36
width = 24
most = 4
[labels]
[pack]
inside = "20 x 16 x 8"
[calendar]
bench = 4
fill = "5 min, then 1 h"
sand = "5 min"
seal = "5 min, then 2 h"
glue = "5 min, then 12 h"
trim = "5 min"
label = "5 min"
pack = "5 min"
"#;

fn whole(ends: &str) -> WeekPlan {
    let job = job(&format!("{ALL_STEPS}{ends}"));
    let plan = yardslip::plan::make(&job, &yardslip::solve::Patient).expect("it can be done");
    plan.week.calendar.expect("a calendar")
}

#[test]
fn a_whole_week_worked_by_hand() {
    // Two batches of four, 20 min at each step; label and pack 40 min for all eight. Lunch is from 12:00 to 13:00.
    let week = whole("start = \"2026-05-04 09:00\"\n");
    let told: Vec<(Step, u32, DateTime)> =
        week.rows.iter().map(|row| (week.steps[row.step], row.batch, row.begin)).collect();
    let by_hand = [
        (Step::Fill, 1, may(4, 9, 0)),
        (Step::Sand, 1, may(4, 10, 20)),
        (Step::Seal, 1, may(4, 10, 40)),
        (Step::Glue, 1, may(4, 13, 0)), // sealed at 11:00, dry at 13:00; under the press until Tuesday 01:20
        (Step::Fill, 2, may(4, 13, 20)), // the bench is free since 13:00
        (Step::Sand, 2, may(4, 14, 40)),
        (Step::Seal, 2, may(4, 15, 0)), // dry at 17:20, when the press is taken
        (Step::Trim, 1, may(5, 9, 0)),
        (Step::Glue, 2, may(5, 9, 20)),
        (Step::Trim, 2, may(6, 9, 0)),
        (Step::Label, 1, may(6, 9, 20)),
        (Step::Pack, 1, may(6, 10, 0)),
    ];
    assert_eq!(told, by_hand);
    assert_eq!(week.finish, may(6, 10, 40));
    assert_eq!(week.hands_on, 10 * 20 + 2 * 40);
}

#[test]
fn the_same_week_backwards_begins_as_late_as_two_nights_under_the_press_allow() {
    // The first four must be glued on Monday by 17:40: filled 20 min, dry 1 h, sanded 20 min, sealed 20 min, dry 2 h,
    // so begun by 13:40; to the quarter hour that is 13:30.
    let week = whole("deadline = \"2026-05-06 10:40\"\n");
    assert!(week.backwards && week.late == 0);
    assert_eq!(week.start, may(4, 13, 30));
}

#[test]
fn the_same_week_a_day_too_short_says_what_would_help() {
    // Two nights under the press are needed from Monday on, so Tuesday 18:00 is 16 h 40 min too early; with room for
    // all eight under the press one night is enough, and nothing else brings it in time.
    let week = whole("start = \"2026-05-04 09:00\"\ndeadline = \"Tuesday 18:00\"\n");
    assert_eq!(week.late, 16 * 60 + 40);
    let in_time: Vec<Help> = week.helps.iter().filter(|row| row.meets).map(|row| row.help).collect();
    assert!(in_time.contains(&Help::TwiceThePress), "{in_time:?}");
    assert!(in_time.iter().all(|help| matches!(help, Help::StartBy(_) | Help::TwiceThePress)), "{in_time:?}");
}

#[test]
fn a_calendar_without_any_work_is_refused() {
    let told = faults(&format!("{}[calendar]\nstart = \"2026-05-04 09:00\"\n", PANELS.replace("[finish]\n", "")));
    assert!(told.starts_with("`[calendar]` has nothing to plan"), "{told}");
}

#[test]
fn only_times_of_steps_that_the_job_asks_for_count_as_assumed() {
    let assumed = |more: &str| {
        let job = job(&format!("{PANELS}{more}[calendar]\nstart = \"2026-05-04 09:00\"\n"));
        let keys = job.assumptions.into_iter().filter_map(|one| Some(one.key.strip_prefix("calendar.")?.to_owned()));
        keys.filter(|key| !["days", "hours", "bench"].contains(&key.as_str())).collect::<Vec<_>>().join(" ")
    };
    assert_eq!(assumed(""), "fill sand seal coat");
    assert_eq!(assumed("[labels]\n[canvas]\nroll = 54\nprice = 30\n"), "fill sand seal coat glue trim label");
}
