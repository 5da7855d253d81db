//! The choice as mathematics, in shop words: which panel sizes may lie which way on which strips, which strips can be
//! ripped from which sheets, what all of it costs. What leaves [`build`] can be made, one panel at a time; whether
//! there are sheets enough is for `solve` to find out.
//!
//! A plan is two choices that meet at the strip: *layouts* say into which strips a sheet is ripped, *patterns* say into
//! which panels a strip is crosscut (Gilmore and Gomory 1965, two-stage cutting). With a number `x` for each layout and
//! a number `y` for each pattern, a plan costs the sum of its layouts' costs, and
//!
//! - each panel size: panels on its patterns >= panels wanted;
//! - each strip width from each kind of board: strips from layouts >= strips used by patterns;
//! - each sheet kind and each strip on hand: no more than there are.

mod breakdown;
mod charges;
mod family;
mod faults;
mod problem;
mod ripping;
pub mod sizes;

pub use charges::Charges;
pub(crate) use charges::gcd;
pub use family::{Family, Laid, StripWidth};
pub use problem::{OnHand, Problem, Size, Wish, build};
pub use ripping::{Ripping, may_break_down};
