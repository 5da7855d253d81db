//! What can be told of a whole job without planning it: panels larger than every sheet, kerfs wider than a sheet.
//! Which limit of yard, car or saw stops a panel is for `model` to find.

use super::panel::Placed;
use super::reading::Notes;
use super::{Grain, Panel, Place, Sheet, StripOnHand};
use crate::length::Length;

/// Widest cut of any saw: anything wider is a slip of the units.
const WIDEST_KERF: Length = Length::inches(1);

/// Refuses a kerf as wide as a sheet, or wider than any blade.
pub(crate) fn check_kerf(kerf: Length, place: Place, sheets: &[Sheet], notes: &Notes) {
    let said = kerf.say(notes.units());
    let cause = match sheets.iter().find(|sheet| kerf >= sheet.length.min(sheet.width)) {
        Some(sheet) => format!("a kerf of {said} is as wide as the sheet \"{}\" or wider", sheet.name),
        None if kerf > WIDEST_KERF => format!("a kerf of {said} is wider than any saw blade"),
        None => return,
    };
    notes.fault_at(place, cause, "write the width of the saw's cut with its unit, such as `1/8 in` or `3.2 mm`");
}

/// Everything that panels can come from.
pub(crate) fn boards(sheets: &[Sheet], strips: &[StripOnHand]) -> Vec<Board> {
    let of_sheet =
        |(index, sheet): (usize, &Sheet)| Board { along: sheet.length, across: sheet.width, sheet: Some(index) };
    let of_strip = |strip: &StripOnHand| {
        let (along, across) = if strip.grain_along { (strip.length, strip.width) } else { (strip.width, strip.length) };
        Board { along, across, sheet: strip.sheet }
    };
    sheets.iter().enumerate().map(of_sheet).chain(strips.iter().map(of_strip)).collect()
}

/// A board that panels can come from: along the grain, across it, and the sheet kind it is of.
pub(crate) struct Board {
    pub(crate) along: Length,
    pub(crate) across: Length,
    pub(crate) sheet: Option<usize>,
}

/// Refuses panels that are larger than every sheet and every strip on hand.
pub(crate) fn check_fit(panels: &[Placed], boards: &[Board], notes: &Notes) {
    for (panel, place) in panels {
        let allowed =
            |board: &&Board| panel.sheets.is_empty() || board.sheet.is_some_and(|s| panel.sheets.contains(&s));
        let boards: Vec<&Board> = boards.iter().filter(allowed).collect();
        if !boards.iter().any(|board| fits(panel, board)) {
            notes.fault_at(
                place.clone(),
                too_large(panel, &boards, notes),
                "make the panel smaller, or add a larger sheet",
            );
        }
    }
}

fn fits(panel: &Panel, board: &Board) -> bool {
    let (width, height) = (panel.width - panel.scant, panel.height - panel.scant);
    let upright = height <= board.along && width <= board.across;
    let level = width <= board.along && height <= board.across;
    match panel.grain {
        Grain::Any => upright || level,
        Grain::Upright => upright,
        Grain::Level => level,
    }
}

/// Why a panel fits no board, in the user's units.
fn too_large(panel: &Panel, boards: &[&Board], notes: &Notes) -> String {
    let units = notes.units();
    let (short, long) = (panel.width.min(panel.height), panel.width.max(panel.height));
    let longest = boards.iter().map(|board| board.along.max(board.across)).max().unwrap_or_default();
    let widest = boards.iter().map(|board| board.along.min(board.across)).max().unwrap_or_default();
    let name = &panel.name;
    if long - panel.scant > longest {
        return format!(
            "panel \"{name}\" is {} long, but no sheet is longer than {}",
            long.say(units),
            longest.say(units)
        );
    }
    if short - panel.scant > widest {
        return format!(
            "panel \"{name}\" is {} wide, but no sheet is wider than {}",
            short.say(units),
            widest.say(units)
        );
    }
    let turned = if panel.grain == Grain::Any { "" } else { " with its grain as asked" };
    let sizes: Vec<String> =
        boards.iter().map(|board| format!("{} x {}", board.across.show(units), board.along.say(units))).collect();
    format!("panel \"{name}\" fits on no sheet{turned}; the sheets measure {}", sizes.join(", "))
}
