//! The offcut rack after a plan: what it held, less the strips that the plan takes, plus the offcuts worth keeping.

use super::offcuts::worth;
use super::{Offcut, Origin, Plan};
use crate::data::{Cents, Job, StripOnHand};
use crate::length::Length;

/// The rack's new state: the job's strips on hand from index `first` on (those before it stand in the job file, not on
/// the rack), less what the plan uses of them, plus its offcuts worth keeping. Strips used up are left out.
pub fn rack_after(job: &Job, plan: &Plan, first: usize) -> Vec<StripOnHand> {
    let mut rack: Vec<StripOnHand> = Vec::new();
    for (index, strip) in job.strips.iter().enumerate().skip(first) {
        let left = strip.count.saturating_sub(used(plan, index));
        put(&mut rack, StripOnHand { count: left, ..strip.clone() });
    }
    for left in plan.offcuts.iter().filter(|left| kept(job, left)) {
        put(&mut rack, as_strip(left));
    }
    rack
}

/// How many of a job's strips on hand a plan uses, by their index.
pub fn used(plan: &Plan, strip: usize) -> u32 {
    let of = plan.strips.iter().filter(|used| used.origin == Origin::OnHand { strip });
    of.map(|used| used.count).sum()
}

/// An offcut goes on the rack if the job says that its size is worth keeping; where the job names no such size, if it
/// still holds the smallest panel of the job.
fn kept(job: &Job, left: &Offcut) -> bool {
    if job.keepers.is_empty() {
        let holds = |width: Length, height: Length| {
            let (short, long) = (left.width.min(left.length), left.width.max(left.length));
            width.min(height) <= short && width.max(height) <= long
        };
        return job.panels.iter().any(|panel| holds(panel.width, panel.height));
    }
    worth(&job.keepers, left.width, left.length) > Cents::ZERO
}

/// An offcut as a strip on hand; its longer side goes along the saw's fence.
fn as_strip(left: &Offcut) -> StripOnHand {
    let lies = left.length >= left.width;
    let (width, length) = if lies { (left.width, left.length) } else { (left.length, left.width) };
    StripOnHand {
        name: left.from.clone(),
        width,
        length,
        count: left.count,
        sheet: left.sheet,
        grain_along: left.grain_along == lies,
    }
}

/// Puts strips on the rack, with those that are alike.
fn put(rack: &mut Vec<StripOnHand>, strips: StripOnHand) {
    let bare = |strip: &StripOnHand| StripOnHand { count: 0, ..strip.clone() };
    match rack.iter_mut().find(|known| bare(known) == bare(&strips)) {
        Some(known) => known.count += strips.count,
        None if strips.count > 0 => rack.push(strips),
        None => {}
    }
}
