//! `yardslip` plans a batch of rigid painting panels from the lumber yard to the packed bundle: what to buy, what the
//! yard rips, what is crosscut at home in which order, how it is finished; and proves that no cheaper plan exists.
//!
//! The stages, each one public function between plain types, each importing only from those before it:
//! [`length`] <- [`data`] <- [`model`] <- [`solve`] <- [`plan`] <- [`documents`] <- the binary's `cli`.

pub mod length;
pub mod data;
pub mod model;
pub mod solve;
pub mod plan;
pub mod documents;
