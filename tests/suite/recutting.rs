//! After the yard: the crosscuts planned again from the strips really on hand.

use crate::papers_in::shop;
use crate::solved_by_hand::len;
use yardslip::data::{Job, StripOnHand};
use yardslip::documents::blocks::Paper;
use yardslip::documents::{overview, shopping, wording};
use yardslip::length::Length;
use yardslip::plan::{Done, Lettered, Missing, Origin, Stage, recognise, recut};
use yardslip::solve::Patient;

fn batch() -> Job {
    shop(
        r#"
[[panel]]
size = "12 x 16"
count = 10
scant = "1/8"
[[panel]]
size = "9 x 12"
count = 4
scant = "1/8"
"#,
    )
}

fn measured(letter: &str, width: &str, length: &str, count: u32) -> StripOnHand {
    let (width, length) = (len(width), len(length));
    StripOnHand { name: letter.into(), width, length, count, sheet: Some(0), grain_along: true }
}

#[test]
fn strips_as_asked_give_all_panels_again() {
    let strips = vec![measured("A", "12", "96", 2), measured("B", "9", "96", 1)];
    let again = recut(&batch(), strips, &Patient).expect("a plan");
    let plan = again.done.expect("panels come of it").plan;
    assert_eq!(plan.panels.iter().map(|line| line.count).collect::<Vec<_>>(), [10, 4]);
    assert_eq!((again.missing, again.good), (vec![], None));
    assert_eq!(plan.cost.sheets_bought, 0);
}

#[test]
fn a_cracked_strip_costs_its_panels_and_a_sheet_makes_them_good() {
    // One strip of 12 is gone, the other cracked at 40: two panels of 16 instead of ten.
    let strips = vec![measured("A", "12", "40", 1), measured("B", "9", "96", 1)];
    let again = recut(&batch(), strips, &Patient).expect("a plan");
    assert_eq!(again.missing, [Missing { panel: 0, name: "12 x 16".into(), count: 8 }]);
    let good = again.good.expect("some are missing").expect("there are sheets");
    assert_eq!((good.plan.cost.sheets_bought, good.plan.panels[0].count), (1, 8));
}

#[test]
fn a_strip_cut_under_the_smallest_size_gives_none_of_its_panels() {
    // 11 13/16 is under 11 7/8, the least that a 12 in. panel with 1/8 in. of scant may be.
    let strips = vec![measured("A", "11 13/16", "96", 2), measured("B", "9", "96", 1)];
    let again = recut(&batch(), strips, &Patient).expect("a plan");
    assert_eq!(again.missing, [Missing { panel: 0, name: "12 x 16".into(), count: 10 }]);
    assert_eq!(again.done.expect("the small ones").plan.panels.len(), 1);
}

#[test]
fn where_not_all_fit_the_strips_give_the_most_worth() {
    // One strip of 12 in., 40 long: two of 12 x 16 and no 9 x 12 turned is 2 x 9; three of the small ones turned 3 x 4.
    let mut job = batch();
    (job.panels[0].worth.0, job.panels[1].worth.0) = (900, 400);
    let again = recut(&job, vec![measured("A", "12", "40", 1)], &Patient).expect("a plan");
    let plan = again.done.expect("panels come of it").plan;
    let worth: u32 = plan.panels.iter().map(|line| line.count * if line.name == "12 x 16" { 9 } else { 4 }).sum();
    // 2 x 15 7/8 + 2 kerfs leave 8 in.: one of 8 7/8 does not fit; 15 7/8 + 2 x 8 7/8 + 2 kerfs do: 9 + 4 + 4 is less
    // than 18.
    assert_eq!(worth, 18);
}

#[test]
fn no_strip_at_all_means_that_everything_is_made_good() {
    let again = recut(&batch(), vec![], &Patient).expect("a plan");
    assert!(again.done.is_none());
    assert_eq!(again.missing.iter().map(|missing| missing.count).collect::<Vec<_>>(), [10, 4]);
    assert!(again.good.expect("all are missing").is_ok());
}

#[test]
fn a_measured_strip_takes_its_wood_from_its_letter() {
    let mut strips = vec![StripOnHand { sheet: None, ..measured("b ", "12", "40", 1) }, measured("A", "9", "40", 1)];
    let known = |letter: &str, grain_along| Lettered { letter: letter.into(), sheet: Some(0), grain_along };
    recognise(&mut strips, &[known("A", false), known("B", false)]);
    assert_eq!((strips[0].sheet, strips[0].grain_along), (Some(0), false));
    assert!(strips[1].grain_along, "a strip with a sheet kind of its own keeps its grain");
}

#[test]
fn a_panel_too_short_to_hold_leaves_the_worth_unproved() {
    // Where the hand needs 12 in., a 9 x 12 panel of 11 7/8 in. comes only off a strip that gives more of them.
    let mut job = batch();
    let strips = || vec![measured("A", "12", "40", 1)];
    let proof = |job: &Job| wording::proof(&recut(job, strips(), &Patient).expect("a plan").done.expect("panels").plan);
    assert_eq!(proof(&job), "Proved: these strips give no panels of more worth.");
    job.saw.shortest = len("12");
    assert_eq!(proof(&job), "Not proved: these strips may give panels of more worth.");
}

