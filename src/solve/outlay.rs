//! What a plan can cost at all: whole numbers of sheets of each kind, and whole paid cuts. A bound rises to the next
//! such sum, and a cheaper plan must reach one below.

use super::scope::{Range, Scope};
use crate::length::Length;
use crate::model::{Charges, Problem, Ripping};

/// Most sums that are looked at one by one; beyond, every multiple of the prices' common step counts as possible.
const SUMS: i64 = 200_000;

/// The least cost from `units` up that a plan of the scope can have; none where none can.
pub(super) fn least_from(problem: &Problem, scope: &Scope, units: i64) -> Option<i64> {
    let charges = &problem.charges;
    if too_many(&scope.kinds) {
        let step = charges.step();
        return Some(-(-units).div_euclid(step) * step);
    }
    let mut best = None;
    rise(charges, &scope.kinds, 0, units, &mut best);
    best.filter(|best| *best <= dearest(problem, scope))
}

/// No plan of the scope costs more: all its sheets, with a cut on each side of the narrowest strips.
pub(super) fn dearest(problem: &Problem, scope: &Scope) -> i64 {
    let charges = &problem.charges;
    let cuts = |kind: usize| {
        let ways = problem.rippings.iter().filter(|ripping| ripping.sheet == kind);
        ways.map(|ripping| most_cuts(problem, ripping)).max().unwrap_or(0)
    };
    let most = |(kind, range): (usize, &Range)| {
        (charges.sheets[kind] + charges.cut.saturating_mul(cuts(kind))).saturating_mul(range.most.max(0))
    };
    scope.kinds.iter().enumerate().map(most).fold(0, i64::saturating_add)
}

fn most_cuts(problem: &Problem, ripping: &Ripping) -> i64 {
    let narrowest = problem.families[ripping.family].widths.first().map_or(Length::MAX, |width| width.width);
    let board = (ripping.room + ripping.kerf).raw() / (narrowest + ripping.kerf).raw().max(1) + 2;
    if ripping.broken { 2 * board + 1 } else { board }
}

/// The greatest cost below `units` that a plan of the scope can have; none where none can.
pub(super) fn most_below(problem: &Problem, scope: &Scope, units: i64) -> Option<i64> {
    let charges = &problem.charges;
    if too_many(&scope.kinds) {
        let step = charges.step();
        return Some((units - 1).div_euclid(step) * step);
    }
    let mut best = None;
    fall(charges, &scope.kinds, 0, units - 1, &mut best);
    best
}

fn too_many(kinds: &[Range]) -> bool {
    let sums = |range: &Range| (range.most - range.least).saturating_add(1).max(0);
    kinds.iter().map(sums).try_fold(1_i64, i64::checked_mul).is_none_or(|all| all > SUMS)
}

/// Sums of these kinds and of paid cuts on top of `base`, from `units` up.
fn rise(charges: &Charges, kinds: &[Range], base: i64, units: i64, best: &mut Option<i64>) {
    let Some((range, rest)) = kinds.split_last() else {
        let missing = (units - base).max(0);
        let cuts = if charges.cut > 0 { -(-missing).div_euclid(charges.cut) * charges.cut } else { 0 };
        let sum = base + cuts;
        if sum >= units && best.is_none_or(|best| sum < best) {
            *best = Some(sum);
        }
        return;
    };
    let price = charges.sheets[rest.len()];
    let mut base = base + range.least * price;
    for _ in range.least..=range.most {
        if best.is_some_and(|best| base >= best) {
            break;
        }
        rise(charges, rest, base, units, best);
        base += price;
    }
}

/// Sums of these kinds and of paid cuts on top of `base`, down from `units`.
fn fall(charges: &Charges, kinds: &[Range], base: i64, units: i64, best: &mut Option<i64>) {
    if base > units || best.is_some_and(|best| best == units) {
        return;
    }
    let Some((range, rest)) = kinds.split_last() else {
        let cuts = if charges.cut > 0 { (units - base) / charges.cut * charges.cut } else { 0 };
        *best = Some(best.map_or(base + cuts, |best| best.max(base + cuts)));
        return;
    };
    let price = charges.sheets[rest.len()];
    for count in range.least..=range.most {
        fall(charges, rest, base + count * price, units, best);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn charges(sheets: &[i64], cut: i64) -> Charges {
        Charges { cent: 1, sheets: sheets.to_vec(), cut, free: 0, per_order: false, most_cuts: None }
    }

    fn sums(sheets: &[i64], cut: i64, most: i64, units: i64) -> (Option<i64>, Option<i64>) {
        let charges = charges(sheets, cut);
        let kinds: Vec<Range> = sheets.iter().map(|_| Range { least: 0, most }).collect();
        let (mut above, mut below) = (None, None);
        rise(&charges, &kinds, 0, units, &mut above);
        fall(&charges, &kinds, 0, units - 1, &mut below);
        (above, below)
    }

    #[test]
    fn sums_of_two_prices_lie_where_they_lie() {
        assert_eq!(sums(&[500, 700], 0, 3, 1001), (Some(1200), Some(1000)));
        assert_eq!(sums(&[500, 700], 0, 3, 1200), (Some(1200), Some(1000)));
        assert_eq!(sums(&[500, 700], 0, 1, 1201), (None, Some(1200)));
    }

    #[test]
    fn paid_cuts_fill_the_steps_between() {
        assert_eq!(sums(&[500, 700], 50, 3, 1001), (Some(1050), Some(1000)));
        assert_eq!(sums(&[500], 50, 1, 1001), (Some(1050), Some(1000)));
    }
}
