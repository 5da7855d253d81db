//! The week for machines, a part of `plan.json`: lengths as exact text, money in whole currency units, weights in
//! kilograms, moments as `2026-05-04T09:00:00`. A part the job does not ask for is not there.

use crate::data::Cents;
use crate::data::week::Measure;
use crate::length::Length;
use crate::plan::Plan;
use crate::plan::week::{
    CanvasPlan, Help, Need, PackedStack, Packing, PressPlan, Refusal, RollStrip, Row, Shopping, ShoppingLine, Spot,
    WeekPlan,
};
use serde_json::{Map, Value, json};

/// All parts of the week by their names.
pub(crate) fn week(plan: &Plan) -> Map<String, Value> {
    let (say, week) = (Say { plan }, &plan.week);
    let parts = [
        ("shopping", week.shopping.as_ref().map(|list| say.shopping(list))),
        ("canvas", week.canvas.as_ref().map(|canvas| say.canvas(canvas))),
        ("press", week.press.as_ref().map(|press| say.press(press))),
        ("calendar", week.calendar.as_ref().map(calendar)),
        ("labels", week.labels.as_ref().map(|labels| json!(labels.texts))),
        ("packing", week.packing.as_ref().map(|packing| say.packing(packing))),
    ];
    parts.into_iter().filter_map(|(name, part)| Some((name.to_string(), part?))).collect()
}

#[allow(clippy::cast_precision_loss)] // amounts are far below 2^53 cents
fn money(amount: Cents) -> f64 {
    amount.0 as f64 / 100.0
}

/// Says the parts of one plan.
struct Say<'a> {
    plan: &'a Plan,
}

