//! What the maker must know and the figures alone do not say, in the order of the work.

mod shop;
mod yard;
mod saw;

pub(super) use yard::over_wide;

use super::{Note, Origin, Plan, Stage};
use crate::data::Job;
use crate::length::Length;

/// All notes of a plan.
pub(super) fn notes(job: &Job, plan: &Plan) -> Vec<Note> {
    let stages = [
        (Stage::Shop, shop::notes(job, plan)),
        (Stage::Yard, yard::yard_notes(job, plan)),
        (Stage::Car, yard::car_notes(job, plan)),
        (Stage::Saw, saw::notes(job, plan)),
    ];
    let told = |(stage, texts): (Stage, Vec<String>)| texts.into_iter().map(move |text| Note { stage, text });
    stages.into_iter().flat_map(told).collect()
}

/// `strip A`, `strips A and B`, `strips A, B and C`.
fn strip_words(plan: &Plan, strips: &[usize]) -> String {
    let letters: Vec<&str> = strips.iter().map(|strip| plan.strips[*strip].letter.as_str()).collect();
    match letters.as_slice() {
        [] => String::new(),
        [only] => format!("strip {only}"),
        [first @ .., last] => format!("strips {} and {last}", first.join(", ")),
    }
}

/// The same with a capital, to open a sentence.
fn capital(words: &str) -> String {
    let mut letters = words.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

/// The length that a strip's panels need, both ends included.
fn needs_along(job: &Job, plan: &Plan, index: usize) -> Length {
    let strip = &plan.strips[index];
    strip.pieces.last().map_or(strip.squaring, |last| last.along + last.length) + far_end(job, plan, index)
}

/// The bad factory end that a strip as long as its sheet has at the far end.
fn far_end(job: &Job, plan: &Plan, index: usize) -> Length {
    let whole = plan.sheets.iter().any(|group| {
        group.boards.len() == 1 && group.boards.iter().any(|board| board.rips.iter().any(|rip| rip.strip == index))
    });
    match plan.strips[index].origin {
        Origin::Sheet { sheet, .. } if whole => job.sheets[sheet].edge_trim,
        _ => Length::ZERO,
    }
}
