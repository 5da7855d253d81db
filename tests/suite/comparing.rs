//! A job done in other ways, side by side: what scant buys, what a squaring cut costs.

use crate::instances::batches::random;
use crate::moment::Moment;
use crate::papers_in::shop;
use crate::solved_by_hand::len;
use yardslip::data::{Cents, Job};
use yardslip::documents::wording;
use yardslip::plan::{Alternative, Figures, Outcome, compare, make};
use yardslip::solve::Patient;

/// One 48 x 96 sheet and no more, 1/8 in. kerfs, nothing squared; so many panels of 12x16.
fn one_sheet(count: u32, scant: &str, grain: &str) -> Job {
    let mut job = shop(&format!(
        r#"
[[panel]]
size = "12 x 16"
count = {count}
scant = "{scant}"
grain = "{grain}"
"#
    ));
    job.sheets[0].stock = Some(1);
    job
}

fn row<'a>(rows: &'a [Alternative], name: &str) -> &'a Alternative {
    rows.iter().find(|row| row.name == name).unwrap_or_else(|| panic!("no row `{name}` in {rows:#?}"))
}

fn figures<'a>(rows: &'a [Alternative], name: &str) -> &'a Figures {
    match &row(rows, name).outcome {
        Outcome::Done(figures) => figures,
        other => panic!("{name}: {other:?}"),
    }
}

fn cannot(rows: &[Alternative], name: &str) -> bool {
    matches!(row(rows, name).outcome, Outcome::Not(_))
}

// How many 12x16 panels one sheet gives at 1/8 in. kerfs: arithmetic, and proved by an integer program elsewhere.
#[test]
fn one_sheet_gives_fifteen_upright_nineteen_turned_twenty_four_scant() {
    for (most, scant, grain) in [(15, "0", "upright"), (19, "0", "any"), (24, "1/8", "any")] {
        let plan = make(&one_sheet(most, scant, grain), &Patient).expect("as many as that fit");
        assert_eq!((plan.cost.sheets_bought, plan.proof.proved), (1, true));
        let faults = make(&one_sheet(most + 1, scant, grain), &Patient).expect_err("one more does not fit");
        assert_eq!(faults[0].place.key, "sheet[0].stock");
    }
}

#[test]
fn a_scant_job_says_what_nominal_size_would_cost() {
    let plan = make(&one_sheet(24, "1/8", "any"), &Patient).expect("24 fit");
    let this = figures(&plan.comparison, "this plan");
    assert_eq!((this.sheets, this.cost, this.layouts), (1, Cents(4000), 1));
    assert_eq!(this.sizes, [(len("11 7/8"), len("15 7/8"))]);
    assert!(cannot(&plan.comparison, "at nominal size"));
    let mut enough = one_sheet(24, "1/8", "any");
    enough.sheets[0].stock = None;
    let plan = make(&enough, &Patient).expect("there are sheets");
    assert_eq!(figures(&plan.comparison, "at nominal size").sheets, 2);
}

#[test]
fn a_nominal_job_says_what_a_little_scant_would_buy() {
    let mut job = one_sheet(24, "0", "any");
    job.sheets[0].stock = None;
    let plan = make(&job, &Patient).expect("there are sheets");
    assert_eq!(figures(&plan.comparison, "this plan").sheets, 2);
    assert_eq!(figures(&plan.comparison, "up to 1/8 in. under size").sheets, 1);
}

#[test]
fn a_squaring_cut_costs_the_sixth_panel_of_every_strip() {
    let mut job = one_sheet(24, "1/8", "any");
    job.sheets[0].stock = None;
    job.saw.squaring = len("1/4");
    let plan = make(&job, &Patient).expect("there are sheets");
    assert_eq!(figures(&plan.comparison, "this plan").sheets, 2);
    assert_eq!(figures(&plan.comparison, "without the squaring cut").sheets, 1);
}

#[test]
fn the_full_comparison_has_kinds_directions_and_blades() {
    let mut job = one_sheet(19, "0", "any");
    let mut small = job.sheets[0].clone();
    (small.name, small.length, small.price, small.stock) = ("handy".into(), len("48"), Cents(2500), None);
    job.sheets.push(small);
    let plan = make(&job, &Patient).expect("they fit");
    let rows = compare(&job, &plan, &Patient);
    let names: Vec<&str> = rows.iter().map(|row| row.name.as_str()).collect();
    assert_eq!(
        names,
        [
            "this plan",
            "up to 1/8 in. under size",
            "only birch",
            "only handy",
            "all rips across the sheet",
            "rips along or across, sheet by sheet",
            "thin blades, 3/32 in. at both saws",
        ]
    );
    assert_eq!(figures(&rows, "only birch").cost, Cents(4000));
    assert!(figures(&rows, "only handy").sheets >= 3);
    assert!(figures(&rows, "rips along or across, sheet by sheet").cost <= figures(&rows, "this plan").cost);
    assert!(figures(&rows, "thin blades, 3/32 in. at both saws").cost <= figures(&rows, "this plan").cost);
    assert!(rows.iter().all(|row| matches!(&row.outcome, Outcome::Done(figures) if figures.waste() < 1.0)));
}

