//! A plan by diving: solve the linear program, keep the whole parts of what it uses (or, where there are none, its
//! favourite), solve again for what is still to be made, and so on to the end.

use super::draft::Draft;
use super::generate::{Relaxed, generate};
use super::layout::Layout;
use super::master::Made;
use super::need::Need;
use super::pattern::{Blank, Pattern, Patterns, Worth};
use super::prices::Prices;
use super::watch::Watch;
use crate::model::Problem;
use std::collections::BTreeMap;

/// Most layouts that are tried where none is used whole.
const TRIED: usize = 6;

/// How a dive chooses a layout where the program uses none whole.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Choice {
    /// By what its panels are worth beside its cost.
    Quick,
    /// By what the rest then costs, which takes a linear program for each that is tried.
    Careful,
}

/// Dives from the linear program of what is needed to a plan; none where something cannot be made.
pub(super) fn dive(
    problem: &Problem,
    need: &Need,
    first: &Relaxed,
    choice: Choice,
    watch: &dyn Watch,
) -> Option<Draft> {
    let dive = Dive { problem, watch };
    let mut state = State { draft: Draft::default(), need: need.clone(), relaxed: first.clone() };
    loop {
        let before = state.need.clone();
        state = dive.next(state, choice);
        if state.need.is_met() {
            return Some(state.draft);
        }
        if state.need == before || (choice == Choice::Careful && watch.stop()) {
            return None;
        }
    }
}

struct Dive<'a> {
    problem: &'a Problem,
    watch: &'a dyn Watch,
}

/// A plan so far, what is still needed, and the linear program of that.
struct State {
    draft: Draft,
    need: Need,
    relaxed: Relaxed,
}

impl Dive<'_> {
    /// Keeps the whole parts of what the program uses; where there are none, one layout or one strip on hand.
    fn next(&self, mut state: State, choice: Choice) -> State {
        let used = std::mem::take(&mut state.relaxed.used);
        let mut kept = strips_on_hand(self.problem, &mut state.need, &mut state.draft, &used);
        let whole_sheets = used.iter().filter_map(|(made, value)| match made {
            Made::Layout(layout) if whole(*value) > 0 => Some((layout.clone(), whole(*value))),
            _ => None,
        });
        let sheets: Vec<(Layout, u32)> = whole_sheets.collect();
        if !sheets.is_empty() {
            self.rip(&mut state, &used, &sheets);
            return self.relaxed(state);
        }
        if !kept {
            let tried = self.tried(&state, &used);
            if choice == Choice::Careful && tried.len() > 1 {
                return self.most_careful(&state, &used, tried);
            }
            if let Some(layout) = self.favourite(&state, &used, tried) {
                self.rip(&mut state, &used, &[(layout, 1)]);
                return self.relaxed(state);
            }
            let on_hand = used.iter().find(|(made, _)| matches!(made, Made::OnHand(..)));
            kept = on_hand
                .is_some_and(|(made, _)| cut(self.problem, &mut state.need, &mut state.draft, made.clone(), 1) > 0);
        }
        if kept { self.relaxed(state) } else { state }
    }

    /// The state with the linear program of what is still needed.
    fn relaxed(&self, mut state: State) -> State {
        if !state.need.is_met() {
            let found = clipped(self.problem, &state.need, std::mem::take(&mut state.relaxed.found));
            state.relaxed = generate(self.problem, &state.need, &found, self.watch);
        }
        state
    }

    /// Rips and crosscuts so many sheets.
    fn rip(&self, state: &mut State, used: &[(Made, f64)], sheets: &[(Layout, u32)]) {
        let mut supply: BTreeMap<Blank, u32> = BTreeMap::new();
        let need = &mut state.need;
        for (layout, copies) in sheets {
            let sheet = self.problem.rippings[layout.ripping].sheet;
            let copies = need.stock[sheet].map_or(*copies, |stock| stock.min(*copies));
            need.stock[sheet] = need.stock[sheet].map(|stock| stock - copies);
            need.free = need.free.saturating_sub(copies * layout.cuts(self.problem));
            for (blank, each) in layout.blanks(self.problem) {
                *supply.entry(blank).or_default() += each * copies;
            }
            if copies > 0 {
                state.draft.add(Made::Layout(layout.clone()), copies);
            }
        }
        for (blank, strips) in supply {
            fill(self.problem, need, &mut state.draft, (used, &state.relaxed.prices), blank, strips);
        }
    }

    /// The layouts that the program uses most.
    fn tried(&self, state: &State, used: &[(Made, f64)]) -> Vec<(Layout, f64)> {
        let stocked = |layout: &Layout| state.need.stock[self.problem.rippings[layout.ripping].sheet] != Some(0);
        let layouts = used.iter().filter_map(|(made, value)| match made {
            Made::Layout(layout) if stocked(layout) => Some((layout.clone(), *value)),
            _ => None,
        });
        let mut layouts: Vec<(Layout, f64)> = layouts.collect();
        layouts.sort_by(|a, b| b.1.total_cmp(&a.1));
        layouts.truncate(TRIED);
        layouts
    }

    /// The layout whose panels, all of them wanted, are worth most beside its cost.
    fn favourite(&self, state: &State, used: &[(Made, f64)], tried: Vec<(Layout, f64)>) -> Option<Layout> {
        let worth = |layout: &Layout| self.worth_now(state, used, layout);
        let weighed = tried.into_iter().map(|(layout, value)| (worth(&layout) * (1.0 + value / 16.0), layout));
        weighed.reduce(|best, next| if next.0 > best.0 + 1e-9 { next } else { best }).map(|(_, layout)| layout)
    }

    /// What the panels that a layout would give now are worth for each unit of its cost.
    #[allow(clippy::cast_precision_loss)] // only weighs one layout against another
    fn worth_now(&self, state: &State, used: &[(Made, f64)], layout: &Layout) -> f64 {
        let (mut after, mut filled) = (state.need.clone(), Draft::default());
        for (blank, strips) in layout.blanks(self.problem) {
            fill(self.problem, &mut after, &mut filled, (used, &state.relaxed.prices), blank, strips);
        }
        let gone = state.need.count.iter().zip(&after.count).map(|(before, after)| i64::from(before - after));
        let worth: i64 = gone.zip(&state.relaxed.prices.size).map(|(panels, price)| panels * price).sum();
        worth as f64 / layout.cost(self.problem) as f64
    }

    /// The state after the layout that leaves the least to pay.
    #[allow(clippy::cast_precision_loss)] // only weighs one layout against another
    fn most_careful(&self, state: &State, used: &[(Made, f64)], tried: Vec<(Layout, f64)>) -> State {
        let after = |layout: Layout| {
            let (draft, need) = (state.draft.clone(), state.need.clone());
            let mut next = State { draft, need, relaxed: state.relaxed.clone() };
            self.rip(&mut next, used, &[(layout, 1)]);
            let next = self.relaxed(next);
            let rest = if next.need.is_met() { 0.0 } else { next.relaxed.cost };
            (next.draft.cost(self.problem) as f64 + rest, next)
        };
        let in_time = tried.into_iter().enumerate().take_while(|(at, _)| *at == 0 || !self.watch.stop());
        let states = in_time.map(|(_, (layout, _))| after(layout));
        let best = states.reduce(|best, next| if next.0 < best.0 - 1e-6 { next } else { best });
        best.expect("some layout is tried").1
    }
}

