//! `plan.json`, the machine's copy of a plan. Lengths are exact text in the job's units (`"11 7/8"`), money is a number
//! of whole currency units with cents (`38.5`), but for the worth among `levels`, which is in cents; weights are
//! kilograms. The job it was made for is embedded, so that the crosscuts can be planned again from this file alone.

use super::{week, wording};
use crate::data::{Cents, Job};
use crate::length::{Length, Unit};
use crate::plan::{Against, Claim, Offcut, PanelLine, Piece, Plan, SheetGroup, Strip};
use crate::solve::Direction;
use serde::Serialize;
use serde_json::{Map, Value, json};

#[derive(Serialize)]
struct Written<'a> {
    title: &'a str,
    units: Unit,
    currency: &'a str,
    cost: Value,
    sheets_bought: u32,
    proof: Value,
    levels: Value,
    sheets: Vec<Value>,
    strips: Vec<Value>,
    panels: Vec<Value>,
    extras: Vec<Value>,
    offcuts: Vec<Value>,
    areas: Value,
    /// What follows the saw; not there where the job ends with it.
    #[serde(skip_serializing_if = "Map::is_empty")]
    week: Map<String, Value>,
    notes: Vec<&'a str>,
    /// What is wrong with the plan: nothing, or it would not have been written.
    faults: Vec<Value>,
    job: &'a Job,
}

/// The file's text.
pub fn plan_json(job: &Job, plan: &Plan) -> String {
    let square_metres = |area: crate::length::Area| area.to_square_metres();
    let written = Written {
        title: &plan.title,
        units: plan.units,
        currency: &plan.currency,
        cost: json!({
            "sheets": money(plan.cost.sheets),
            "cuts": money(plan.cost.cuts),
            "total": money(plan.cost.total),
            "yard_cuts": plan.cost.yard_cuts,
            "paid_cuts": plan.cost.paid_cuts,
        }),
        sheets_bought: plan.cost.sheets_bought,
        proof: json!({
            "status": if plan.proof.proved { "proved" } else { "within" },
            "bound": money(plan.proof.bound),
            "about": about(plan.claim),
        }),
        levels: json!(plan.levels),
        sheets: plan.sheets.iter().map(|group| sheet(plan, group)).collect(),
        strips: plan.strips.iter().map(|made| strip(plan, made)).collect(),
        panels: plan.panels.iter().map(|line| panel(plan, line)).collect(),
        extras: plan.panels.iter().filter(|line| line.extras > 0).map(extra).collect(),
        offcuts: plan.offcuts.iter().map(|left| offcut(plan, left)).collect(),
        areas: json!({
            "stock_m2": square_metres(plan.areas.stock),
            "panels_m2": square_metres(plan.areas.panels),
            "kept_m2": square_metres(plan.areas.kept),
        }),
        week: week::machine_copy(plan),
        notes: plan.notes.iter().map(|note| note.text.as_str()).collect(),
        faults: Vec::new(),
        job,
    };
    let text = serde_json::to_string_pretty(&written).expect("a plan holds nothing that JSON cannot");
    text + "\n"
}

/// What the proof is about; of a cost, which plans it leaves out.
fn about(claim: Claim) -> Value {
    match claim {
        Claim::Worth => json!("worth"),
        Claim::Cost(Against { end_sizes: false, asked_widths: false, .. }) => json!("cost"),
        Claim::Cost(Against { end_sizes: true, asked_widths: false, .. }) => {
            json!("cost at smallest and nominal sizes")
        }
        Claim::Cost(Against { end_sizes: false, asked_widths: true, .. }) => json!("cost with strips as asked"),
        Claim::Cost(_) => json!("cost at smallest and nominal sizes with strips as asked"),
    }
}

/// Cents as a number of whole currency units; the shortest decimal that is the same amount.
#[allow(clippy::cast_precision_loss)] // amounts are far below 2^53 cents
fn money(amount: Cents) -> f64 {
    amount.0 as f64 / 100.0
}

fn sheet(plan: &Plan, group: &SheetGroup) -> Value {
    let show = |length: Length| length.show(plan.units);
    let letters = |board: &crate::plan::Board| -> Vec<&str> {
        board.rips.iter().map(|rip| plan.strips[rip.strip].letter.as_str()).collect()
    };
    let boards: Vec<Value> = group
        .boards
        .iter()
        .map(
            |board| json!({ "length": show(board.length), "strips": letters(board), "fall_off": show(board.fall_off) }),
        )
        .collect();
    json!({
        "number": group.number,
        "count": group.count,
        "kind": group.kind,
        "length": show(group.length),
        "width": show(group.width),
        "rips": if group.direction == Direction::Along { "along" } else { "across" },
        "strips": group.boards.iter().flat_map(letters).collect::<Vec<_>>(),
        "boards": boards,
        "needs": show(group.needs),
        "leaves": show(group.leaves),
        "measure_first": group.measure_first,
    })
}

fn strip(plan: &Plan, strip: &Strip) -> Value {
    let show = |length: Length| length.show(plan.units);
    json!({
        "letter": strip.letter,
        "count": strip.count,
        "width": show(strip.width),
        "length": show(strip.length),
        "squaring": show(strip.squaring),
        "panels": strip.pieces.iter().map(|cut| piece(plan, cut)).collect::<Vec<_>>(),
        "fall_off": show(strip.fall_off),
    })
}

fn piece(plan: &Plan, piece: &Piece) -> Value {
    json!({
        "panel": plan.panels[piece.panel].name,
        "length": piece.length.show(plan.units),
        "width": piece.width.show(plan.units),
        "turned": piece.turned,
        "trimmed": piece.trimmed,
        "extra": piece.extra,
    })
}

fn panel(plan: &Plan, line: &PanelLine) -> Value {
    json!({
        "name": line.name,
        "size": wording::size(plan, line.width, line.height),
        "cut_size": wording::cut_size(plan, line),
        "width": line.width.show(plan.units),
        "height": line.height.show(plan.units),
        "cut_width": line.cut_width.show(plan.units),
        "cut_height": line.cut_height.show(plan.units),
        "count": line.count,
        "extras": line.extras,
        "weight_kg": line.weight,
    })
}

fn extra(line: &PanelLine) -> Value {
    json!({ "panel": line.name, "count": line.extras })
}

fn offcut(plan: &Plan, offcut: &Offcut) -> Value {
    json!({
        "width": offcut.width.show(plan.units),
        "length": offcut.length.show(plan.units),
        "count": offcut.count,
        "from": offcut.from,
        "worth": money(offcut.worth),
    })
}