impl Say<'_> {
    fn show(&self, length: Length) -> String {
        length.show(self.plan.units)
    }

    fn name(&self, panel: usize) -> &str {
        &self.plan.panels[panel].name
    }

    fn shopping(&self, list: &Shopping) -> Value {
        let each = list.each.iter().map(|cost| json!({ "panel": self.name(cost.panel), "each": money(cost.each) }));
        json!({
            "lines": list.lines.iter().map(|line| self.line(line)).collect::<Vec<_>>(),
            "total": money(list.total),
            "not_priced": list.lines.iter().filter(|line| !line.priced).map(|line| &line.what).collect::<Vec<_>>(),
            "panels": each.collect::<Vec<_>>(),
        })
    }

    fn line(&self, line: &ShoppingLine) -> Value {
        let need = match line.need {
            Need::Count(count) => json!({ "count": count }),
            Need::Length(length) => json!({ "length": self.show(length) }),
            Need::Amount(amount, Measure::Volume) => json!({ "litres": amount.to_metric(Measure::Volume) }),
            Need::Amount(amount, Measure::Sheets) => json!({ "sheets": amount.to_metric(Measure::Sheets) }),
            Need::Amount(amount, Measure::Area) => json!({ "m2": amount.to_metric(Measure::Area) }),
        };
        let buy = line
            .buy
            .iter()
            .map(|bought| json!({ "count": bought.count, "package": bought.name, "each": money(bought.each) }));
        json!({
            "what": line.what,
            "need": need,
            "buy": buy.collect::<Vec<_>>(),
            "cost": if line.priced { json!(money(line.cost)) } else { Value::Null },
        })
    }

    fn canvas(&self, canvas: &CanvasPlan) -> Value {
        json!({
            "needs": self.show(canvas.needs),
            "bound": self.show(canvas.bound),
            "status": if canvas.proved { "proved" } else { "within" },
            "lengths_at_least": canvas.fewest,
            "lengths": canvas.lengths.iter().map(|length| self.show(*length)).collect::<Vec<_>>(),
            "cost": money(canvas.cost),
            "strips": canvas.strips.iter().map(|strip| self.roll_strip(strip)).collect::<Vec<_>>(),
            "misfits": canvas.misfits.iter().map(|panel| self.name(*panel)).collect::<Vec<_>>(),
        })
    }

    fn roll_strip(&self, strip: &RollStrip) -> Value {
        let pieces = strip.pieces.iter().map(|piece| {
            json!({
                "panel": self.name(piece.panel),
                "left": self.show(piece.left),
                "across": self.show(piece.across),
                "along": self.show(piece.along),
                "turned": piece.turned,
            })
        });
        json!({
            "length": strip.from + 1,
            "at": self.show(strip.at),
            "depth": self.show(strip.depth),
            "pieces": pieces.collect::<Vec<_>>(),
        })
    }

    fn spot(&self, spot: &Spot) -> Value {
        json!({
            "along": self.show(spot.along),
            "across": self.show(spot.across),
            "length": self.show(spot.length),
            "width": self.show(spot.width),
        })
    }

    fn press(&self, press: &PressPlan) -> Value {
        let stacks = |load: &crate::plan::week::PressLoad| -> Vec<Value> {
            let stack = |stack: &crate::plan::week::PressStack| {
                json!({
                    "panel": self.name(stack.panel),
                    "count": stack.count,
                    "height": self.show(stack.height),
                    "spot": self.spot(&stack.spot),
                })
            };
            load.stacks.iter().map(stack).collect()
        };
        json!({
            "loads": press.loads.iter().map(|load| json!({ "panels": load.panels, "stacks": stacks(load) })).collect::<Vec<_>>(),
            "at_least": press.floor,
            "misfits": press.misfits.iter().map(|misfit| self.name(misfit.panel)).collect::<Vec<_>>(),
        })
    }

    fn packing(&self, packing: &Packing) -> Value {
        let parcels = packing.parcels.iter().map(|parcel| {
            let weight = (!packing.weight_unknown).then_some(parcel.weight);
            json!({ "weight_kg": weight, "stacks": parcel.stacks.iter().map(|stack| self.stack(packing, stack)).collect::<Vec<_>>() })
        });
        let misfits = packing.misfits.iter().map(
            |misfit| json!({ "panel": self.name(misfit.panel), "count": misfit.count, "why": refused(misfit.why) }),
        );
        json!({
            "inside": packing.inside.map(|inside| inside.map(|side| self.show(side))),
            "parcels": parcels.collect::<Vec<_>>(),
            "at_least": packing.floor,
            "misfits": misfits.collect::<Vec<_>>(),
        })
    }

    fn stack(&self, packing: &Packing, stack: &PackedStack) -> Value {
        let layer = |(panel, count): &(usize, u32)| json!({ "panel": self.name(*panel), "count": count });
        json!({
            "layers": stack.layers.iter().map(layer).collect::<Vec<_>>(),
            "height": (!packing.height_unknown).then(|| self.show(stack.height)),
            "spot": self.spot(&stack.spot),
        })
    }
}

fn calendar(week: &WeekPlan) -> Value {
    let helps = week
        .helps
        .iter()
        .map(|row| json!({ "change": helped(row.help), "finish": row.finish.to_string(), "in_time": row.meets }));
    json!({
        "start": week.start.to_string(),
        "finish": week.finish.to_string(),
        "deadline": week.deadline.map(|at| at.to_string()),
        "late_minutes": week.late.max(0),
        "latest_start": week.latest_start.map(|at| at.to_string()),
        "hands_on_minutes": week.hands_on,
        "steps": week.rows.iter().map(|row| step(week, row)).collect::<Vec<_>>(),
        "would_help": helps.collect::<Vec<_>>(),
    })
}

fn step(week: &WeekPlan, row: &Row) -> Value {
    json!({
        "step": week.steps[row.step],
        "batch": row.batch,
        "batches": row.batches,
        "panels": row.panels,
        "begin": row.begin.to_string(),
        "until": row.free.to_string(),
        "ready": row.ready.to_string(),
    })
}

fn helped(help: Help) -> String {
    match help {
        Help::StartBy(start) => format!("start by {start}"),
        Help::TwiceTheBench => "twice the bench".into(),
        Help::TwiceThePress => "twice the press".into(),
        Help::LongerDays => "two hours longer each day".into(),
        Help::EveryDay => "all seven days".into(),
        Help::OneCoatLess => "one coat less".into(),
    }
}

const fn refused(why: Refusal) -> &'static str {
    match why {
        Refusal::TooLarge => "too large",
        Refusal::TooHigh => "too high",
        Refusal::TooHeavy => "too heavy",
    }
}
