//! What the papers say: nothing is lost between plan and paper, and nothing claimed that the plan does not hold.

use super::plans::{ALL, everything, file, planned, printed};
use crate::by_hand::{broken_down_job, broken_down_plan, mixed_job, mixed_plan};
use crate::jobs::len;
use yardslip::data::{Cents, Job, SawKind};
use yardslip::documents::blocks::{Block, Caution, DEFERS};
use yardslip::documents::{Options, overview, packet};
use yardslip::length::{Area, Length};
use yardslip::plan::{Alternative, Areas, Figures, Outcome};
use yardslip::solve::{Aim, Level};

#[test]
fn the_saw_list_makes_every_panel_in_the_end() {
    for (name, job, plan) in ALL.iter() {
        let text = file(job, plan, "saw-order.csv");
        let mut list = csv::Reader::from_reader(text.as_bytes());
        let mut made: Vec<(String, u32, u32)> = Vec::new();
        for record in list.records() {
            let record = record.unwrap();
            let figure = |at: usize| record[at].parse::<u32>().unwrap();
            match made.iter_mut().find(|(panel, _, _)| *panel == record[5]) {
                Some(line) => (line.1, line.2) = (line.1 + figure(7), figure(9)),
                None => made.push((record[5].to_string(), figure(7), figure(9))),
            }
        }
        for line in &plan.panels {
            let all = line.count + line.extras;
            let found = made.iter().find(|(panel, _, _)| *panel == line.name).expect("the panel is cut");
            assert_eq!((found.1, found.2), (all, all), "{name}: {}", line.name);
        }
    }
}

#[test]
fn the_word_proved_stands_only_where_the_cost_is_proved() {
    let (job, plan) = (broken_down_job(), broken_down_plan());
    assert!(!plan.proof.proved);
    let text = everything(&job, &plan);
    assert!(text.contains("Not proved: no plan can cost less than $91.00; this one costs $92.00."));
    assert!(!text.contains("Proved:") && !text.contains("\"proved\": true") && text.contains("\"status\": \"within\""));
    let (job, plan) = (mixed_job(), mixed_plan());
    let text = everything(&job, &plan);
    assert!(text.contains("Proved: no plan for this job costs less.") && text.contains("\"status\": \"proved\""));
}

#[test]
fn a_bound_that_every_plan_keeps_is_not_told() {
    let told = |bound: i64, cents: i64| {
        let mut plan = broken_down_plan();
        plan.proof.bound = Cents(cents);
        let level = |aim| Level { aim, value: 5, bound, proved: false };
        plan.levels = [Aim::Layouts, Aim::Settings].map(level).to_vec();
        overview::paper(&plan).blocks
    };
    let says = |blocks: &[Block], end: &str| {
        let lists =
            blocks.iter().filter_map(|block| if let Block::List { lines, .. } = block { Some(lines) } else { None });
        lists.flatten().filter(|line| line.ends_with(end)).count()
    };
    let blocks = told(1, 0);
    assert_eq!(says(&blocks, "; not proved, fewer may be possible at this cost."), 2, "{blocks:?}");
    assert_eq!(says(&blocks, "Not proved: a cheaper plan may exist; this one costs $92.00."), 1, "{blocks:?}");
    let blocks = told(3, 9100);
    assert_eq!(says(&blocks, "at the yard; not proved, as few as 3 together may be possible at this cost."), 1);
    assert_eq!(says(&blocks, "at home; not proved, as few as 3 may be possible at this cost."), 1);
}

#[test]
fn every_caution_names_its_sources_and_defers() {
    for kind in [SawKind::RadialArm, SawKind::Mitre, SawKind::Table] {
        let mut job = mixed_job();
        job.saw.kind = kind;
        let papers = packet(&job, &mixed_plan(), &Options::default());
        let cautions: Vec<&Caution> = papers
            .iter()
            .flat_map(|paper| &paper.blocks)
            .filter_map(|block| if let Block::Caution(caution) = block { Some(caution) } else { None })
            .collect();
        assert!(cautions.len() >= 4);
        assert!(cautions.iter().flat_map(|caution| &caution.warnings).all(|warning| warning.source.len() > 5));
        let page = file(&job, &mixed_plan(), "packet.html");
        assert_eq!(page.matches(DEFERS).count(), cautions.len());
    }
}

