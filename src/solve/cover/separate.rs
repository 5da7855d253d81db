//! Looks for the cover of a group that so many strips miss most: a linear program over plans of the group's panels, of
//! which only those are listed that weigh less than what is known (columns as in Gilmore and Gomory 1961).

use super::super::pattern::Blank;
use super::super::simplex::{Column, Outcome, Simplex};
use super::Cover;
use super::group::Group;
use std::collections::BTreeMap;

/// What weights are rounded to.
const FINE: f64 = 4_096.0;
/// What a cover must miss by, beside its least weight.
const MISSED: f64 = 1e-4;
/// Most plans that are added.
const ROUNDS: usize = 60;
/// What it costs to have no plan at all.
const DEAR: f64 = 1e3;

/// The cover that these strips miss most; none where they meet all.
pub(super) fn unmet(group: &mut Group, strips: &BTreeMap<Blank, f64>) -> Option<Cover> {
    let there: Vec<f64> =
        group.blanks.iter().map(|blank| strips.get(blank).map_or(0.0, |strips| strips.max(0.0))).collect();
    let mut lp = Simplex::default();
    let rows: Vec<usize> = there.iter().map(|there| lp.add_row(&[], -there, (0.0, f64::INFINITY)).0).collect();
    let (one, _) = lp.add_row(&[], 1.0, (0.0, f64::INFINITY));
    let more = |entries, cost| Column { entries, cost, least: 0.0, most: f64::INFINITY };
    lp.add_column(&more(rows.iter().map(|row| (*row, 1.0)).collect(), 1.0));
    let none = lp.add_column(&more(vec![(one, 1.0)], DEAR));
    let column = |plan: &[u32]| {
        let strips = plan.iter().enumerate().filter(|(_, strips)| **strips > 0);
        let entries = strips.map(|(at, strips)| (rows[at], -f64::from(*strips))).chain([(one, 1.0)]).collect();
        more(entries, 0.0)
    };
    for plan in &group.plans {
        lp.add_column(&column(plan));
    }
    lp.begin_with(&[(one, none)]);
    for _ in 0..ROUNDS {
        if lp.primal() != Outcome::Optimal {
            return None;
        }
        let prices = lp.prices();
        let weights: Vec<f64> = rows.iter().map(|row| prices[*row]).collect();
        let short = prices[one];
        let used: f64 = weights.iter().zip(&there).map(|(weight, there)| weight * there).sum();
        if short - used < MISSED * short.abs().max(1e-3) {
            return None;
        }
        let rounded: Vec<i64> = weights.iter().map(|weight| whole(weight * FINE)).collect();
        let (least, plan) = group.least(&rounded)?;
        if real(least) > short * FINE * (1.0 - 1e-3) || group.plans.contains(&plan) {
            return cover(group, &weights, &there);
        }
        lp.add_column(&column(&plan));
        group.plans.push(plan);
    }
    None
}

/// The cover with these weights, in small whole numbers where there are such.
fn cover(group: &Group, weights: &[f64], there: &[f64]) -> Option<Cover> {
    let most = weights.iter().copied().fold(0.0, f64::max);
    if most <= 0.0 {
        return None;
    }
    let small = (1..=24).map(f64::from).find(|times| {
        weights.iter().all(|weight| {
            let times = weight / most * times;
            (times - times.round()).abs() < 1e-6
        })
    });
    let fine = small.unwrap_or(FINE);
    let rounded: Vec<i64> = weights.iter().map(|weight| whole(weight / most * fine)).collect();
    let (least, _) = group.least(&rounded)?;
    let used: f64 = rounded.iter().zip(there).map(|(weight, there)| real(*weight) * there).sum();
    (least > 0 && real(least) - used > MISSED * real(least)).then(|| Cover {
        weights: group.blanks.iter().copied().zip(rounded).filter(|(_, weight)| *weight > 0).collect(),
        least,
    })
}

#[allow(clippy::cast_possible_truncation)] // small weights
fn whole(weight: f64) -> i64 {
    weight.round().max(0.0) as i64
}

#[allow(clippy::cast_precision_loss)] // small weights
fn real(weight: i64) -> f64 {
    weight as f64
}

#[cfg(test)]
mod tests {
    use super::super::super::need::Need;
    use super::super::group::groups;
    use super::*;
    use crate::data::{File, Source, read};

    fn twelve_by_sixteens(count: u32) -> Group {
        let text = format!(
            "[[sheet]]\nlength = 96\nwidth = 48\nprice = 38.50\n[[panel]]\nsize = \"12 x 16\"\ncount = {count}\n\
             grain = \"upright\"\n[yard]\nrips = \"along\"\n"
        );
        let job = read(&Source { job: File::of("one size", text), list: None, rack: None }).expect("it is sound");
        let problem = crate::model::build(&job).expect("they can be made");
        groups(&problem, &Need::of(&problem)).pop().expect("one size is a group")
    }

    /// Upright along the sheet they lie on strips 12 in. wide, five on each (5 x 16 + 4/8 = 80 1/2 of 95 3/4 in.; six
    /// would take 96 5/8), by hand.
    #[test]
    fn a_part_of_a_strip_does_not_do() {
        let mut group = twelve_by_sixteens(17);
        let blank = group.blanks[0];
        let cover = unmet(&mut group, &BTreeMap::from([(blank, 3.4)])).expect("3.4 strips are no four");
        assert_eq!(cover, Cover { weights: BTreeMap::from([(blank, 1)]), least: 4 });
        assert_eq!(unmet(&mut group, &BTreeMap::from([(blank, 4.0)])), None);
    }

    #[test]
    fn no_strips_at_all_miss_a_cover_that_asks_for_some() {
        let mut group = twelve_by_sixteens(1);
        let blank = group.blanks[0];
        for none in [BTreeMap::new(), BTreeMap::from([(blank, -1e-12)])] {
            let cover = unmet(&mut group, &none).expect("one strip is needed");
            assert_eq!(cover.least, 1);
        }
    }
}
