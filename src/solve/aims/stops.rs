//! The third of the later aims: fewest settings of the stop block at home. Smaller sets of lengths are tried, those of
//! fewest lengths first, on the sheets as they are ripped and then on any; sets that prices refute raise the bound, and
//! sets that would take more rip widths than the yard's aim leaves.

use super::super::draft::Draft;
use super::count;
use super::narrow::{to_lengths, to_widths};
use super::sets::Sets;
use super::trial::{Trial, Trials};
use crate::length::Length;
use crate::model::Problem;
use std::collections::BTreeSet;

/// The plan with fewest lengths that was found, and the fewest that there can be; `layouts` tells how many layouts every
/// plan has at least.
pub(super) fn fewest(trials: &Trials, draft: &Draft, layouts: &dyn Fn() -> i64) -> (Draft, i64) {
    let problem = trials.problem;
    let draft = draft.clone();
    let used = count::lengths(problem, &draft);
    let sets = Sets::of_lengths(problem, &used);
    let (mut least, mut refuted) = (0, true);
    for many in 1..used.len() {
        let listed = sets.of(many);
        refuted &= listed.all;
        for set in &listed.sets {
            if trials.over() {
                return (draft, least + 1);
            }
            let now = count::lengths(problem, &draft).len();
            let fewer = |draft: &Draft| count::lengths(problem, draft).len() < now;
            let narrow = to_lengths(problem, set);
            let tried = match trials.run(&narrow, Some(&draft.layouts), &fewer) {
                Trial::Found(better) => Trial::Found(better),
                Trial::Never | Trial::Unsure => trials.run(&narrow, None, &fewer),
            };
            match tried {
                Trial::Found(better) => return (*better, least + 1),
                Trial::Never => {}
                Trial::Unsure => refuted = refuted && spoils_the_yard(trials, &narrow, layouts),
            }
        }
        if refuted {
            least = count::number(many);
        }
    }
    let bound = if refuted { count::number(used.len()) } else { least + 1 };
    (draft, bound)
}

/// Whether these lengths are out of reach with as few rip widths as the yard's aim leaves.
fn spoils_the_yard(trials: &Trials, narrow: &Problem, layouts: &dyn Fn() -> i64) -> bool {
    let Ok(widths) = usize::try_from(trials.held.layouts - layouts()) else { return true };
    let listed = Sets::of_widths(narrow, &BTreeSet::new()).of(widths);
    let never = |set: &BTreeSet<Length>| matches!(trials.run(&to_widths(narrow, set), None, &|_| false), Trial::Never);
    listed.all && listed.sets.iter().all(never)
}
