//! Damage to the canvas plan.

use super::*;
use yardslip::data::week::Weave;
use yardslip::length::Length;

#[test]
fn a_piece_missing_or_one_too_many() {
    finds(Rule::Count, |week| canvas(week).strips[0].pieces.pop());
    finds(Rule::Count, |week| {
        let piece = canvas(week).strips[0].pieces[0];
        canvas(week).strips[1].pieces.push(piece);
    });
}

#[test]
fn a_piece_smaller_than_its_panel_and_the_overlap() {
    finds(Rule::Piece, |week| canvas(week).strips[0].pieces[0].across -= len("1/64"));
    finds(Rule::Piece, |week| canvas(week).strips[0].pieces[0].along -= len("1/64"));
    finds_against(Rule::Piece, |week| week.canvas.as_mut().map(|canvas| canvas.overlap += len("1/64")));
}

#[test]
fn pieces_on_each_other() {
    finds(Rule::Overlap, |week| {
        let strip = canvas(week).strips.iter_mut().find(|strip| strip.pieces.len() > 1).expect("two pieces");
        strip.pieces[1].left -= len("1/64");
    });
}

#[test]
fn a_piece_on_the_selvedge() {
    finds(Rule::Edge, |week| canvas(week).strips[0].pieces[0].left = Length::ZERO);
    finds_against(Rule::Edge, |week| week.canvas.as_mut().map(|canvas| canvas.roll = len("40")));
}

#[test]
fn a_piece_against_the_weave() {
    finds(Rule::Piece, |week| canvas(week).strips[0].pieces[0].turned = true);
    finds_against(Rule::Piece, |week| week.canvas.as_mut().map(|canvas| canvas.weave = Weave::Across));
}

#[test]
fn a_panel_that_gets_no_canvas() {
    finds_against(Rule::Piece, |week| week.canvas.as_mut().map(|canvas| canvas.panels = vec![0]));
}

#[test]
fn a_piece_said_not_to_fit_that_does() {
    finds(Rule::Misfit, |week| canvas(week).misfits.push(0));
}

#[test]
fn strips_that_do_not_follow_each_other() {
    finds(Rule::Roll, |week| canvas(week).strips[1].at += len("1/64"));
    finds(Rule::Roll, |week| canvas(week).strips[1].at = Length::ZERO);
    finds(Rule::Piece, |week| canvas(week).strips[0].depth += len("1/64"));
}

#[test]
fn lengths_that_do_not_hold_their_strips_or_are_not_sold() {
    finds(Rule::Roll, |week| canvas(week).lengths[0] = len("36"));
    finds(Rule::Roll, |week| canvas(week).lengths[0] = len("108"));
    finds(Rule::Roll, |week| canvas(week).lengths.push(len("36")));
    finds(Rule::Roll, |week| canvas(week).needs -= len("1/64"));
    finds_against(Rule::Roll, |week| week.canvas.as_mut().map(|canvas| canvas.sold.step = len("35")));
    finds_against(Rule::Roll, |week| week.canvas.as_mut().map(|canvas| canvas.sold.longest = Some(len("70"))));
}

#[test]
fn a_length_longer_than_it_must_be() {
    finds_against(Rule::Roll, |week| {
        week.canvas.as_mut().map(|canvas| {
            canvas.sold.step = len("1");
            canvas.sold.smallest = len("1");
        })
    });
}

#[test]
fn a_price_wrong() {
    finds(Rule::Price, |week| canvas(week).cost = Cents(1));
    finds_against(Rule::Price, |week| week.canvas.as_mut().map(|canvas| canvas.sold.price = Cents(1)));
}

#[test]
fn a_proof_claimed_falsely() {
    finds(Rule::Proof, |week| {
        canvas(week).proved = true;
        canvas(week).bound -= len("1/64");
    });
    finds(Rule::Proof, |week| canvas(week).bound = canvas(week).needs + len("1/64"));
}
