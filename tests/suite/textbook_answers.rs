//! The solver is held against the textbook's integer program, solved by a general-purpose solver.

use crate::brute_force;
use crate::made_up_jobs::settings;
use crate::textbook::{self, Answer};
use crate::tiny_jobs::tiny_jobs;
use proptest::strategy::{Strategy, ValueTree};
use proptest::test_runner::TestRunner;
use yardslip::data::Job;
use yardslip::model;

/// Tiny jobs whose panels can be made one by one.
fn jobs(many: usize) -> impl Iterator<Item = Job> {
    let mut runner = TestRunner::new(settings(1));
    let made_up = std::iter::repeat_with(move || tiny_jobs().new_tree(&mut runner).expect("a job").current());
    // The textbook knows no breakdown.
    let whole = |job: &Job| !model::may_break_down(job) && model::build(job).is_ok();
    made_up.filter(whole).take(many)
}

#[test]
fn brute_force_and_the_textbook_agree_on_tiny_jobs() {
    let decided = jobs(100).enumerate().filter(|(at, job)| {
        let least = brute_force::least_money(job);
        match textbook::least_money(job, 1.0) {
            Answer::Least(cost) => assert_eq!(least, Some(cost), "job {at}"),
            Answer::Impossible => assert_eq!(least, None, "job {at}"),
            Answer::Found(cost) => assert!(least.is_some_and(|least| least <= cost), "job {at}: {cost}"),
            Answer::Nothing => return false,
        }
        true
    });
    let decided = decided.count();
    assert!(decided >= 90, "only {decided} of 100");
}

/// Opt-in, since the other solver needs system packages and minutes to build; a minute to run:
/// `cargo test --release --features highs --test suite textbook`.
#[cfg(feature = "highs")]
mod with_highs {
    use super::{Answer, Job, textbook};
    use crate::instances::awkward::awkward;
    use crate::instances::batches::random;
    use crate::instances::literature::{INSTANCES, VARIANTS};
    use crate::moment::Moment;
    use yardslip::data::Cents;
    use yardslip::solve::solve;

    /// What `HiGHS` and our own solver say of a job must be possible together, and ours may not be dearer. True where
    /// `HiGHS` says for sure.
    fn agrees(name: &str, job: &Job) -> bool {
        let solved = solve(job, &Moment::of(10.0)).expect("the job can be done");
        let (cost, bound) = (solved.cost, solved.proof.bound);
        match textbook::least_money(job, 20.0) {
            Answer::Least(least) => {
                assert!(bound <= least && least == cost, "{name}: {least}, ours from {bound} to {cost}");
                true
            }
            Answer::Found(found) => {
                assert!(bound <= found && cost <= found, "{name}: {found} or less, ours from {bound} to {cost}");
                false
            }
            Answer::Impossible => panic!("{name}: no plan, but ours costs {cost}"),
            Answer::Nothing => false,
        }
    }

    /// So few panels of it that `HiGHS` decides most such batches in seconds.
    fn part_of(mut job: Job) -> Job {
        job.panels.truncate(4);
        job.panels.iter_mut().for_each(|panel| panel.count = panel.count.min(6));
        job
    }

    fn agrees_on(batches: impl Iterator<Item = (String, Job)>) {
        let decided: Vec<bool> = batches.map(|(name, job)| agrees(&name, &part_of(job))).collect();
        let sure = decided.iter().filter(|sure| **sure).count();
        assert!(sure * 4 >= decided.len() * 3, "only {sure} of {} decided", decided.len());
    }

    #[test]
    fn the_optima_of_the_literature_are_what_highs_finds() {
        for instance in INSTANCES.iter().filter(|instance| instance.panels.len() <= 10) {
            for ((variant, along, trims), optimum) in VARIANTS.into_iter().zip(instance.optima) {
                let least = textbook::least_money(&instance.job(along, trims), 60.0);
                assert_eq!(least, Answer::Least(Cents(100) * i64::from(optimum)), "{} {variant}", instance.name);
            }
        }
    }

    #[test]
    fn our_plans_and_bounds_agree_with_highs_on_batches() {
        agrees_on((1..=20).map(|seed| (format!("batch {seed}"), random(seed))));
    }

    #[test]
    fn they_agree_on_awkward_batches_too() {
        agrees_on((1..=20).map(|seed| (format!("awkward batch {seed}"), awkward(seed).1)));
    }
}
