//! A plan by diving: solve the linear program, keep the whole parts of what it uses (or, where there are none, its
//! favourite), solve again for what is still to be made, and so on to the end.

use super::bound::Shelf;
use super::draft::Draft;
use super::generate::{Relaxed, generate};
use super::master::Made;
use super::need::Need;
use super::pattern::{Blank, Pattern};
use super::watch::Watch;
use crate::model::Problem;
use std::collections::BTreeMap;

/// Dives from the linear program of what is needed to a plan; none where something cannot be made.
pub(super) fn dive(problem: &Problem, need: &Need, first: &Relaxed, watch: &dyn Watch) -> Option<Draft> {
    let (mut draft, mut need) = (Draft::default(), need.clone());
    let (mut used, mut found, mut prices) = (first.used.clone(), first.found.clone(), first.prices.clone());
    loop {
        let before = need.clone();
        let shelf = Shelf::new(problem, &before, &prices);
        keep(problem, &mut need, &mut draft, &used, &shelf);
        if need.is_met() {
            return Some(draft);
        }
        if need == before {
            return None;
        }
        found = clipped(problem, &need, found);
        let next = generate(problem, &need, &found, watch);
        (used, found, prices) = (next.used, next.found, next.prices);
    }
}

/// Keeps the whole parts of what the program uses, or its favourite.
fn keep(problem: &Problem, need: &mut Need, draft: &mut Draft, used: &[(Made, f64)], shelf: &Shelf) {
    let mut strips = strips_on_hand(problem, need, draft, used);
    let mut layouts: Vec<(Made, u32)> =
        used.iter().filter(|(made, _)| matches!(made, Made::Layout(_))).map(|(m, v)| (m.clone(), whole(*v))).collect();
    layouts.retain(|(_, copies)| *copies > 0);
    if layouts.is_empty() && !strips {
        layouts.extend(favourite(used).map(|made| (made, 1)));
        strips = true;
    }
    let mut supply: BTreeMap<Blank, u32> = BTreeMap::new();
    for (made, copies) in layouts {
        let Made::Layout(layout) = made else {
            cut(problem, need, draft, made, copies);
            continue;
        };
        let sheet = problem.rippings[layout.ripping].sheet;
        let copies = need.stock[sheet].map_or(copies, |stock| copies.min(stock));
        need.stock[sheet] = need.stock[sheet].map(|stock| stock - copies);
        need.free = need.free.saturating_sub(copies * layout.cuts(problem));
        for (blank, each) in layout.blanks(problem) {
            *supply.entry(blank).or_default() += each * copies;
        }
        draft.add(Made::Layout(layout), copies);
    }
    let _ = strips;
    for (blank, strips) in supply {
        fill(problem, need, draft, used, shelf, blank, strips);
    }
}

/// The nearest whole number below, but for the program's rounding.
#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)] // a small count, never negative
fn whole(value: f64) -> u32 {
    (value + 1e-6).floor() as u32
}

/// What the program uses most of, layouts before strips on hand.
fn favourite(used: &[(Made, f64)]) -> Option<Made> {
    let most = |layouts: bool| {
        let these = used.iter().filter(|(made, _)| match made {
            Made::Layout(_) => layouts,
            Made::OnHand(..) => !layouts,
            Made::Pattern(_) => false,
        });
        these.fold(None, |best: Option<&(Made, f64)>, next| match best {
            Some(best) if best.1 >= next.1 - 1e-9 => Some(best),
            _ => Some(next),
        })
    };
    most(false).or_else(|| most(true)).map(|(made, _)| made.clone())
}

/// Keeps the whole parts of strips on hand; true where there are any.
fn strips_on_hand(problem: &Problem, need: &mut Need, draft: &mut Draft, used: &[(Made, f64)]) -> bool {
    let mut any = false;
    for (made, value) in used.iter().filter(|(made, _)| matches!(made, Made::OnHand(..))) {
        any |= cut(problem, need, draft, made.clone(), whole(*value)) > 0;
    }
    any
}

/// Cuts a strip on hand up to so many times, as long as it serves; says how often.
fn cut(problem: &Problem, need: &mut Need, draft: &mut Draft, made: Made, copies: u32) -> u32 {
    let Made::OnHand(strip, pattern) = &made else { return 0 };
    let mut cut = 0;
    while cut < copies && need.on_hand[*strip] > 0 && useful(problem, need, pattern) {
        need.on_hand[*strip] -= 1;
        cut += 1;
        take(problem, need, pattern);
    }
    if cut > 0 {
        draft.add(made, cut);
    }
    cut
}

fn useful(problem: &Problem, need: &Need, pattern: &Pattern) -> bool {
    pattern.yields(problem).any(|(size, _)| need.count[size] > 0)
}

fn take(problem: &Problem, need: &mut Need, pattern: &Pattern) {
    pattern.yields(problem).for_each(|(size, copies)| need.take(size, copies));
}

/// Crosscuts so many strips: whole parts of the program's patterns first, then its larger fractions, then what is
/// worth most.
fn fill(
    problem: &Problem,
    need: &mut Need,
    draft: &mut Draft,
    used: &[(Made, f64)],
    shelf: &Shelf,
    blank: Blank,
    mut strips: u32,
) {
    let mut patterns: Vec<(&Pattern, f64)> = used
        .iter()
        .filter_map(|(made, value)| match made {
            Made::Pattern(pattern) if pattern.blank == blank => Some((pattern, *value)),
            _ => None,
        })
        .collect();
    let mut cut = |pattern: &Pattern, copies: u32, strips: &mut u32| {
        let mut done = 0;
        while done < copies && *strips > 0 && useful(problem, need, pattern) {
            take(problem, need, pattern);
            (done, *strips) = (done + 1, *strips - 1);
        }
        if done > 0 {
            draft.add(Made::Pattern(pattern.clone()), done);
        }
        done > 0
    };
    for (pattern, value) in &patterns {
        cut(pattern, whole(*value), &mut strips);
    }
    patterns.sort_by(|a, b| b.1.fract().total_cmp(&a.1.fract()));
    for (pattern, value) in &patterns {
        if *value - f64::from(whole(*value)) > 1e-6 {
            cut(pattern, 1, &mut strips);
        }
    }
    let (_, best) = shelf.family(blank.family).best(blank);
    while strips > 0 && cut(&best, 1, &mut strips) {}
}

/// What was found, with no more panels on a pattern than are still wanted.
fn clipped(problem: &Problem, need: &Need, found: Vec<Made>) -> Vec<Made> {
    let clip = |pattern: Pattern| {
        let mut left = need.count.clone();
        let laid = &problem.families[pattern.blank.family].widths[pattern.blank.width].laid;
        let pieces = pattern.pieces.iter().map(|(at, copies)| {
            let size = laid[*at].size;
            let copies = (*copies).min(left[size]);
            left[size] -= copies;
            (*at, copies)
        });
        let pieces: Vec<(usize, u32)> = pieces.filter(|(_, copies)| *copies > 0).collect();
        (!pieces.is_empty()).then_some(Pattern { pieces, ..pattern })
    };
    let clipped = found.into_iter().filter_map(|made| match made {
        Made::Layout(layout) => Some(Made::Layout(layout)),
        Made::Pattern(pattern) => clip(pattern).map(Made::Pattern),
        Made::OnHand(strip, pattern) => clip(pattern).map(|pattern| Made::OnHand(strip, pattern)),
    });
    clipped.collect()
}
