//! `[press]`: where glued panels lie under a board and weight.

use super::read::packages;
use super::{Measure, Package};
use crate::data::reading::{Fields, Section};
use crate::length::Length;
use serde::{Deserialize, Serialize};

/// The place under the weight.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Press {
    /// Longer side of the board that presses.
    pub length: Length,
    /// Its shorter side.
    pub width: Length,
    /// Highest stack under it.
    pub height: Length,
    /// Most panels at once, if there is a limit beside the room.
    pub most: Option<u32>,
    /// Room between stacks.
    pub gap: Length,
    /// Thickness of canvas and paper that each panel adds to its stack.
    pub padding: Length,
    /// Waxed paper as sold; one sheet under every glued face.
    pub paper: Vec<Package>,
}

/// `[press]`; `None` where a fault was noted.
pub(super) fn read(section: &mut Section) -> Option<Press> {
    let six = section.notes().usual(Length::inches(6), Length::mm(150));
    let half = section.notes().usual(Length::sixty_fourths(32), Length::mm(12));
    let sixteenth = section.notes().usual(Length::sixty_fourths(4), Length::from_raw(480));
    let (length, width) = (section.length("length"), section.length("width"));
    let height = section.allowance_or("height", six, "a guess to start from: what one weight still holds flat");
    let most = section.some("most");
    let most = section.or("most", most.map(Some), None, "no limit", "nothing is said: what has room goes under it");
    let gap = section.allowance_or("gap", half, "a guess to start from: room for fingers between stacks");
    let padding =
        section.allowance_or("padding", sixteenth, "a guess to start from: canvas, glue and waxed paper; measure it");
    let paper = packages(section, "paper", Measure::Area);
    section.must("length", "48");
    section.must("width", "24");
    section.end();
    Some(Press { length: length?, width: width?, height, most, gap, padding, paper })
}
