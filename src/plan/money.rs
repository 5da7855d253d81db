//! What the sheets and the yard's cuts cost, counted from the layouts themselves.

use super::Cost;
use super::measure::{board_cuts, extents, slack};
use super::sizes::Sizes;
use crate::data::{Cents, FreePer, Job};
use crate::length::Length;
use crate::solve::{BoardUse, SheetUse};

/// Money and cuts of these sheets at these panel sizes.
pub(super) fn cost(job: &Job, sheets: &[SheetUse], sizes: &Sizes) -> Cost {
    let bought = |used: &SheetUse| job.sheets[used.sheet].price * i64::from(used.count);
    let cuts: Vec<(u32, u32)> = sheets.iter().map(|used| (sheet_cuts(job, used, sizes), used.count)).collect();
    let paid_cuts = paid(job, &cuts);
    let money_for_sheets: Cents = sheets.iter().map(bought).sum();
    let money_for_cuts = job.yard.cut_price * i64::from(paid_cuts);
    Cost {
        sheets: money_for_sheets,
        cuts: money_for_cuts,
        total: money_for_sheets + money_for_cuts,
        sheets_bought: sheets.iter().map(|used| used.count).sum(),
        yard_cuts: cuts.iter().map(|(cuts, count)| cuts * count).sum(),
        paid_cuts,
    }
}

/// What a board has left beside its strips, edge trims taken off.
pub(super) fn board_slack(job: &Job, used: &SheetUse, board: &BoardUse, sizes: &Sizes) -> Length {
    let sheet = &job.sheets[used.sheet];
    let width = extents(sheet, used.direction).1 - sheet.edge_trim * 2;
    slack(width, board.strips.iter().map(|strip| sizes.asked(&job.yard, strip)), job.yard.kerf)
}

/// The yard's cuts on one such sheet.
fn sheet_cuts(job: &Job, used: &SheetUse, sizes: &Sizes) -> u32 {
    let trim = job.sheets[used.sheet].edge_trim;
    let breakdown = u32::from(used.boards.len() > 1);
    let rips =
        used.boards.iter().map(|board| board_cuts(board.strips.len(), board_slack(job, used, board, sizes), trim));
    breakdown + rips.sum::<u32>()
}

/// How many of these cuts (a sheet, sheets) are paid for.
fn paid(job: &Job, cuts: &[(u32, u32)]) -> u32 {
    let free = job.yard.free_cuts;
    match job.yard.free_per {
        FreePer::Sheet => cuts.iter().map(|(cuts, count)| cuts.saturating_sub(free) * count).sum(),
        FreePer::Order => cuts.iter().map(|(cuts, count)| cuts * count).sum::<u32>().saturating_sub(free),
    }
}
