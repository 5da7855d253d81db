//! Panels decided at their smallest sizes grow back towards nominal: every panel of a size the same, as far as all the
//! places it is cut from allow, on steps that a rule shows.
//!
//! Sides that share a strip untrimmed grow as one, since the strip's width is theirs. All grow in rounds, one step
//! each, until no side can be raised any more; the money and the worth of what is kept stay what they were.

mod fits;
mod families;
#[cfg(test)]
mod as_far_as_it_goes;

use super::sizes::Sizes;
use crate::data::Job;
use crate::length::Length;
use crate::solve::Solved;
use families::Family;
use fits::Limits;

/// The sizes that the panels of a solved job come out at.
pub(super) fn grow(job: &Job, solved: &Solved) -> Sizes {
    let limits = Limits::of(job, solved);
    let mut sizes = Sizes::smallest(job);
    let mut families = families::families(job, solved);
    // A family that is stuck is tried again in the next round: a strip that grew may give a trimmed panel room.
    while families.iter_mut().filter_map(|family| raise(job, &limits, family, &mut sizes)).count() > 0 {}
    sizes
}

/// Raises a family by one step if everything still fits, to the size handed back.
fn raise(job: &Job, limits: &Limits, family: &mut Family, sizes: &mut Sizes) -> Option<Length> {
    let next = step(family.size, family.most, job.rule);
    if next <= family.size {
        return None;
    }
    family.set(sizes, next);
    if limits.hold(sizes) {
        family.size = next;
        return Some(next);
    }
    family.set(sizes, family.size);
    None
}

/// The next size up that the rule shows, or the nominal one.
fn step(size: Length, most: Length, rule: Length) -> Length {
    (size.round_down(rule) + rule).min(most)
}
