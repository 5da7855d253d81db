//! The second of the later aims: fewest different layouts and rip widths at the yard, together. Once strips have changed
//! places among the sheets ([`super::regroup`]), smaller sets of rip widths are tried, those of fewest widths first; then
//! two layouts are replaced by one. Sets that prices refute raise the bound, and so does a proof that not all sheets can
//! be ripped alike.

use super::super::draft::Draft;
use super::super::layout::{Board, Layout};
use super::count;
use super::sets::Sets;
use super::trial::{Trial, Trials};
use crate::length::Length;
use crate::model::Problem;
use std::collections::BTreeMap;

/// Most layouts that may take the place of two.
const LAYOUTS: usize = 24;
/// Most layouts that are looked at for that.
const LOOKS: usize = 2_000;

/// The plan with fewest layouts and widths that was found; the fewest layouts, and the fewest widths, that there can
/// be. `layouts` tells how many layouts every plan that buys something has at least.
pub(super) fn fewest(trials: &Trials, draft: &Draft, must_buy: bool, layouts: &dyn Fn() -> i64) -> (Draft, i64, i64) {
    let mut draft = draft.clone();
    let widths = fewest_widths(trials, &mut draft);
    while let Some(better) = merged(trials, &draft) {
        draft = better;
    }
    if !must_buy {
        return (draft, 0, 0);
    }
    let widths = widths.max(1);
    // Where all sheets are ripped alike, they can be.
    let layouts = if count::layouts(trials.problem, &draft) <= widths + 1 { 1 } else { layouts() };
    (draft, layouts, widths)
}

/// Improves the draft by fewer rip widths; says how many there must be at least.
fn fewest_widths(trials: &Trials, draft: &mut Draft) -> i64 {
    let problem = trials.problem;
    let used = count::widths(problem, draft);
    let sets = Sets::of_widths(problem, &used);
    let (mut least, mut refuted) = (0, true);
    for many in 1..used.len() {
        let listed = sets.of(many);
        refuted &= listed.all;
        for set in &listed.sets {
            if trials.over() {
                return least + 1;
            }
            let now = count::layouts(problem, draft);
            let fewer = |draft: &Draft| count::layouts(problem, draft) < now;
            match trials.run_widths(set, &fewer) {
                Trial::Found(better) => {
                    *draft = *better;
                    refuted = false;
                }
                Trial::Never => {}
                Trial::Unsure => refuted = false,
            }
        }
        if refuted {
            least = count::number(many);
        }
    }
    if refuted { count::number(used.len()) } else { least + 1 }
}

/// The draft with one layout in the place of two, if one is found.
fn merged(trials: &Trials, draft: &Draft) -> Option<Draft> {
    let problem = trials.problem;
    let now = count::layouts(problem, draft);
    let fewer = |draft: &Draft| count::layouts(problem, draft) < now;
    let layouts: Vec<&Layout> = draft.layouts.keys().collect();
    for (at, one) in layouts.iter().enumerate() {
        for other in layouts[at + 1..].iter().filter(|other| other.ripping == one.ripping) {
            for instead in instead_of(problem, draft, one, other) {
                let mut ripped: BTreeMap<Layout, u32> = draft.layouts.clone();
                let copies = ripped.remove(*one).unwrap_or(0) + ripped.remove(*other).unwrap_or(0);
                *ripped.entry(instead).or_default() += copies;
                if trials.over() {
                    return None;
                }
                if let Trial::Found(better) = trials.run(problem, Some(&ripped), &fewer) {
                    return Some(*better);
                }
            }
        }
    }
    None
}

/// Full layouts of the widths in use that could take the place of two, those first whose strips are most like theirs.
fn instead_of(problem: &Problem, draft: &Draft, one: &Layout, other: &Layout) -> Vec<Layout> {
    if one.is_broken() || other.is_broken() {
        return Vec::new();
    }
    let used = count::widths(problem, draft);
    let ripping = &problem.rippings[one.ripping];
    let of_family = &problem.families[ripping.family].widths;
    let widths: Vec<usize> = (0..of_family.len()).filter(|width| used.contains(&of_family[*width].width)).collect();
    let mut full = Vec::new();
    let mut looks = LOOKS;
    let sizes: Vec<Length> = widths.iter().map(|width| of_family[*width].width + ripping.kerf).collect();
    fill(&sizes, ripping.room + ripping.kerf, &mut Vec::new(), &mut full, &mut looks);
    let copies = |layout: &Layout| i64::from(draft.layouts[layout]);
    let strips = |layout: &Layout, width: usize| {
        let of = layout.boards[0].strips.iter().find(|strip| strip.0 == width);
        of.map_or(0, |strip| i64::from(strip.1)) * copies(layout)
    };
    let unlike = |board: &Vec<u32>| -> i64 {
        let all = copies(one) + copies(other);
        let apart = widths.iter().zip(board).map(|(width, each)| {
            (strips(one, *width) + strips(other, *width) - i64::from(*each) * all).abs() * of_family[*width].width.raw()
        });
        apart.sum()
    };
    full.sort_by_cached_key(|board| (unlike(board), board.clone()));
    let layout = |board: Vec<u32>| {
        let strips = widths.iter().copied().zip(board).filter(|(_, each)| *each > 0).collect();
        Layout { ripping: one.ripping, boards: vec![Board { length: ripping.board.raw(), strips }] }
    };
    full.into_iter().take(LAYOUTS).map(layout).collect()
}

/// Every way to fill the room with strips until none fits any more.
fn fill(sizes: &[Length], room: Length, board: &mut Vec<u32>, full: &mut Vec<Vec<u32>>, looks: &mut usize) {
    if *looks == 0 {
        return;
    }
    *looks -= 1;
    let Some(size) = sizes.get(board.len()) else {
        if sizes.iter().all(|size| *size > room) {
            full.push(board.clone());
        }
        return;
    };
    for each in 0..=u32::try_from(room.times(*size)).unwrap_or(0) {
        board.push(each);
        fill(sizes, room - *size * i64::from(each), board, full, looks);
        board.pop();
    }
}
