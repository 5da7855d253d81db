//! The cheapest purchase that, with the rack, makes all that is wanted: sheet after sheet, every choice tried.

use super::made::Made;
use std::collections::{BTreeMap, BTreeSet};
use yardslip::data::{Cents, FreePer, Job};

/// An order so far: what it makes, sheets of each kind, cuts of the yard.
#[derive(Clone, PartialEq, Eq, PartialOrd, Ord)]
struct Order {
    made: Made,
    sheets: Vec<u32>,
    cuts: u32,
}

/// The least money; `None` where the sheets to be had do not do.
pub(super) fn cheapest(job: &Job, want: Made, rack: &BTreeSet<Made>, sheets: &[Vec<(Made, u32)>]) -> Option<Cents> {
    let none = vec![0; sheets.len()];
    let start = rack.iter().map(|made| (Order { made: *made, sheets: none.clone(), cuts: 0 }, 0_i64));
    let mut orders: BTreeMap<Order, i64> = start.collect();
    let mut least: Option<i64> = None;
    while !orders.is_empty() {
        let done = orders.iter().filter(|(order, _)| order.made == want).map(|(order, cost)| cost + late(job, order));
        least = done.chain(least).min();
        orders = one_more(job, want, &orders, sheets);
    }
    least.map(Cents)
}

/// Every way to buy one more sheet. A sheet that makes nothing new is left out.
fn one_more(job: &Job, want: Made, orders: &BTreeMap<Order, i64>, sheets: &[Vec<(Made, u32)>]) -> BTreeMap<Order, i64> {
    let mut more = BTreeMap::new();
    for (order, cost) in orders {
        for (kind, ways) in sheets.iter().enumerate() {
            if job.sheets[kind].stock.is_some_and(|stock| order.sheets[kind] >= stock) {
                continue;
            }
            for (gives, cuts) in ways.iter().filter(|(gives, _)| order.made.plus(*gives, want) != order.made) {
                let mut next = Order { made: order.made.plus(*gives, want), ..order.clone() };
                next.sheets[kind] += u32::from(job.sheets[kind].stock.is_some());
                next.cuts += if per_order(job) { *cuts } else { 0 };
                let cost = cost + sheet_cost(job, kind, *cuts);
                more.entry(next).and_modify(|least| *least = cost.min(*least)).or_insert(cost);
            }
        }
    }
    more
}

/// Whether cuts must be counted over the whole order to know what they cost.
fn per_order(job: &Job) -> bool {
    job.yard.free_per == FreePer::Order && job.yard.cut_price != Cents::ZERO
}

fn sheet_cost(job: &Job, kind: usize, cuts: u32) -> i64 {
    let paid = if per_order(job) { 0 } else { cuts.saturating_sub(job.yard.free_cuts) };
    job.sheets[kind].price.0 + job.yard.cut_price.0 * i64::from(paid)
}

/// What is paid for cuts once the order is complete.
fn late(job: &Job, order: &Order) -> i64 {
    if per_order(job) { job.yard.cut_price.0 * i64::from(order.cuts.saturating_sub(job.yard.free_cuts)) } else { 0 }
}
