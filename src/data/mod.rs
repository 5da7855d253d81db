//! The user's files become a consistent [`Job`], or every fault in them at once, each with place, cause and remedy.
//! This is the only home of raw, unchecked input; what leaves it keeps the promises written on [`Job`].
//! No file is opened here: hand over the job file, ask [`listed`] which panel list it names, hand that over too, and
//! call [`read()`].

mod fault;
mod file;
mod money;
mod reading;
mod syntax;
mod sheet;
mod panel;
mod strip;
mod strip_list;
mod yard;
mod home;
mod job;
mod fit;
mod read;
mod locate;
mod promises;
mod sizes;
mod template;
pub mod week;

pub use fault::{Fault, Place};
pub use file::{File, Source};
pub use home::{Car, Saw, SawKind};
pub use job::{Assumption, Job};
pub use locate::located;
pub use money::Cents;
pub use panel::{Grain, Panel};
pub use promises::broken_promises;
pub use read::{listed, read};
pub(crate) use reading::{KG_PER_POUND, SQUARE_FOOT};
pub use sheet::Sheet;
pub use sizes::{SizeTable, UsualSize, usual_sizes};
pub use strip::{Keeper, StripOnHand};
pub use strip_list::{read_strips, write_strips};
pub use template::template;
pub use week::Week;
pub use yard::{Breakdown, FreePer, RipWidths, Rips, Yard};
