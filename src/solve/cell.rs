//! The cells of a knapsack's table. Values are whole numbers; a table holds them as floating-point numbers, which
//! processors add and compare several at a time, and which stand for every whole number below 2^53 exactly (IEEE 754).
//! In fixed point a sheet costs far less than that ([`super::prices`]). Where prices are so odd that a sum might not be
//! exact, the table promises more by more than all that rounding can have lost: then it is a bound from above, as a
//! coarse unit of length makes it one too.

use super::knapsack::NEVER;

/// A value in a table; minus infinity where there is nothing.
pub(super) type Cell = f64;

/// Sums up to this are exact.
const EXACT: Cell = 9_007_199_254_740_992.0;

/// A value as a cell.
#[allow(clippy::cast_precision_loss)] // see `slack`
pub(super) fn cell(value: i64) -> Cell {
    if value <= NEVER { Cell::NEG_INFINITY } else { value as Cell }
}

/// By how much the sums of as many such pieces, as (length, value), as `room` holds, and what the room left is worth at
/// the most, may be too small in a table: nothing where all of them are exact, else more than all that rounding can
/// lose.
#[allow(clippy::cast_precision_loss)] // far more than that is added
pub(super) fn slack(pieces: impl Iterator<Item = (i64, i64)>, room: i64, tail: i64) -> Cell {
    let of = |(length, value): (i64, i64)| {
        let copies = (room / length.max(1) + 2) as Cell;
        (copies * value.unsigned_abs() as Cell, copies)
    };
    let (sum, copies) = pieces.map(of).fold((0.0, 0.0), |most: (Cell, Cell), of| (most.0.max(of.0), most.1.max(of.1)));
    let sum = sum + tail.max(0) as Cell;
    if sum * 4.0 < EXACT { 0.0 } else { (sum / EXACT).ceil() * 16.0 * (copies + 2.0) }
}

/// Betters values by those of so many pieces fewer, and the value of these.
pub(super) fn better(more: &mut [Cell], fewer: &[Cell], value: Cell) {
    for (more, fewer) in more.iter_mut().zip(fewer) {
        let value = fewer + value;
        *more = if value > *more { value } else { *more };
    }
}

/// Betters a row of values by any number of pieces of this many columns.
pub(super) fn any_number(row: &mut [Cell], step: usize, value: Cell) {
    for from in (step..row.len()).step_by(step) {
        let (fewer, more) = row.split_at_mut(from);
        let end = step.min(more.len());
        better(&mut more[..end], &fewer[from - step..], value);
    }
}
