//! Panels through the length of the strips: as many paths as there are strips, as many panels as are wanted.

use super::graph::{self, Node, Piece, START};
use super::program::{Flow, Program, Strip, Through, panels};
use good_lp::{Expression, constraint};
use std::collections::BTreeMap;
use yardslip::model::{Laid, Problem};

/// Posts all strips, from sheets and on hand, and the panels wanted.
pub(super) fn post(program: &mut Program, problem: &Problem) {
    for on_hand in &problem.on_hand {
        *program.supply.entry(Program::strip_on_hand(on_hand)).or_default() += f64::from(on_hand.count);
    }
    let mut made = vec![Expression::default(); problem.sizes.len()];
    for (strip, supply) in std::mem::take(&mut program.supply) {
        let laid = &problem.families[strip.family].widths[strip.width].laid;
        let mut begun = Expression::default();
        for (extent, pieces) in ways(problem, strip, laid) {
            begun += flow(program, problem, strip, &pieces, extent, &mut made);
        }
        program.rows.push(constraint!(begun <= supply));
    }
    for (made, size) in made.into_iter().zip(&problem.sizes) {
        program.rows.push(constraint!(made >= f64::from(size.count)));
    }
}

/// The extents to fill and with what: with a piece first that is long enough to hold, or, where enough is left to hold
/// all the same, with short ones only.
fn ways(problem: &Problem, strip: Strip, laid: &[Laid]) -> Vec<(i64, Vec<Piece>)> {
    let long = |laid: &Laid| laid.along >= problem.shortest;
    let piece = |laid: &Laid, most: u32, leads: bool| Piece { length: (laid.along + problem.kerf).raw(), most, leads };
    let count = |laid: &Laid| problem.sizes[laid.size].count;
    let whole = (strip.usable + problem.kerf).raw();
    let held =
        if strip.stub >= problem.shortest { whole } else { (strip.usable + strip.stub - problem.shortest).raw() };
    let led = laid.iter().map(|one| piece(one, count(one), long(one))).collect();
    let short = laid.iter().map(|one| piece(one, if long(one) { 0 } else { count(one) }, true)).collect();
    vec![(whole, led), (held, short)]
}

/// Posts one graph; how many paths begin in it.
fn flow(
    program: &mut Program,
    problem: &Problem,
    strip: Strip,
    pieces: &[Piece],
    extent: i64,
    made: &mut [Expression],
) -> Expression {
    let laid = &problem.families[strip.family].widths[strip.width].laid;
    let mut flow = Flow { through: Through::Strips(strip), arcs: Vec::new() };
    let mut stays: BTreeMap<Node, Expression> = BTreeMap::new();
    for arc in graph::arcs(pieces, extent, false) {
        let strips = program.number(panels(problem));
        flow.arcs.push((arc, strips));
        made[laid[arc.piece].size] += strips;
        *stays.entry(arc.to).or_default() += strips;
        *stays.entry(arc.from).or_default() -= strips;
    }
    program.flows.push(flow);
    let begun = stays.remove(&START).unwrap_or_default();
    program.rows.extend(stays.into_values().map(|stay| constraint!(stay >= 0)));
    -begun
}
