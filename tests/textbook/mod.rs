//! The choice as a textbook puts it, in one integer program for any general-purpose solver: flows of strips through the
//! width of the sheets and of panels through the length of the strips (J. M. Valerio de Carvalho, Annals of Operations
//! Research 86 (1999) 629-659; in two stages E. Silva, F. Alvelos and J. M. Valerio de Carvalho, European Journal of
//! Operational Research 205 (2010) 699-708). Stands beside our own solver, to be compared with it.
//!
//! Solved by `microlp`, which does for tiny jobs only, or by `HiGHS` where the feature `highs` is on.

mod graph;
mod program;
mod reading;
mod sheets;
mod strips;

use good_lp::solvers::{Solution, SolutionStatus, SolverModel};
use good_lp::{ResolutionError, Variable};
use program::Program;
use yardslip::data::{Cents, Job};
use yardslip::model::{self, Problem};
use yardslip::plan;
use yardslip::solve::Solved;

/// What the other solver found.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Answer {
    /// Nothing costs less.
    Least(Cents),
    /// The best that it found in the time.
    Found(Cents),
    /// It says that there is no plan.
    Impossible,
    /// It found nothing in the time.
    Nothing,
}

/// The least money, with so many seconds to find it. The job's panels must be possible one by one, and no sheet of it
/// be broken down.
///
/// # Panics
/// Where the plan that the answer stands for does not pass our check, or costs other than the answer says.
pub(crate) fn least_money(job: &Job, seconds: f64) -> Answer {
    assert!(!model::may_break_down(job), "the textbook knows no breakdown");
    let problem = model::build(job).expect("each panel can be made");
    let mut program = Program::of(&problem);
    let (costs, flows) = (program.costs.clone(), std::mem::take(&mut program.flows));
    match run(program, seconds) {
        Ok(solution) => {
            let cost = cost(&problem, &costs, &solution);
            check_plan(job, &reading::solved(job, &problem, &flows, &solution, cost));
            if proved(solution.status()) { Answer::Least(cost) } else { Answer::Found(cost) }
        }
        Err(ResolutionError::Infeasible) => Answer::Impossible,
        Err(_) => Answer::Nothing,
    }
}

/// No gap is asked for, so that a solver which stops at one has left no more than the rounding of its own sums, far
/// below a cent: that is a proof too.
fn proved(status: SolutionStatus) -> bool {
    matches!(status, SolutionStatus::Optimal | SolutionStatus::GapLimit)
}

/// Lays out the plan and checks it as one of ours.
fn check_plan(job: &Job, solved: &Solved) {
    let plan = plan::lay_out(job, solved);
    let total = plan.cost.total;
    assert!(total <= solved.cost, "{total}, but it is said to be {}", solved.cost);
    plan::check(job, &plan).unwrap_or_else(|violations| panic!("{}", violations[0]));
}

/// The cost in whole numbers: what should be whole is rounded first.
#[allow(clippy::cast_possible_truncation)] // numbers of sheets and strips
fn cost(problem: &Problem, costs: &[(Variable, i64)], solution: &impl Solution) -> Cents {
    let units: i64 = costs.iter().map(|(variable, each)| solution.value(*variable).round() as i64 * each).sum();
    Cents(units / problem.charges.cent)
}

#[cfg(feature = "highs")]
fn run(program: Program, seconds: f64) -> Result<impl Solution, ResolutionError> {
    let cost = program.cost();
    let model = program.variables.minimise(cost).using(good_lp::solvers::highs::highs);
    let exact = model.set_time_limit(seconds).set_mip_rel_gap(0.0).expect("no gap is a gap");
    exact.with_all(program.rows).solve()
}

#[cfg(not(feature = "highs"))]
fn run(program: Program, seconds: f64) -> Result<impl Solution, ResolutionError> {
    use good_lp::solvers::WithTimeLimit;
    let cost = program.cost();
    let model = program.variables.minimise(cost).using(good_lp::solvers::microlp::microlp);
    model.with_time_limit(seconds).with_all(program.rows).solve()
}
