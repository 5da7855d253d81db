//! What the proof of a plan is about. Panels are decided on at their smallest sizes, on strips no wider than they ask.
//! Where the yard's cuts are paid for, or counted, using a sheet up to the last kerf in another way might save one of
//! them; panels that may vary by different amounts might share a strip at sizes in between; and a piece might be long
//! enough for the hand there.

use crate::data::{Cents, Job, RipWidths, Sheet};
use crate::length::Length;
use crate::model::{may_break_down, sizes};

/// What is proved of a plan, or would be.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Claim {
    /// Its cost, against every plan for the job but those left out here.
    Cost(Against),
    /// The worth of the panels that strips on hand give.
    Worth,
}

/// The plans that a proof of cost is about; all of them, unless said.
#[allow(clippy::struct_excessive_bools)] // each stands for itself, in any mix
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Against {
    /// Only those whose panels come out at their smallest or at nominal sizes.
    pub end_sizes: bool,
    /// Only those whose strips are no wider than a panel asks, before it is trimmed at home.
    pub asked_widths: bool,
    /// Another way to use a sheet up to the last kerf might save one of the yard's cuts.
    pub last_cut: bool,
    /// Different panels might share a strip at a size between.
    pub shared_strips: bool,
    /// At a size between a piece might be long enough to be held.
    pub held_pieces: bool,
    /// Panels that all lie one way might be cut smaller than those that may lie both ways.
    pub one_way: bool,
}

/// What a proof of this job's cost is about.
pub(super) fn claim(job: &Job) -> Claim {
    of_cost(job, sizes::may_be_held(job))
}

/// The same where it is known that no longer piece is needed for the hand.
pub(super) fn whatever_is_held(job: &Job) -> Claim {
    of_cost(job, false)
}

fn of_cost(job: &Job, held_pieces: bool) -> Claim {
    let counted = job.yard.cut_price > Cents::ZERO || job.yard.most_cuts.is_some_and(|most| may_take(job, most));
    let saved = counted && job.sheets.iter().any(|sheet| sheet.edge_trim.is_zero() && sheet.stock != Some(0));
    let (at_ends, asked_widths) = (saved && sizes_may_vary(job), saved && job.saw.trims);
    let shared_strips = !job.saw.trims && sides_overlap(job);
    let one_way = sizes::may_lie_smaller(job);
    let end_sizes = at_ends || shared_strips || held_pieces || one_way;
    let last_cut = at_ends || asked_widths;
    Claim::Cost(Against { end_sizes, asked_widths, last_cut, shared_strips, held_pieces, one_way })
}

/// Whether some sheet may take this many cuts or more, its strips no narrower than a panel's smallest side.
fn may_take(job: &Job, cuts: u32) -> bool {
    let sides = job.panels.iter().map(|panel| panel.width.min(panel.height) - panel.scant);
    let Some(least) = sides.min() else { return false };
    let strip = (least + job.yard.tolerance).max(job.yard.narrowest) + job.yard.kerf;
    let boards = if may_break_down(job) { 2 } else { 1 };
    let room = |along: bool, sheet: &Sheet| if along { sheet.width } else { sheet.length };
    let ways = [true, false].into_iter().filter(|along| sizes::yard_rips(job.yard.rips, *along));
    let mut rooms = ways.flat_map(|along| job.sheets.iter().map(move |sheet| room(along, sheet)));
    rooms.any(|room| boards * ((room + job.yard.kerf).times(strip) + 1) + 1 > i64::from(cuts))
}

/// Whether two sides can come out alike though their smallest sizes differ.
fn sides_overlap(job: &Job) -> bool {
    let ranges: Vec<(Length, Length)> = job
        .panels
        .iter()
        .flat_map(|panel| [panel.width, panel.height].map(|side| (side - panel.scant, side)))
        .collect();
    let overlap = |a: &(Length, Length), b: &(Length, Length)| a.0 < b.0 && b.0 <= a.1;
    ranges.iter().any(|a| ranges.iter().any(|b| overlap(a, b)))
}

fn sizes_may_vary(job: &Job) -> bool {
    job.yard.rip_widths == RipWidths::Any && job.panels.iter().any(|panel| panel.scant.is_positive())
}
