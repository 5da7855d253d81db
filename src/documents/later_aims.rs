//! What the plan reached beyond least money, in plain words: extras and offcuts, work at the yard, work at home. Each
//! says what it is, and whether more is possible at the same cost.

use super::wording;
use crate::data::Cents;
use crate::plan::{Claim, Plan};
use crate::solve::{Aim, Level};

/// A sentence for each later aim, after the word under which a summary lists it.
pub fn sentences(plan: &Plan) -> Vec<(&'static str, String)> {
    plan.levels.iter().map(|level| sentence(plan, *level)).collect()
}

fn sentence(plan: &Plan, level: Level) -> (&'static str, String) {
    match level.aim {
        Aim::Worth => ("extra", worth(plan, level)),
        Aim::Layouts => ("yard", yard(plan, level)),
        Aim::Settings => {
            let settings = counted(level.value, "stop-block setting");
            ("stops", format!("{settings} at home; {}", fewest(plan, level)))
        }
    }
}

/// `2 more 8 x 10 and 1 offcut worth keeping from what would be waste, worth $18.00 together; ...`.
fn worth(plan: &Plan, level: Level) -> String {
    let extras = plan.panels.iter().filter(|line| line.extras > 0);
    let mut goods: Vec<String> =
        extras.map(|line| format!("{} more {}", line.extras, wording::called(plan, line))).collect();
    let kept = plan.offcuts.iter().filter(|left| left.worth > Cents::ZERO).map(|left| left.count).sum();
    if kept > 0 {
        goods.push(format!("{} worth keeping", wording::counted(kept, "offcut")));
    }
    let most = if level.proved {
        format!("proved, no plan{} gives more at this cost.", at_smallest(plan))
    } else {
        let bound = wording::money(plan, Cents(level.bound));
        format!("not proved, up to {bound} may be possible at this cost.")
    };
    let value = wording::money(plan, Cents(level.value));
    match goods.as_slice() {
        [] => format!("No welcome panel and no offcut worth keeping from what would be waste; {most}"),
        [one] => format!("{one} from what would be waste, worth {value}; {most}"),
        _ => format!("{} from what would be waste, worth {value} together; {most}", wording::and(&goods)),
    }
}

fn yard(plan: &Plan, level: Level) -> String {
    let layouts = i64::try_from(plan.yard.len()).expect("layouts are few");
    let (kinds, widths) = (counted(layouts, "sheet layout"), counted(level.value - layouts, "rip width"));
    format!("{kinds} and {widths} at the yard; {}", fewest(plan, level))
}

fn fewest(plan: &Plan, level: Level) -> String {
    if level.proved {
        format!("proved, no plan{} has fewer at this cost.", at_smallest(plan))
    } else if level.bound <= anyhow(level.aim) {
        "not proved, fewer may be possible at this cost.".into()
    } else {
        let together = if level.aim == Aim::Layouts { " together" } else { "" };
        format!("not proved, as few as {}{together} may be possible at this cost.", level.bound)
    }
}

/// What every plan has at the least: a layout and a width where a sheet is ripped, a setting where a panel is cut. To
/// say that no plan has fewer tells nobody anything.
fn anyhow(aim: Aim) -> i64 {
    match aim {
        Aim::Worth => 0,
        Aim::Layouts => 2,
        Aim::Settings => 1,
    }
}

/// Where sizes decide about a paid cut, the later aims are about panels at their smallest sizes only.
fn at_smallest(plan: &Plan) -> &'static str {
    match plan.claim {
        Claim::Cost(against) if against.end_sizes => " with panels at their smallest sizes",
        _ => "",
    }
}

fn counted(count: i64, one: &str) -> String {
    wording::counted(u32::try_from(count).unwrap_or_default(), one)
}
