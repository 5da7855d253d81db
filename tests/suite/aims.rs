//! The later aims: extra panels from waste alone, offcuts kept, and counts that claim no more than their bounds.

use crate::jobs::{len, panel, small_job};
use std::sync::atomic::{AtomicU32, Ordering};
use yardslip::data::{Cents, Grain, Job, Keeper, Panel, StripOnHand};
use yardslip::plan::{check, lay_out};
use yardslip::solve::{Aim, Level, Patient, PieceCut, Progress, Solved, StripUse, Watch, solve};

fn solved(job: &Job) -> Solved {
    let solved = solve(job, &Patient).expect("a job that can be done");
    assert_eq!(check(job, &lay_out(job, &solved)), Ok(()));
    solved
}

fn level(solved: &Solved, aim: Aim) -> Option<Level> {
    solved.levels.iter().copied().find(|level| level.aim == aim)
}

fn extras(solved: &Solved) -> usize {
    let strips = solved.sheets.iter().flat_map(|sheet| &sheet.boards).flat_map(|board| &board.strips);
    let pieces = strips.flat_map(|strip| &strip.pieces).chain(solved.on_hand.iter().flat_map(|used| &used.pieces));
    pieces.filter(|piece| piece.extra).count()
}

fn on_hand(width: &str, length: &str, count: u32) -> StripOnHand {
    let (width, length) = (len(width), len(length));
    StripOnHand { name: String::new(), width, length, count, sheet: None, grain_along: true }
}

/// One panel of 12 x 16, and as many more as are welcome.
fn wishful(extra: u32) -> Job {
    let mut job = small_job();
    let mut wished = panel("12", "16", 1);
    (wished.extra, wished.worth) = (extra, Cents(900));
    job.panels = vec![wished];
    job
}

#[test]
fn extra_panels_come_from_the_fall_off_and_cost_nothing() {
    let (plain, wished) = (solved(&wishful(0)), solved(&wishful(3)));
    assert_eq!(wished.cost, plain.cost);
    assert_eq!(extras(&wished), 3);
    let worth = level(&wished, Aim::Worth).expect("wishes make a level");
    assert_eq!((worth.value, worth.bound, worth.proved), (2700, 2700, true));
}

#[test]
fn a_job_without_wishes_and_keepers_has_no_worth_to_speak_of() {
    assert_eq!(level(&solved(&wishful(0)), Aim::Worth), None);
}

/// What one sheet gives beyond the panel that is asked for, proved to be most.
fn most_from_one_sheet(job: &Job) -> usize {
    let solved = solved(job);
    let worth = level(&solved, Aim::Worth).expect("wishes make a level");
    assert_eq!((worth.proved, worth.bound), (true, worth.value), "{worth:?}");
    assert_eq!(worth.value, 900 * i64::try_from(extras(&solved)).unwrap());
    assert_eq!(solved.cost, Cents(3850));
    extras(&solved)
}

/// One 48 x 96 sheet gives 15 panels of 12 x 16 upright, 19 turned as they like, 24 where they may come out 1/8 in.
/// scant: by hand, kerf by kerf, and with another solver on an arc-flow model.
#[test]
fn a_sheet_bought_for_one_panel_gives_all_that_a_sheet_can_give() {
    let mut job = wishful(500);
    assert_eq!(most_from_one_sheet(&job), 19 - 1);
    job.panels[0].grain = Grain::Upright;
    assert_eq!(most_from_one_sheet(&job), 15 - 1);
    job.panels[0].grain = Grain::Any;
    job.panels[0].scant = len("1/8");
    assert_eq!(most_from_one_sheet(&job), 24 - 1);
}

#[test]
fn no_more_extra_panels_are_cut_than_are_welcome() {
    assert_eq!(most_from_one_sheet(&wishful(7)), 7);
}

/// Three of 12 x 30 take one strip of 12 in.; the 35 7/8 in. beside it give one strip of 24 in. with three of 24 x 30
/// (90 1/4 in.), or one of 30 in. with three of them lying across (72 1/4 in.), and no second strip of either.
#[test]
fn strips_are_ripped_for_extra_panels_alone() {
    let mut job = small_job();
    let mut wished = panel("24", "30", 0);
    (wished.extra, wished.worth) = (5, Cents(2500));
    job.panels = vec![panel("12", "30", 3), wished];
    let solved = solved(&job);
    assert_eq!((solved.cost, extras(&solved)), (Cents(3850), 3));
    assert_eq!(level(&solved, Aim::Worth), Some(Level { aim: Aim::Worth, value: 7500, bound: 7500, proved: true }));
}