#[test]
fn defaults_are_printed_where_they_are_used_with_their_origin() {
    let (job, plan) = planned("first-batch.toml");
    assert!(!plan.assumptions.is_empty());
    let page = file(&job, &plan, "packet.html");
    for assumption in &plan.assumptions {
        assert!(page.contains(&assumption.key), "{} is not printed", assumption.key);
    }
}

#[test]
fn the_machines_copy_reads_back() {
    for (name, job, plan) in ALL.iter() {
        let copy: serde_json::Value = serde_json::from_str(&file(job, plan, "plan.json")).unwrap();
        let kept: Job = serde_json::from_value(copy["job"].clone()).unwrap_or_else(|error| panic!("{name}: {error}"));
        assert_eq!(&kept, job, "{name}");
        assert_eq!(copy["sheets_bought"], plan.cost.sheets_bought);
        let cents = (copy["cost"]["total"].as_f64().unwrap() * 100.0).round();
        assert!((cents - f64::from(i32::try_from(plan.cost.total.0).unwrap())).abs() < 1e-6);
        let strips = copy["strips"].as_array().unwrap();
        for (written, strip) in strips.iter().zip(&plan.strips) {
            let width = Length::parse(written["width"].as_str().unwrap(), plan.units).unwrap();
            assert_eq!(width, strip.width, "lengths are exact text");
            assert_eq!(written["panels"].as_array().unwrap().len(), strip.pieces.len());
        }
        assert_eq!(copy["faults"], serde_json::json!([]));
    }
}

#[test]
fn cuts_that_cost_nothing_are_not_called_paid() {
    let (mut job, mut plan) = (mixed_job(), mixed_plan());
    (job.yard.cut_price, plan.cost.cuts) = (Cents::ZERO, Cents::ZERO);
    let text = printed(&job, &plan);
    assert!(
        text.contains("nothing charged") && !text.contains("paid") && !text.contains("and the yard's cuts"),
        "{text}"
    );
}

#[test]
fn strips_on_hand_are_on_the_shopping_list_for_nothing() {
    let text = printed(&mixed_job(), &mixed_plan());
    assert!(text.contains("Take from what is on hand: 1 of from spring 10 x 40, as strip C."), "{text}");
}

#[test]
fn the_comparison_says_what_each_way_costs_or_why_it_cannot_be_done() {
    let (job, mut plan) = (mixed_job(), mixed_plan());
    let figures = Figures {
        sheets: 2,
        cost: Cents(7700),
        areas: Areas { stock: len("48") * len("96"), panels: len("48") * len("48"), kept: Area::ZERO },
        layouts: 1,
        sizes: plan.panels.iter().map(|line| (line.width, line.height)).collect(),
        proved: false,
    };
    let planned = Figures {
        sizes: plan.panels.iter().map(|line| (line.cut_width, line.cut_height)).collect(),
        ..figures.clone()
    };
    let way = |name: &str, outcome| Alternative { name: name.into(), outcome };
    plan.comparison = vec![
        way("this plan", Outcome::Done(planned)),
        way("at nominal size", Outcome::Done(figures)),
        way("all rips across the sheet", Outcome::Not("panel `12 x 16` fits nowhere".into())),
        way("only birch", Outcome::Late),
    ];
    let text = printed(&job, &plan);
    let page = text.split("Side by side").nth(1).unwrap();
    for row in [
        "this plan\n2\n$77.00\n50.0 %\n1\nthe sizes of this plan\nno",
        "at nominal size\n2\n$77.00\n50.0 %\n1\nnominal size\nno",
        "all rips across the sheet\n\n\n\n\ncannot be done: panel `12 x 16`",
        "only birch\n\n\n\n\nnot found out in the time",
    ] {
        assert!(page.contains(row), "{row}\nis not in\n{page}");
    }
}
