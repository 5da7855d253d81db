//! What becomes of each panel line, and how the area of the stock is spent.

use super::offcuts::grain;
use super::sizes::Sizes;
use super::weigh::weight;
use super::{Areas, Offcut, PanelLine, Piece, SheetGroup, Strip};
use crate::data::{Cents, Job};
use crate::length::Area;

/// The panel lines at the sizes they come out at.
pub(super) fn lines(job: &Job, strips: &[Strip], sizes: &Sizes) -> Vec<PanelLine> {
    let line = |index: usize| {
        let panel = &job.panels[index];
        let (cut_width, cut_height) = (sizes.widths[index], sizes.heights[index]);
        let heaviest = cut_from(job, strips, index)
            .map(|sheet| sheet.and_then(|sheet| weight(&job.sheets[sheet], cut_width, cut_height)))
            .try_fold(None, |heaviest: Option<f64>, weight| Some(Some(heaviest.unwrap_or(0.0).max(weight?))));
        PanelLine {
            name: panel.name.clone(),
            width: panel.width,
            height: panel.height,
            cut_width,
            cut_height,
            count: panel.count,
            extras: strips.iter().map(|strip| strip.count * extras(strip, index)).sum(),
            weight: heaviest.flatten(),
        }
    };
    (0..job.panels.len()).map(line).collect()
}

/// How the area of the sheets bought and the strips on hand used is spent.
pub(super) fn areas(sheets: &[SheetGroup], strips: &[Strip], offcuts: &[Offcut]) -> Areas {
    let bought = |group: &SheetGroup| group.length * group.width * i64::from(group.count);
    let taken = strips.iter().filter(|strip| matches!(strip.origin, super::Origin::OnHand { .. }));
    let cut_up = |strip: &Strip| {
        let pieces: Area = strip.pieces.iter().map(|piece| piece.length * piece.width).sum();
        pieces * i64::from(strip.count)
    };
    let kept = offcuts.iter().filter(|left| left.worth > Cents::ZERO);
    Areas {
        stock: sheets.iter().map(bought).sum::<Area>()
            + taken.map(|strip| strip.length * strip.width * i64::from(strip.count)).sum(),
        panels: strips.iter().map(cut_up).sum(),
        kept: kept.map(|left| left.width * left.length * i64::from(left.count)).sum(),
    }
}

/// The sheet kinds that a line's panels are cut from, strip by strip; `None` for a strip of an unknown kind.
fn cut_from<'a>(job: &'a Job, strips: &'a [Strip], panel: usize) -> impl Iterator<Item = Option<usize>> + 'a {
    let holds = move |strip: &&Strip| strip.pieces.iter().any(|piece| piece.panel == panel);
    strips.iter().filter(holds).map(|strip| grain(job, strip).0)
}

fn extras(strip: &Strip, panel: usize) -> u32 {
    let extra = |piece: &&Piece| piece.extra && piece.panel == panel;
    u32::try_from(strip.pieces.iter().filter(extra).count()).expect("a strip has few pieces")
}
