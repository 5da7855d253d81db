//! `[calendar]`: working hours, the bench, how long each step takes, and the start or the deadline.

use jiff::civil::{DateTime, Time, Weekday};
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// When the hands are free, and by when all must be packed.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Calendar {
    /// Nothing is done before this.
    pub start: Option<DateTime>,
    /// All is packed by this.
    pub deadline: Option<DateTime>,
    /// Days of the week that are worked, as numbers from Monday = 1.
    pub days: Vec<i8>,
    /// Working hours of such a day, in order and apart.
    pub hours: Vec<Shift>,
    /// Panels that can lie on the bench side by side.
    pub bench: u32,
    /// How long each step takes.
    pub times: BTreeMap<Step, Timing>,
}

impl Calendar {
    /// Whether this day of the week is worked.
    pub fn works(&self, day: Weekday) -> bool {
        self.days.contains(&day.to_monday_one_offset())
    }
}

/// Working hours without a break.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Shift {
    /// Work begins.
    pub from: Time,
    /// Work ends.
    pub to: Time,
}

/// A step of the week, in the order of the work.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Step {
    /// Flaws are filled; the filler dries.
    Fill,
    /// Faces are sanded, edges eased.
    Sand,
    /// The first coat of sealer; it dries.
    Seal,
    /// Each further coat; it dries.
    Coat,
    /// Canvas is glued on, and the panels go under weight.
    Glue,
    /// Canvas is trimmed flush.
    Trim,
    /// Backs are labelled.
    Label,
    /// Panels are packed.
    Pack,
}

/// Hands-on time and the wait after it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Timing {
    /// Hands-on seconds a panel.
    pub seconds: u32,
    /// Minutes of waiting once the last panel of a batch is done.
    pub wait: u32,
}