/// The nearest whole number below, but for the program's rounding.
#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)] // a small count, never negative
fn whole(value: f64) -> u32 {
    (value + 1e-6).floor() as u32
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

/// Crosscuts so many strips: with the program's patterns as long as it wants more than half of one and all their
/// panels are still wanted, else with what is then worth most.
fn fill(
    problem: &Problem,
    need: &mut Need,
    draft: &mut Draft,
    (used, prices): (&[(Made, f64)], &Prices),
    blank: Blank,
    strips: u32,
) {
    let mut patterns: Vec<(&Pattern, f64)> = used
        .iter()
        .filter_map(|(made, value)| match made {
            Made::Pattern(pattern) if pattern.blank == blank => Some((pattern, *value)),
            _ => None,
        })
        .collect();
    for _ in 0..strips {
        patterns.sort_by(|a, b| b.1.total_cmp(&a.1));
        let fits = |(pattern, value): &(&Pattern, f64)| *value > 0.5 - 1e-6 && all_wanted(problem, need, pattern);
        let pattern = match patterns.iter().position(fits) {
            Some(at) => {
                patterns[at].1 -= 1.0;
                patterns[at].0.clone()
            }
            None => best_now(problem, need, prices, blank),
        };
        if !useful(problem, need, &pattern) {
            return;
        }
        take(problem, need, &pattern);
        draft.add(Made::Pattern(pattern), 1);
    }
}

/// Whether each panel of the pattern is still wanted.
fn all_wanted(problem: &Problem, need: &Need, pattern: &Pattern) -> bool {
    let mut left = need.count.clone();
    pattern.yields(problem).all(|(size, copies)| {
        let enough = left[size] >= copies;
        left[size] = left[size].saturating_sub(copies);
        enough
    })
}

/// The pattern of panels still wanted that is worth most.
fn best_now(problem: &Problem, need: &Need, prices: &Prices, blank: Blank) -> Pattern {
    // A panel that the program holds for worthless is still better cut than not.
    let price: Vec<i64> = prices.size.iter().map(|price| (*price).max(1)).collect();
    let worth = Worth { price: &price, most: &need.count, keeping: 0 };
    Patterns::new(problem, blank.family, worth, blank.usable).best(blank).1
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
