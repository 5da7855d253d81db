//! What machines read on standard output: the plan's own copy, or the faults that there is no plan for.

use serde_json::{Value, json};
use yardslip::data::Fault;

/// The paper for machines, by its name in the folder.
pub(super) const NAME: &str = "plan.json";

/// The faults as `{"faults": [...]}`, each with file, line, key, cause and remedy.
pub(super) fn faults(faults: &[Fault]) -> String {
    let faults: Vec<Value> = faults.iter().map(fault).collect();
    format!("{:#}\n", json!({ "faults": faults }))
}

fn fault(fault: &Fault) -> Value {
    json!({
        "file": fault.place.file,
        "line": fault.place.line,
        "key": fault.place.key,
        "cause": fault.cause,
        "remedy": fault.remedy,
    })
}
