//! The saw order as a CSV list, a line for each panel size of each cut; lengths in the job's units.

use super::Tally;
use crate::documents::wording;
use crate::plan::{Plan, StopCut};

const COLUMNS: [&str; 12] = [
    "step",
    "setting",
    "strip",
    "strips",
    "square_first",
    "panel",
    "size",
    "pieces",
    "left",
    "made",
    "of",
    "hold_long_end",
];

/// The list, with a header line.
pub fn csv_list(plan: &Plan) -> Vec<u8> {
    let mut list = csv::Writer::from_writer(Vec::new());
    let mut write = |record: &[String]| list.write_record(record).expect("writing to memory does not fail");
    write(&COLUMNS.map(String::from));
    let mut tally = Tally::new(plan);
    for (step, stop) in plan.stops.iter().enumerate() {
        for cut in &stop.cuts {
            let setting = stop.setting.show(plan.units);
            for record in records(plan, step + 1, &setting, cut, &mut tally) {
                write(&record);
            }
        }
    }
    list.into_inner().expect("writing to memory does not fail")
}

fn records(plan: &Plan, step: usize, setting: &str, cut: &StopCut, tally: &mut Tally) -> Vec<[String; 12]> {
    let yes = |flag: bool| if flag { "yes" } else { "no" }.to_string();
    let off = tally.count(cut);
    let record = |(panel, pieces): &(usize, u32)| {
        let line = &plan.panels[*panel];
        let (made, all) = tally.so_far(*panel);
        [
            step.to_string(),
            setting.to_string(),
            plan.strips[cut.strip].letter.clone(),
            cut.strips.to_string(),
            yes(cut.square_first),
            line.name.clone(),
            wording::cut_size(plan, line),
            pieces.to_string(),
            cut.left.show(plan.units),
            made.to_string(),
            all.to_string(),
            yes(cut.hold_long_end),
        ]
    };
    off.iter().map(record).collect()
}