/// With every cut paid for beyond the first, a strip for extra panels alone would cost a cut. One strip of 30 in. with
/// all panels lying across it does: 3 x 12 + 2 x 24 in. and four kerfs, 84 1/2 in.
#[test]
fn no_cut_is_paid_for_extra_panels() {
    let mut job = small_job();
    job.yard.cut_price = Cents(50);
    job.yard.free_cuts = 1;
    let mut wished = panel("24", "30", 0);
    (wished.extra, wished.worth) = (5, Cents(2500));
    job.panels = vec![panel("12", "30", 3), wished];
    let solved = solved(&job);
    assert_eq!((solved.cost, extras(&solved)), (Cents(3850), 2));
}

#[test]
fn of_strips_on_hand_those_that_are_started_are_filled_with_what_is_worth_most() {
    let mut job = small_job();
    job.sheets[0].stock = Some(0);
    job.strips = vec![on_hand("12", "40", 2)];
    let (mut small, mut large) = (panel("12", "9", 0), panel("12", "16", 1));
    (small.extra, small.worth) = (20, Cents(500));
    (large.extra, large.worth) = (20, Cents(1000));
    job.panels = vec![small, large];
    let solved = solved(&job);
    // Beside a panel of 16 in. a strip of 40 in. holds another (32 1/8 in. with kerfs) or two of 9 in. (34 1/4 in.),
    // for 10.00; 16 + 16 + 9 in. are 41 in. before any kerf. The other strip stays whole: it is no waste.
    let level = level(&solved, Aim::Worth).expect("extras make a level");
    assert_eq!((level.value, solved.cost), (1000, Cents(0)));
    assert_eq!(solved.on_hand.iter().map(|used| used.count).sum::<u32>(), 1);
}

#[test]
fn an_offcut_worth_more_than_the_extra_panel_is_kept_whole() {
    let mut job = wishful(1);
    job.keepers = vec![Keeper { width: len("12"), length: len("70"), worth: Cents(2000) }];
    let kept = solved(&job);
    assert_eq!(kept.cost, Cents(3850));
    let worth = level(&kept, Aim::Worth).expect("keepers make a level");
    assert!(worth.value >= 2000, "the strip's fall-off of 79 7/8 in. is kept: {worth:?}");
    assert!(worth.value <= worth.bound);
}

#[test]
fn one_layout_one_width_and_one_setting_are_proved_to_be_fewest() {
    let solved = solved(&wishful(0));
    let one = |aim, value| Some(Level { aim, value, bound: value, proved: true });
    assert_eq!(level(&solved, Aim::Layouts), one(Aim::Layouts, 2));
    assert_eq!(level(&solved, Aim::Settings), one(Aim::Settings, 1));
}

#[test]
fn panels_that_share_no_side_need_a_width_and_a_setting_each() {
    let mut job = small_job();
    job.panels = vec![panel("10", "10", 1), panel("14", "14", 1)];
    let solved = solved(&job);
    let two = Level { aim: Aim::Settings, value: 2, bound: 2, proved: true };
    assert_eq!(level(&solved, Aim::Settings), Some(two));
    let three = Level { aim: Aim::Layouts, value: 3, bound: 3, proved: true };
    assert_eq!(level(&solved, Aim::Layouts), Some(three));
}

/// Strips as long as the sheet, one panel each: 15 + 15 + 10 in. and two kerfs are 40 1/4 in., so two sheets alike give
/// four of the one and two of the other. Three of 15 in. on one sheet would need a second layout.
#[test]
fn strips_change_places_until_sheets_are_ripped_alike() {
    let mut job = small_job();
    job.panels = vec![panel("15", "96", 4), panel("10", "96", 2)];
    job.panels.iter_mut().for_each(|panel| panel.grain = Grain::Upright);
    let solved = solved(&job);
    assert_eq!((solved.cost, solved.sheets.len()), (Cents(7700), 1));
    let three = Level { aim: Aim::Layouts, value: 3, bound: 3, proved: true };
    assert_eq!(level(&solved, Aim::Layouts), Some(three));
}

/// 12 x 16 and 16 x 9 both lie on strips of 16 in., at two settings; strips of 12 and of 9 in. would need one setting,
/// 16 in., but a width more. The yard goes first, and with its one width two settings are fewest.
#[test]
fn a_width_less_at_the_yard_goes_before_a_setting_less_at_home() {
    let mut job = small_job();
    job.panels = vec![panel("12", "16", 5), panel("16", "9", 5)];
    let solved = solved(&job);
    let two = Level { aim: Aim::Layouts, value: 2, bound: 2, proved: true };
    assert_eq!(level(&solved, Aim::Layouts), Some(two));
    let two = Level { aim: Aim::Settings, ..two };
    assert_eq!(level(&solved, Aim::Settings), Some(two));
}

