//! A draft as it will be cut: no panel that nobody wants, no strip that nothing is cut from, no strip on hand that is
//! started for extra panels alone, no sheet without strips.

use super::super::draft::Draft;
use super::super::layout::{Layout, blank};
use super::super::master::Made;
use super::super::pattern::{Blank, Pattern};
use crate::model::{Problem, Size};
use std::cmp::Reverse;

/// The draft without what is surplus; it costs no more.
pub(super) fn tidy(problem: &Problem, draft: &Draft) -> Draft {
    let mut tidy = clip(problem, draft);
    for (blank, spare) in tidy.spare_strips(problem) {
        (0..spare).for_each(|_| leave_out(problem, &mut tidy, blank));
    }
    tidy.layouts.retain(|layout, _| layout.boards.iter().any(|board| !board.strips.is_empty()));
    tidy
}

/// The draft without panels that nobody wants; its sheets stay as they are.
pub(super) fn clip(problem: &Problem, draft: &Draft) -> Draft {
    let mut left: Vec<u32> = problem.sizes.iter().map(wanted).collect();
    let mut clipped = Draft { layouts: draft.layouts.clone(), ..Draft::default() };
    for ((strip, pattern), copies) in &draft.on_hand {
        for (pattern, copies) in wanted_of(problem, pattern, *copies, &mut left) {
            clipped.add(Made::OnHand(*strip, pattern), copies);
        }
    }
    for (pattern, copies) in &draft.patterns {
        for (pattern, copies) in wanted_of(problem, pattern, *copies, &mut left) {
            clipped.add(Made::Pattern(pattern), copies);
        }
    }
    clipped
}

/// The draft without strips on hand that no panel asked for is cut from: they stay whole. What is asked for of the
/// panels on them comes from the other strips.
pub(super) fn without_fresh(problem: &Problem, draft: &Draft) -> Draft {
    let mut asked: Vec<u32> = problem.sizes.iter().map(|size| size.count).collect();
    let mut kept = Draft { layouts: draft.layouts.clone(), patterns: draft.patterns.clone(), ..Draft::default() };
    for ((strip, pattern), copies) in &draft.on_hand {
        let started = (0..*copies).take_while(|_| start(problem, pattern, &mut asked).is_some()).count();
        if let Some(copies) = u32::try_from(started).ok().filter(|copies| *copies > 0) {
            kept.add(Made::OnHand(*strip, pattern.clone()), copies);
        }
    }
    kept
}

/// The size of the panel asked for that a strip on hand is started for: of those that it gives, the one that most are
/// still asked for of; takes it off them.
pub(in crate::solve) fn start(problem: &Problem, pattern: &Pattern, asked: &mut [u32]) -> Option<usize> {
    let sizes = pattern.yields(problem).map(|(size, _)| size);
    let size = sizes.filter(|size| asked[*size] > 0).max_by_key(|size| (asked[*size], Reverse(*size)))?;
    asked[size] -= 1;
    Some(size)
}

/// Panels of a size that are asked for or welcome.
pub(super) fn wanted(size: &Size) -> u32 {
    size.count + size.wishes.iter().map(|wish| wish.most).sum::<u32>()
}

/// The pattern as often as all of it is wanted, then what is wanted of it; long pieces first, so that the hand keeps
/// hold.
fn wanted_of(problem: &Problem, pattern: &Pattern, copies: u32, left: &mut [u32]) -> Vec<(Pattern, u32)> {
    let laid = &problem.families[pattern.blank.family].widths[pattern.blank.width].laid;
    let mut each = vec![0; left.len()];
    pattern.yields(problem).for_each(|(size, copies)| each[size] += copies);
    let full = each.iter().zip(&*left).filter(|(each, _)| **each > 0).map(|(each, left)| left / each);
    let full = full.min().unwrap_or(0).min(copies);
    left.iter_mut().zip(&each).for_each(|(left, each)| *left -= each * full);
    let mut clipped = vec![(pattern.clone(), full)];
    let mut order = pattern.pieces.clone();
    order.sort_by_key(|(at, _)| Reverse(laid[*at].along));
    for _ in full..copies {
        let mut pieces: Vec<(usize, u32)> = order
            .iter()
            .map(|(at, copies)| {
                let taken = (*copies).min(left[laid[*at].size]);
                left[laid[*at].size] -= taken;
                (*at, taken)
            })
            .collect();
        pieces.retain(|(_, copies)| *copies > 0);
        pieces.sort_unstable();
        clipped.push((Pattern { pieces, ..*pattern }, 1));
    }
    clipped.retain(|(pattern, copies)| *copies > 0 && !pattern.pieces.is_empty());
    clipped
}

/// Leaves one strip out of a sheet: of those that give it, one whose like are fewest.
fn leave_out(problem: &Problem, draft: &mut Draft, out: Blank) {
    let gives = |layout: &&Layout| layout.blanks(problem).any(|(blank, _)| blank == out);
    let of = draft.layouts.iter().filter(|(layout, _)| gives(layout)).min_by_key(|(_, copies)| **copies);
    let Some(layout) = of.map(|(layout, _)| layout.clone()) else { return };
    let ripping = &problem.rippings[layout.ripping];
    let mut less = layout.clone();
    for board in &mut less.boards {
        let length = board.length;
        if let Some(strip) = board.strips.iter_mut().find(|strip| blank(ripping, length, strip.0) == out) {
            strip.1 -= 1;
            board.strips.retain(|(_, copies)| *copies > 0);
            break;
        }
    }
    let copies = draft.layouts.get_mut(&layout).expect("it was found there");
    *copies -= 1;
    if *copies == 0 {
        draft.layouts.remove(&layout);
    }
    draft.add(Made::Layout(less), 1);
}
