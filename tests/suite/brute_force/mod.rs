//! The least money of a tiny job by trying everything: every way to crosscut every strip, every way to rip every sheet,
//! every purchase. Written from the rules of the shop alone and sharing no code with the solver, so that it can judge
//! it.
//!
//! Two facts keep it short. A cut plan stays a cut plan when a panel is left out of it (what is held stays held), so
//! that only the fullest strips and sheets need be kept, and a purchase that makes too much is as good as one that
//! makes just enough. And money sees of a sheet only its kind, what it makes and its number of cuts.

mod breakdown;
mod made;
mod order;
mod sheets;
mod shop;
mod sides;
mod strips;

use made::Made;
use shop::Shop;
use yardslip::data::{Cents, Job};

/// The least that the panels of a job can cost; `None` where they cannot be made.
pub(crate) fn least_money(job: &Job) -> Option<Cents> {
    least_money_in(&Shop::of(job))
}

fn least_money_in(shop: &Shop) -> Option<Cents> {
    let want = Made::wanted(shop);
    let rack = strips::from_the_rack(shop, want);
    let sheets: Vec<_> = (0..shop.sheets.len()).map(|kind| sheets::makes(shop, kind, want)).collect();
    order::cheapest(shop, want, &rack, &sheets)
}
