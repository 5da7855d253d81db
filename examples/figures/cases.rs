//! All the problems that figures are printed for, by group.

use crate::instances::awkward::awkward;
use crate::instances::batches::{hobby, line, random, workshop};
use crate::instances::dice::Dice;
use crate::instances::literature::{INSTANCES, VARIANTS};
use yardslip::data::Job;

/// A problem with a name.
pub(crate) struct Case {
    /// What it is an example of.
    pub(crate) group: &'static str,
    /// Unique.
    pub(crate) name: String,
    /// Fewest sheets, where known.
    pub(crate) optimum: Option<u32>,
    /// The problem.
    pub(crate) job: Job,
}

/// The awkward batches from 21 to 100 that an earlier solver left open after 5 s.
const TOUGH: [u64; 9] = [25, 30, 40, 41, 49, 55, 61, 68, 76];

/// Every case, in the order of its group.
pub(crate) fn all() -> Vec<Case> {
    let made_up = |group, name, job| Case { group, name, optimum: None, job };
    let mut cases = literature();
    for (variant, trims) in [("exact", false), ("trimmed", true)] {
        for times in [1, 5, 25] {
            let name = |seed| format!("hobby {seed} x {times} {variant}");
            cases.extend((1..=4).map(|seed| made_up("hobby", name(seed), hobby(seed, times, trims))));
        }
    }
    cases.extend((1..=60).map(|seed| made_up("random", format!("random {seed}"), random(seed))));
    for (group, seeds) in [("edge", (1..=20).collect()), ("tough", TOUGH.to_vec())] {
        cases.extend(seeds.into_iter().map(|seed| {
            let (rule, job) = awkward(seed);
            made_up(group, format!("{group} {seed} {rule}"), job)
        }));
    }
    for (variant, trims) in [("exact", false), ("trimmed", true)] {
        cases.push(made_up("large", format!("10,000 panels {variant}"), large(trims)));
    }
    cases
}

fn literature() -> Vec<Case> {
    let mut cases = Vec::new();
    for instance in INSTANCES {
        for ((variant, along, trims), optimum) in VARIANTS.into_iter().zip(instance.optima) {
            let name = format!("{} {variant}", instance.name);
            let (optimum, job) = (Some(optimum), instance.job(along, trims));
            cases.push(Case { group: "literature", name, optimum, job });
        }
    }
    cases
}

/// Ten thousand panels in forty sizes of whole inches.
fn large(trims: bool) -> Job {
    let mut dice = Dice::new(40);
    let mut job = workshop();
    job.saw.trims = trims;
    let all: Vec<(i64, i64)> = (5..=20).flat_map(|width| (width..=24).map(move |height| (width, height))).collect();
    job.panels = dice.several(40, &all).into_iter().map(|size| line(size, 250)).collect();
    job
}
