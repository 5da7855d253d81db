//! `recut` as a person calls it: the crosscuts planned again, and plans that somebody changed by hand.

use crate::program::{folder, names, yardslip};
use serde_json::{Value, json};
use std::fs;
use std::path::Path;
use tempfile::TempDir;

const JOB: &str = "title = \"Harbour week\"\n[[sheet]]\nname = \"birch\"\nlength = 96\nwidth = 48\nprice = 40\n\
                   [[panel]]\nsize = \"12 x 16\"\ncount = 10\nscant = \"1/8\"\n[[panel]]\nsize = \"9 x 12\"\ncount = 4\n\
                   [yard]\nnarrowest = 1\n[saw]\nsquaring = 0\nshortest = 4\ncrosses = 24\n";

/// A folder with the papers of the job in `papers`, and a list of one measured strip.
fn planned() -> TempDir {
    let folder = folder(&[("job.toml", JOB), ("measured.csv", "name,width,length\nA,12,40\n")]);
    let run = yardslip(folder.path(), &["plan", "job.toml", "--out", "papers", "--quiet"]);
    assert_eq!((run.out.as_str(), run.err.as_str(), run.code), ("", "", Some(0)));
    folder
}

fn plan(folder: &Path) -> Value {
    serde_json::from_str(&fs::read_to_string(folder.join("papers/plan.json")).unwrap()).unwrap()
}

#[test]
fn a_cracked_strip_is_planned_again_and_the_rest_is_made_good() {
    // No worth is given, so area counts: 40 x 12 in. give four of 9 x 12 (432 sq in.) or two of 12 x 16 (384 sq in.).
    let folder = planned();
    let run = yardslip(folder.path(), &["recut", "papers/plan.json", "--strips", "measured.csv"]);
    let expected = "Harbour week: crosscuts planned again\n\n\
                    panels  4 of 9 x 12\n\
                    proof   Proved: these strips give no panels of more worth.\n\
                    missing 10 of 12 x 16\n\
                    buy     1 x birch\n\
                    cost    $40.00: $40.00 for sheets, nothing for the yard's 2 cuts, to make them good (papers `missing-...`)\n\
                    papers  papers-recut\n";
    assert_eq!((run.out.as_str(), run.err.as_str(), run.code), (expected, "", Some(0)));
    assert!(names(&folder.path().join("papers-recut")).contains(&"missing-yard-slip.svg".to_owned()));
}

/// Changes the plan by hand and compares what recut says; nothing may be written.
fn refuses(change: impl FnOnce(&mut Value), cause: &str, place: &str) {
    let folder = planned();
    let mut changed = plan(folder.path());
    change(&mut changed);
    fs::write(folder.path().join("papers/plan.json"), changed.to_string()).unwrap();
    let run = yardslip(folder.path(), &["recut", "papers/plan.json", "--strips", "measured.csv"]);
    let expected = format!(
        "error: {cause}\n  --> papers/plan.json, {place}\n  \
         try: give the plan.json from the folder of papers, as `yardslip plan` wrote it\n"
    );
    assert_eq!((run.out.as_str(), run.err.as_str(), run.code), ("", expected.as_str(), Some(2)));
    assert_eq!(names(folder.path()), ["job.toml", "measured.csv", "papers"]);
}

