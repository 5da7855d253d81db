//! The other solver's answer in shop words, so that it can be laid out and checked like one of ours. A flow falls apart
//! into paths, each of them a sheet with its strips or a strip with its panels; panels that nobody asked for are not
//! cut, nor strips that then have none.

use super::graph::{Arc, Node, START};
use super::program::{Flow, Program, Strip, Through};
use good_lp::solvers::Solution;
use std::collections::BTreeMap;
use yardslip::data::{Cents, Job};
use yardslip::model::{Laid, Problem};
use yardslip::solve::{BoardUse, Direction, PieceCut, Proof, SheetUse, Solved, StripCut, StripUse};

/// Panels of strips that are alike, one entry a strip.
type Cut = BTreeMap<Strip, Vec<Vec<PieceCut>>>;

/// The plan that an answer to the program stands for; nothing is said of what is proved.
pub(super) fn solved(job: &Job, problem: &Problem, flows: &[Flow], answer: &impl Solution, cost: Cents) -> Solved {
    let mut left: Vec<u32> = job.panels.iter().map(|panel| panel.count).collect();
    let mut cut = Cut::new();
    for flow in flows {
        if let Through::Strips(strip) = flow.through {
            let laid = &problem.families[strip.family].widths[strip.width].laid;
            let panels = paths(flow, answer).into_iter().map(|path| pieces(problem, laid, path, &mut left));
            cut.entry(strip).or_default().extend(panels.filter(|pieces| !pieces.is_empty()));
        }
    }
    let on_hand = on_hand(problem, &mut cut);
    let mut sheets = Vec::new();
    for flow in flows {
        if let Through::Sheets(ripping) = flow.through {
            sheets.extend(paths(flow, answer).into_iter().map(|path| sheet(problem, ripping, path, &mut cut)));
        }
    }
    assert!(cut.values().all(Vec::is_empty), "each strip comes from a sheet");
    sheets.retain(|sheet| !sheet.boards[0].strips.is_empty());
    Solved { sheets, on_hand, cost, proof: Proof { proved: false, bound: Cents::ZERO }, levels: vec![] }
}

/// The paths of a flow, each as the pieces on it.
#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)] // numbers of things, none or more
fn paths(flow: &Flow, answer: &impl Solution) -> Vec<Vec<usize>> {
    let mut left: BTreeMap<Node, Vec<(Arc, u32)>> = BTreeMap::new();
    for (arc, variable) in &flow.arcs {
        left.entry(arc.from).or_default().push((*arc, answer.value(*variable).round() as u32));
    }
    let mut paths = Vec::new();
    loop {
        let (mut node, mut path) = (START, Vec::new());
        while let Some((arc, number)) = left.get_mut(&node).and_then(|arcs| arcs.iter_mut().find(|arc| arc.1 > 0)) {
            *number -= 1;
            path.push(arc.piece);
            node = arc.to;
        }
        if path.is_empty() {
            return paths;
        }
        paths.push(path);
    }
}

/// The panels of a strip that somebody wants, the longest handed out first so that the hand keeps hold.
fn pieces(problem: &Problem, laid: &[Laid], mut path: Vec<usize>, left: &mut [u32]) -> Vec<PieceCut> {
    path.sort_by_key(|at| std::cmp::Reverse(laid[*at].along));
    let mut pieces = Vec::new();
    for laid in path.into_iter().map(|at| laid[at]) {
        let lines = &problem.sizes[laid.size].lines;
        if let Some(line) = lines.iter().copied().find(|line| left[*line] > 0) {
            left[line] -= 1;
            pieces.push(PieceCut { panel: line, turned: laid.turned, trimmed: laid.trimmed, extra: false });
        }
    }
    pieces
}

/// Takes strips on hand for what is cut from them.
fn on_hand(problem: &Problem, cut: &mut Cut) -> Vec<StripUse> {
    let mut uses = Vec::new();
    for on_hand in &problem.on_hand {
        let Some(given) = cut.get_mut(&Program::strip_on_hand(on_hand)) else { continue };
        let kept = given.len().saturating_sub(on_hand.count as usize);
        uses.extend(given.drain(kept..).map(|pieces| StripUse { strip: on_hand.strip, count: 1, pieces }));
    }
    uses
}

fn sheet(problem: &Problem, ripping: usize, path: Vec<usize>, cut: &mut Cut) -> SheetUse {
    let ripping = &problem.rippings[ripping];
    let strip = |width| {
        let pieces = cut.get_mut(&Program::strip(ripping, width)).and_then(Vec::pop)?;
        Some(StripCut { width: problem.families[ripping.family].widths[width].width, pieces })
    };
    let board = BoardUse { length: ripping.board, strips: path.into_iter().filter_map(strip).collect() };
    let direction = if ripping.along { Direction::Along } else { Direction::Across };
    SheetUse { sheet: ripping.sheet, direction, boards: vec![board], count: 1 }
}
