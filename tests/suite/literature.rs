//! Instances of the literature come out at their proved optima, and the solver proves them itself.

use crate::instances::literature::{INSTANCES, VARIANTS};
use yardslip::solve::{Patient, solve};

fn check(variant: usize) {
    let (name, along, trims) = VARIANTS[variant];
    for instance in INSTANCES {
        let solved = solve(&instance.job(along, trims), &Patient).expect("the instance can be done");
        let sheets: u32 = solved.sheets.iter().map(|sheet| sheet.count).sum();
        assert_eq!(sheets, instance.optima[variant], "{} {name}", instance.name);
        assert!(solved.proof.proved, "{} {name}", instance.name);
    }
}

#[test]
fn exact_strips_along_reach_the_published_optima() {
    check(0);
}

#[test]
fn exact_strips_across_reach_the_published_optima() {
    check(1);
}

#[test]
fn trimmed_panels_on_strips_along_reach_the_published_optima() {
    check(2);
}

#[test]
fn trimmed_panels_on_strips_across_reach_the_published_optima() {
    check(3);
}