#[test]
fn a_cut_that_nominal_sizes_save_is_saved() {
    // Four strips of 11 29/32 and three kerfs use 48 up (arithmetic): three cuts. At the smallest, 11 27/32, 1/4 is
    // left and the fourth strip is a cut of its own; each cut costs a dollar.
    let mut job = one_sheet(20, "0", "upright");
    job.yard.cut_price = Cents(100);
    (job.panels[0].width, job.panels[0].scant) = (len("11 29/32"), len("1/16"));
    let plan = make(&job, &Patient).expect("20 fit");
    assert_eq!((plan.cost.total, plan.proof.bound, plan.proof.proved), (Cents(4300), Cents(4300), true));
    assert_eq!(plan.panels[0].cut_width, len("11 29/32"));
    assert_eq!(figures(&plan.comparison, "at nominal size").cost, Cents(4300));
    let proof = wording::proof(&plan);
    assert!(
        proof.starts_with("Proved: no plan with panels at their smallest or at nominal sizes costs less."),
        "{proof}"
    );
}

#[test]
fn where_no_size_decides_about_a_paid_cut_the_proof_covers_every_plan() {
    // The same job at nominal sizes only, then with scant and free cuts.
    let mut job = one_sheet(15, "0", "upright");
    job.yard.cut_price = Cents(100);
    let proof = |job: &Job| wording::proof(&make(job, &Patient).expect("15 fit"));
    assert_eq!(proof(&job), "Proved: no plan for this job costs less.");
    (job.yard.cut_price, job.panels[0].scant) = (Cents::ZERO, len("1/16"));
    assert_eq!(proof(&job), "Proved: no plan for this job costs less.");
}

#[test]
fn a_proof_says_that_strips_are_no_wider_than_a_panel_asks() {
    // One panel of 40 in. from a sheet 48 wide: a cut. Not ripped at all and trimmed at home, the sheet would cost
    // none.
    let tells = |job: &Job| {
        let plan = make(job, &Patient).expect("it fits");
        assert!(plan.proof.proved);
        wording::proof(&plan)
            .starts_with("Proved: no plan with strips no wider than a panel asks costs less. Another way")
    };
    let mut job = one_sheet(1, "0", "upright");
    job.panels[0].width = len("40");
    job.yard.cut_price = Cents(100);
    job.saw.crosses = None;
    assert!(!tells(&job), "nothing is trimmed at home");
    job.saw.trims = true;
    assert!(tells(&job));
    job.yard.cut_price = Cents::ZERO;
    assert!(!tells(&job), "cuts are free");
}

/// Rules that leave a plan at nominal sizes as it is, or give it more room.
const LOOSER: [&str; 3] =
    ["without the squaring cut", "rips along or across, sheet by sheet", "up to 1/8 in. under size"];

#[test]
fn no_looser_rule_costs_more_than_the_plan_however_little_time_it_is_given() {
    let mut compared = 0;
    for seed in 1..=12 {
        let job = random(seed);
        let plan = make(&job, &Moment::of(0.5)).expect("random batches can be cut");
        let rows = compare(&job, &plan, &Moment::of(if seed % 2 == 0 { 0.0 } else { 0.1 }));
        for row in rows.iter().filter(|row| LOOSER.contains(&row.name.as_str())) {
            let Outcome::Done(figures) = &row.outcome else { panic!("batch {seed}, {}: {:?}", row.name, row.outcome) };
            assert!(
                figures.cost <= plan.cost.total,
                "batch {seed}, {}: {} after {}",
                row.name,
                figures.cost,
                plan.cost.total
            );
            compared += 1;
        }
    }
    assert!(compared >= 12, "only {compared} rows compared");
}

#[test]
fn a_plan_that_a_thinner_blade_makes_a_cut_dearer_is_still_compared_in_no_time() {
    // 4 x 11 29/32 + 3/8 are 48 in. exactly: three cuts. A kerf of 3/32 leaves 3/32, which a fourth cut takes off.
    let mut job = shop("[[panel]]\nsize = \"11 29/32 x 16\"\ncount = 20\ngrain = \"upright\"\n");
    job.yard.cut_price = Cents(100);
    let plan = make(&job, &Patient).expect("they fit");
    assert_eq!((plan.cost.total, plan.proof.proved), (Cents(4300), true));
    let rows = compare(&job, &plan, &Moment::of(0.0));
    assert_eq!(figures(&rows, "thin blades, 3/32 in. at both saws").cost, Cents(4400));
}
