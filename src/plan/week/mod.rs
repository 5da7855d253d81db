//! The finishing week, computed: canvas from the roll, what to buy, the calendar, the press, labels, packing.
//! A part the job does not ask for is `None`.

/// What follows the saw.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Week {}
