//! Strips through the width of the sheets: a path is a sheet, its end knows how many cuts the yard makes.

use super::graph::{self, Arc, Node, Piece, START};
use super::program::{Flow, Program, Through, panels};
use good_lp::{Expression, constraint};
use std::collections::BTreeMap;
use yardslip::length::Length;
use yardslip::model::{Problem, Ripping};

/// What the sheets come to, beside their price.
struct Sums {
    /// The yard's cuts, where they are paid for by the order.
    cuts: Expression,
    /// Sheets of each kind.
    bought: Vec<Expression>,
}

/// Posts all sheets, how many can be had, and the cuts paid for.
pub(super) fn post(program: &mut Program, problem: &Problem) {
    let kinds = problem.stock.len();
    let mut sums = Sums { cuts: Expression::default(), bought: vec![Expression::default(); kinds] };
    for at in (0..problem.rippings.len()).filter(|at| problem.rippings[*at].whole) {
        rip(program, problem, at, &mut sums);
    }
    for (bought, stock) in sums.bought.into_iter().zip(&problem.stock) {
        program.rows.extend(stock.map(|most| constraint!(bought <= most)));
    }
    if problem.charges.per_order {
        // Each sheet makes a panel and each strip too, so that there are no more cuts than this.
        let paid = program.number(panels(problem) * 2);
        program.rows.push(constraint!(paid >= sums.cuts - problem.charges.free));
        program.costs.push((paid, problem.charges.cut));
    }
}

/// Whether cuts must be counted sheet by sheet: else each strip is a cut, and the end of the path corrects that.
fn counted(problem: &Problem) -> bool {
    let charges = &problem.charges;
    charges.most_cuts.is_some() || (charges.cut > 0 && !charges.per_order && charges.free > 0)
}

fn rip(program: &mut Program, problem: &Problem, at: usize, sums: &mut Sums) {
    let ripping = &problem.rippings[at];
    let widths = &problem.families[ripping.family].widths;
    let most = panels(problem);
    let piece = |width: Length| Piece { length: (width + ripping.kerf).raw(), most, leads: true };
    let pieces: Vec<Piece> = widths.iter().map(|width| piece(width.width)).collect();
    let arcs = graph::arcs(&pieces, (ripping.room + ripping.kerf).raw(), counted(problem));
    let mut stays: BTreeMap<Node, Expression> = BTreeMap::new();
    let mut flow = Flow { through: Through::Sheets(at), arcs: Vec::new() };
    for arc in &arcs {
        let Arc { from, to, piece: width } = arc;
        let strips = program.number(most);
        flow.arcs.push((*arc, strips));
        *program.supply.entry(Program::strip(ripping, *width)).or_default() += strips;
        *stays.entry(*to).or_default() += strips;
        *stays.entry(*from).or_default() -= strips;
        if !counted(problem) {
            sums.cuts += strips;
            let each = if problem.charges.per_order { 0 } else { problem.charges.cut };
            program.costs.push((strips, each));
        }
    }
    program.flows.push(flow);
    let begun = -stays.remove(&START).unwrap_or_default();
    let kind = &mut sums.bought[ripping.sheet];
    *kind += begun;
    for (node, stay) in stays {
        end(program, problem, ripping, node, stay, &mut sums.cuts);
    }
}

/// The paths that end in a node: those that stay there. A sheet with more cuts than the yard makes may not end.
fn end(
    program: &mut Program,
    problem: &Problem,
    ripping: &Ripping,
    node: Node,
    stay: Expression,
    cuts: &mut Expression,
) {
    let charges = &problem.charges;
    let spare = ripping.room + ripping.kerf - Length::from_raw(node.reach);
    let made = ripping.cuts(if counted(problem) { node.pieces } else { 1 }, spare);
    let sheets = program.number(if charges.most_cuts.is_some_and(|most| counted(problem) && made > most) {
        0
    } else {
        panels(problem)
    });
    program.rows.push(constraint!(stay == sheets));
    let price = charges.sheets[ripping.sheet];
    if counted(problem) {
        *cuts += sheets * made;
        program.costs.push((sheets, price + charges.of_cuts(made)));
    } else {
        let more = i64::from(made) - 1;
        *cuts += sheets * i32::try_from(more).expect("one cut more or less");
        program.costs.push((sheets, price + if charges.per_order { 0 } else { charges.cut * more }));
    }
}
