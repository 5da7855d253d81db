//! A short list of what a plan can be made of, which finds plans and proves nothing.

use super::super::generate::Bounded;
use super::super::master::Made;
use super::super::need::Need;
use super::super::pool::pool;
use super::super::scope::Scope;
use super::super::watch::Watch;
use crate::model::Problem;

/// Most layouts and patterns of the list.
const NEAR: usize = 700;

/// The layouts and patterns closest to the program's own, as many as can be listed.
pub(super) fn near(
    problem: &Problem,
    need: &Need,
    scope: &Scope,
    lenses: &[&Bounded],
    target: i64,
    watch: &dyn Watch,
) -> Option<Vec<Made>> {
    let scale = i128::from(lenses[0].prices.scale);
    let least = i64::try_from(lenses[0].judged.total? / scale).ok()?;
    let near = |part: i64| pool(problem, need, scope, lenses, (least + (target - least) / part, NEAR), watch);
    [2, 4, 8, 16, 64].into_iter().find_map(near)
}
