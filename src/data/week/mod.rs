//! The finishing week as the job file describes it: filling and sealing, canvas from the roll, glue, the press, the
//! calendar, labels and packing. Each section may be missing, and then its papers are missing too.
//!
//! What the types promise: sizes, coverages and package sizes above zero, percentages sane, working hours in order.

mod amount;
mod calendar;
mod canvas;
mod finish;
mod labels;
mod moments;
mod pack;
mod press;
mod read;

pub use amount::{Amount, Coverage, Measure, Package};
pub use calendar::{Calendar, Shift, Step, Timing};
pub use canvas::{Canvas, Sold, Weave};
pub use finish::{Finish, Glue};
pub use labels::{LabelLine, Labels, Word};
pub use pack::{Limit, Pack, PackKind};
pub use press::Press;
pub(crate) use read::read;

use serde::{Deserialize, Serialize};

/// Everything after the saw; a part the maker leaves out is `None`.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Week {
    /// Filling, sanding and sealing.
    pub finish: Option<Finish>,
    /// Canvas cut from a roll.
    pub canvas: Option<Canvas>,
    /// What glues the canvas down.
    pub glue: Option<Glue>,
    /// Where glued panels lie under weight.
    pub press: Option<Press>,
    /// When the hands are free, and by when all must be packed.
    pub calendar: Option<Calendar>,
    /// Labels for the backs.
    pub labels: Option<Labels>,
    /// The box, bag or bundle they travel in.
    pub pack: Option<Pack>,
}