/// Three strips of 12 in. give fifteen of 12 x 16, two of 16 in. fourteen, and two of 16 with one of 12 in. nineteen:
/// so up to fifteen need one width and one setting, and nineteen need two of each.
#[test]
fn as_many_widths_and_settings_as_the_count_needs_and_no_more() {
    let of = |count: u32| {
        let mut job = small_job();
        job.panels = vec![panel("12", "16", count)];
        let solved = solved(&job);
        assert_eq!(solved.cost, Cents(3850));
        [Aim::Layouts, Aim::Settings].map(|aim| level(&solved, aim).map(|level| (level.value, level.proved)))
    };
    assert_eq!(of(15), [Some((2, true)), Some((1, true))]);
    assert_eq!(of(19), [Some((3, true)), Some((2, true))]);
}

#[test]
fn what_every_plan_must_have_is_proved_though_sides_may_come_out_alike() {
    // 12 and 12 1/16 may both be cut 11 15/16; one layout, one width and one setting are the fewest there can be.
    let mut line = panel("12", "12 1/16", 3);
    line.scant = len("1/8");
    let job = Job { panels: vec![line], ..small_job() };
    let levels = lay_out(&job, &solved(&job)).levels;
    let proved = |aim, value| Level { aim, value, bound: value, proved: true };
    assert_eq!(levels, [proved(Aim::Layouts, 2), proved(Aim::Settings, 1)]);
}

/// Lets the money be settled and leaves no time for what comes after it.
struct NoTimeLeft(AtomicU32);

impl Watch for NoTimeLeft {
    fn stop(&self) -> bool {
        false
    }
    fn seconds(&self) -> f64 {
        f64::from(self.0.fetch_add(1, Ordering::Relaxed))
    }
    fn allowed(&self) -> f64 {
        0.0
    }
    fn report(&self, _: Progress) {}
}

#[test]
fn without_time_for_it_the_plan_still_holds_and_only_what_is_certain_is_claimed() {
    let mut job = wishful(500);
    job.panels.push(panel("9", "12", 7));
    let (hurried, patient) = (solve(&job, &NoTimeLeft(AtomicU32::new(1))).expect("a plan"), solved(&job));
    assert_eq!(check(&job, &lay_out(&job, &hurried)), Ok(()));
    let (early, late) = (level(&hurried, Aim::Worth).expect("a level"), level(&patient, Aim::Worth).expect("a level"));
    assert!(early.value <= late.value && late.value <= early.bound, "{early:?} {late:?}");
    assert!(!early.proved);
}

#[test]
fn the_same_job_gives_the_same_plan() {
    let mut job = wishful(30);
    job.panels.extend([panel("9", "12", 17), panel("8", "10", 23), panel("11", "14", 9)]);
    job.keepers = vec![Keeper { width: len("8"), length: len("24"), worth: Cents(150) }];
    assert_eq!(solved(&job), solved(&job));
}

#[test]
fn extra_panels_alone_start_no_whole_strip_on_hand() {
    // Each strip of 21 in. gives two of 8 x 10. One is asked for, three more are welcome: one of them comes off the
    // same strip, and the other strip stays whole.
    let grain = Grain::Upright;
    let line = Panel { extra: 3, worth: Cents(500), grain, ..panel("8", "10", 1) };
    let job = Job { sheets: vec![], strips: vec![on_hand("8", "21", 2)], panels: vec![line], ..small_job() };
    let mut solved = solve(&job, &Patient).expect("one strip does");
    let plan = lay_out(&job, &solved);
    assert_eq!(check(&job, &plan), Ok(()));
    assert_eq!((plan.strips.len(), plan.strips[0].count, plan.panels[0].extras), (1, 1, 1));
    // The checker refuses what the solver leaves.
    let extra = PieceCut { panel: 0, turned: false, trimmed: false, extra: true };
    solved.on_hand.push(StripUse { strip: 0, count: 1, pieces: vec![extra; 2] });
    let found = check(&job, &lay_out(&job, &solved)).expect_err("a whole strip for extras");
    assert!(found.iter().any(|one| one.to_string().contains("extra panels alone are cut from a strip on hand")));
}