#[test]
fn strips_that_nothing_is_cut_from_are_told_with_the_reason() {
    // 12 1/16 is over size by 1/16, and a third strip of 9 in. is more than four panels need; 5 in. are too narrow.
    let strips = vec![measured("A", "12 1/16", "96", 2), measured("B", "9", "96", 3), measured("C", "5", "96", 1)];
    let again = recut(&batch(), strips, &Patient).expect("a plan");
    let told: Vec<(&str, u32, bool, Option<Length>)> = again
        .unused
        .iter()
        .map(|unused| (unused.strip.name.as_str(), unused.strip.count, unused.fits, unused.too_wide))
        .collect();
    assert_eq!(told, [("A", 2, false, Some(len("1/16"))), ("B", 2, true, None), ("C", 1, false, None)]);
}

#[test]
fn strips_keep_the_letters_that_are_pencilled_on_them() {
    // Listed as they were unloaded, not as they were lettered.
    let strips =
        vec![measured("C", "9", "24 3/4", 2), measured("a", "12", "96", 2), measured("old board", "9", "13", 1)];
    let again = recut(&batch(), strips, &Patient).expect("a plan");
    let Done { job, plan } = again.done.expect("panels come of it");
    for strip in &plan.strips {
        let Origin::OnHand { strip: at } = strip.origin else { panic!("{strip:?}") };
        let (name, letter) = (job.strips[at].name.to_uppercase(), strip.letter.as_str());
        let kept = name == letter || letter.strip_prefix(&name).is_some_and(|number| number.parse::<u32>().is_ok());
        assert!(kept || name == "OLD BOARD", "{name} is called {letter}");
    }
    let list = format!("{:?}", shopping::paper(&job, &plan));
    assert!(list.contains("2 of C 9 x 24 3/4."), "{list}");
}

#[test]
fn strips_of_one_letter_cut_in_several_ways_are_numbered() {
    // 10 of 12 x 16 at 15 7/8 are six and four, each on a strip of A.
    let again = recut(&batch(), vec![measured("A", "12", "97", 2)], &Patient).expect("a plan");
    let plan = again.done.expect("panels come of it").plan;
    let letters: Vec<&str> = plan.strips.iter().map(|strip| strip.letter.as_str()).collect();
    assert_eq!(letters, ["A1", "A2"]);
}

#[test]
fn papers_for_strips_on_hand_speak_of_no_purchase_and_no_load() {
    let again = recut(&batch(), vec![measured("A", "12", "96", 2)], &Patient).expect("a plan");
    let Done { job, plan } = again.done.expect("panels come of it");
    let told = |paper: &Paper| format!("{paper:?}");
    let (list, batch) = (told(&shopping::paper(&job, &plan)), told(&overview::paper(&plan)));
    assert!(batch.contains("nothing to buy") && !batch.contains("0 sheets"), "{batch}");
    assert!(!list.contains("For the car") && !list.contains("a panel on average"), "{list}");
    assert!(list.contains("Nothing to buy.") && !list.contains("how many"), "{list}");
}

#[test]
fn a_strip_as_wide_as_the_slip_lets_pass_gives_its_panels_over_size() {
    // At a tolerance of 1/16 the yard is asked for 12 1/16, and may hand that over: ten panels of 12, all 1/16 over.
    let mut job = shop("[[panel]]\nsize = \"12 x 16\"\ncount = 10\n");
    job.yard.tolerance = len("1/16");
    let again = recut(&job, vec![measured("A", "12 1/16", "96", 2)], &Patient).expect("a plan");
    let plan = again.done.expect("panels come of it").plan;
    assert_eq!(plan.panels[0].count, 10);
    assert!(plan.notes.iter().any(|note| note.text.contains("comes out 1/16 in. over size")), "{:?}", plan.notes);
    assert_eq!(
        again.over.iter().map(|over| (over.strip.width, over.by)).collect::<Vec<_>>(),
        [(len("12 1/16"), len("1/16"))]
    );
    // The next 64th is over what the slip lets pass.
    let again = recut(&job, vec![measured("A", "12 5/64", "96", 2)], &Patient).expect("a plan");
    assert_eq!((again.done, again.over), (None, vec![]));
}

#[test]
fn panels_that_do_not_come_are_told_at_the_saw() {
    let again =
        recut(&batch(), vec![measured("A", "12", "40", 1), measured("B", "9", "96", 1)], &Patient).expect("a plan");
    let plan = again.done.expect("panels come of it").plan;
    let told = "These strips do not give all that the job wants; missing: 8 of 12 x 16.";
    assert!(plan.notes.iter().any(|note| note.stage == Stage::Saw && note.text == told), "{:?}", plan.notes);
}

#[test]
fn where_panels_are_trimmed_at_home_a_strip_over_size_gives_them_at_size() {
    let mut job = shop("[[panel]]\nsize = \"12 x 16\"\ncount = 5\n");
    (job.yard.tolerance, job.saw.trims) = (len("1/16"), true);
    let again = recut(&job, vec![measured("A", "12 1/16", "96", 1)], &Patient).expect("a plan");
    let plan = again.done.expect("panels come of it").plan;
    assert_eq!((plan.strips[0].width, again.over), (len("12 1/16"), vec![]));
    assert_eq!(plan.trims.iter().map(|trim| trim.to).collect::<Vec<_>>(), [len("12")]);
}
