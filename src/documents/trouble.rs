//! What goes wrong in a plan that can be cut: canvas that the roll is too narrow for, a deadline missed, panels that fit
//! no parcel or press. Said first, in a few words; the paper that it concerns tells the rest.

use super::week::duration;
use super::wording;
use crate::plan::Plan;

/// A sentence for each trouble of the week, in the order of the work; none where all is well.
pub fn troubles(plan: &Plan) -> Vec<String> {
    let week = &plan.week;
    let named = |panel: usize| plan.panels[panel].name.clone();
    let mut told = Vec::new();
    if let Some(canvas) = week.canvas.as_ref().filter(|canvas| !canvas.misfits.is_empty()) {
        let panels: Vec<String> = canvas.misfits.iter().map(|panel| named(*panel)).collect();
        told.push(format!("The roll gives no canvas for {} (see the canvas plan).", wording::and(&panels)));
    }
    if let Some(press) = week.press.as_ref().filter(|press| !press.misfits.is_empty()) {
        let panels: Vec<String> = press.misfits.iter().map(|misfit| named(misfit.panel)).collect();
        told.push(format!("Not everything fits under the press: {} (see the press plan).", wording::and(&panels)));
    }
    if let Some(late) = week.calendar.as_ref().map(|week| week.late).filter(|late| *late > 0) {
        told.push(format!("The deadline cannot be met, by {} (see the calendar for what helps).", duration(late)));
    }
    if let Some(packing) = week.packing.as_ref().filter(|packing| !packing.misfits.is_empty()) {
        let panels: Vec<String> =
            packing.misfits.iter().map(|misfit| format!("{} of {}", misfit.count, named(misfit.panel))).collect();
        told.push(format!("Not everything can be packed: {} (see the packing sheet).", wording::and(&panels)));
    }
    told
}
