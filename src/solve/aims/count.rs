//! What a draft has of each later aim, counted on its layouts and patterns as they are: nothing in it is surplus, every
//! strip is cut (see [`super::tidy`]).

use super::super::draft::Draft;
use super::super::layout::Layout;
use super::super::pattern::Pattern;
use super::super::tail::Tail;
use crate::length::Length;
use crate::model::{Problem, Size};
use std::collections::BTreeSet;

/// Extra panels and fall-offs worth keeping, in cents.
pub(super) fn worth(problem: &Problem, draft: &Draft) -> i64 {
    let made = draft.made(problem);
    let extras: i64 = problem.sizes.iter().zip(made).map(|(size, made)| of_extras(size, made)).sum();
    let boards = draft.layouts.iter().map(|(layout, copies)| i64::from(*copies) * kept_beside(problem, layout));
    let strips = patterns(draft).map(|(pattern, copies)| i64::from(copies) * kept_behind(problem, pattern));
    extras + boards.sum::<i64>() + strips.sum::<i64>()
}

/// All patterns of a draft, those of strips on hand too.
pub(super) fn patterns(draft: &Draft) -> impl Iterator<Item = (&Pattern, u32)> {
    let on_hand = draft.on_hand.iter().map(|((_, pattern), copies)| (pattern, *copies));
    draft.patterns.iter().map(|(pattern, copies)| (pattern, *copies)).chain(on_hand)
}

/// What the panels of a size beyond those asked for are worth; those of most worth are welcome first.
fn of_extras(size: &Size, made: u32) -> i64 {
    let mut left = made.saturating_sub(size.count);
    let worth = size.wishes.iter().map(|wish| {
        let taken = left.min(wish.most);
        left -= taken;
        i64::from(taken) * wish.worth
    });
    worth.sum()
}

/// What is left beside the strips of a sheet, in cents.
pub(super) fn kept_beside(problem: &Problem, layout: &Layout) -> i64 {
    let ripping = &problem.rippings[layout.ripping];
    let boards = layout.boards.iter().filter(|board| !board.strips.is_empty());
    let kept = boards.map(|board| {
        let tail = Tail::of_board(problem, ripping, Length::from_raw(board.length), 1);
        tail.worth(board.spare(problem, ripping))
    });
    kept.sum()
}

/// What is left behind the panels of a strip, in cents.
pub(super) fn kept_behind(problem: &Problem, pattern: &Pattern) -> i64 {
    let width = problem.families[pattern.blank.family].widths[pattern.blank.width].width;
    Tail::of_strip(problem, width, 1).worth(room(problem, pattern))
}

/// What the panels of a strip leave of its length and one kerf, each panel taking a kerf with it.
pub(super) fn room(problem: &Problem, pattern: &Pattern) -> i64 {
    let laid = &problem.families[pattern.blank.family].widths[pattern.blank.width].laid;
    let used = pattern.pieces.iter().map(|(at, copies)| (laid[*at].along + problem.kerf).raw() * i64::from(*copies));
    pattern.blank.usable + problem.kerf.raw() - used.sum::<i64>()
}

/// Different layouts and different rip widths, together.
pub(super) fn layouts(problem: &Problem, draft: &Draft) -> i64 {
    number(draft.layouts.len() + widths(problem, draft).len())
}

/// The different widths that the yard rips.
pub(super) fn widths(problem: &Problem, draft: &Draft) -> BTreeSet<Length> {
    let blanks = draft.layouts.keys().flat_map(|layout| layout.blanks(problem));
    blanks.map(|(blank, _)| problem.families[blank.family].widths[blank.width].width).collect()
}

/// The different lengths crosscut at home.
pub(super) fn lengths(problem: &Problem, draft: &Draft) -> BTreeSet<Length> {
    let of = |pattern: &Pattern| {
        let laid = &problem.families[pattern.blank.family].widths[pattern.blank.width].laid;
        pattern.pieces.iter().map(|(at, _)| laid[*at].along).collect::<Vec<_>>()
    };
    patterns(draft).flat_map(|(pattern, _)| of(pattern)).collect()
}

/// A count as a level holds it.
pub(super) fn number(count: usize) -> i64 {
    i64::try_from(count).expect("counts are small")
}
