//! `[press]`: where glued panels lie under a board and weight.

use crate::data::week::Package;
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