#[test]
fn a_plan_changed_by_hand_is_refused_where_it_no_longer_holds() {
    refuses(
        |plan| plan["job"]["panels"][0]["scant"] = json!("12 in"),
        "`12` is not between 0 and 12 in.",
        "job.panels[0].scant",
    );
    refuses(|plan| plan["job"]["panels"][1]["width"] = json!("0 in"), "`0` is not above zero", "job.panels[1].width");
    refuses(
        |plan| plan["job"]["panels"][1]["sheets"] = json!([3]),
        "a sheet kind is named that is not there",
        "job.panels[1].sheets",
    );
    refuses(
        |plan| plan["job"]["sheets"][0]["price"] = json!(-4000),
        "`-40.00` is no amount from 0 to a million",
        "job.sheets[0].price",
    );
    refuses(
        |plan| plan["job"]["panels"][1]["count"] = json!(5),
        "the strips give 4 of panel `9 x 12`, and the job asks for 5",
        "strips",
    );
    refuses(|plan| plan["sheets"][0]["rips"] = json!("up"), "`up` is neither `along` nor `across`", "sheets[0].rips");
    refuses(|plan| plan["sheets"][0]["kind"] = json!("oak"), "no sheet of the job is named `oak`", "sheets[0].kind");
    refuses(|plan| plan["sheets"][0]["strips"] = json!(["Q"]), "no strip has the letter `Q`", "sheets[0].strips");
}

#[test]
fn a_plan_with_a_field_missing_or_a_bad_length_is_no_plan() {
    let no_plan = |why: &str| format!("`papers/plan.json` is no plan: {why}");
    refuses(
        |plan| drop(plan["job"]["saw"].as_object_mut().unwrap().remove("kerf")),
        &no_plan("missing field `kerf`"),
        "line 1",
    );
    refuses(|plan| plan["job"]["saw"]["kerf"] = json!("wide"), &no_plan("`wide` is not a length"), "line 1");
}

#[test]
fn names_that_differ_by_capital_letters_are_different_names() {
    let twice = JOB.replace("size = \"9 x 12\"", "name = \"Gulls\"\nsize = \"9 x 12\"");
    let twice = twice.replace("size = \"12 x 16\"", "name = \"gulls\"\nsize = \"12 x 16\"");
    let folder = folder(&[("job.toml", &twice), ("measured.csv", "name,width,length\nA,12,40\n")]);
    yardslip(folder.path(), &["plan", "job.toml", "--out", "papers", "--quiet"]);
    let run = yardslip(folder.path(), &["recut", "papers/plan.json", "--strips", "measured.csv", "--quiet"]);
    assert_eq!((run.out.as_str(), run.err.as_str(), run.code), ("", "", Some(0)));
}

/// The places of all single values in a JSON text.
fn places(value: &Value, here: String, found: &mut Vec<String>) {
    match value {
        Value::Object(fields) => fields.iter().for_each(|(key, value)| places(value, format!("{here}/{key}"), found)),
        Value::Array(values) => {
            values.iter().enumerate().for_each(|(at, value)| places(value, format!("{here}/{at}"), found));
        }
        _ => found.push(here),
    }
}

#[test]
fn whatever_one_value_of_a_plan_becomes_recut_ends_in_a_plan_or_a_kind_error() {
    let folder = planned();
    let whole = plan(folder.path());
    let mut all = Vec::new();
    for part in ["job", "sheets", "strips"] {
        places(&whole[part], format!("/{part}"), &mut all);
    }
    all.retain(|place| !place.contains("assumptions") && !place.contains("/panels/1"));
    assert!(all.len() > 60, "{all:?}");
    for (at, place) in all.iter().enumerate() {
        let values = [
            json!(null),
            json!(-1),
            json!(0),
            json!("0"),
            json!("-3 in"),
            json!(4_000_000_000_u32),
            json!("900000 in"),
        ];
        let mut changed = whole.clone();
        *changed.pointer_mut(place).unwrap() = values[at % values.len()].clone();
        fs::write(folder.path().join("papers/plan.json"), changed.to_string()).unwrap();
        let arguments =
            ["recut", "papers/plan.json", "--strips", "measured.csv", "--replace", "--quiet", "--time", "0.2"];
        let run = yardslip(folder.path(), &arguments);
        assert!(matches!(run.code, Some(0..=2)), "{place}: {}", run.err);
        assert!(
            run.err.is_empty() || run.err.starts_with("error: ") && run.err.contains("  try: "),
            "{place}: {}",
            run.err
        );
        assert_eq!(run.code == Some(0), run.err.is_empty(), "{place}: {}", run.err);
    }
}
