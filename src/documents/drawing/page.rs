//! A sheet on a page of its own, to scale, with its dimensions along both edges.

use super::place::{Place, scale_within, strips_level};
use super::sheet::Drawing;
use crate::data::Job;
use crate::documents::font::{self, Weight};
use crate::documents::frame::{Field, Frame, Mark, Pen, Spot};
use crate::documents::page_size::{PageSize, content};
use crate::documents::wording;
use crate::plan::{Plan, SheetGroup};
use crate::solve::Direction;

/// Room at the left or above for letters and strip widths.
const EDGE: f64 = 9.9;
/// Room for the two lines of words at the head.
const WORDS: f64 = 13.0;
/// Room below for the overall length and the legend.
const BELOW: f64 = 22.0;

/// The sheet's drawing on a lying page, without the lines at head and foot.
pub fn sheet_page(job: &Job, plan: &Plan, group: &SheetGroup, size: PageSize) -> Frame {
    let mut frame = size.lying();
    let field = content(&frame);
    let scale = scale_within(group, field.width - EDGE, field.height - WORDS - EDGE - BELOW);
    let place = Place {
        x: field.x + EDGE,
        y: field.y + WORDS + EDGE,
        scale: 1.0 / f64::from(scale),
        level: strips_level(group),
    };
    words(&mut frame, plan, group, field, scale);
    let mut drawing = Drawing { job, plan, group, place, keys: Vec::new(), frame };
    drawing.sheet();
    drawing.legend(field);
    drawing.frame
}

fn words(frame: &mut Frame, plan: &Plan, group: &SheetGroup, field: Field, scale: u32) {
    let total: u32 = plan.sheets.iter().map(|group| group.count).sum();
    let alike = if group.count > 1 { format!(", {} alike", group.count) } else { String::new() };
    let title = format!("{} of {total}{alike}: {}", wording::numbers(group.number, group.count), group.kind);
    let size = font::size_within(&title, field.width, 6.0, Weight::Bold);
    frame.write(Spot::new(field.x, field.y + 5.5), title, size, Weight::Bold);
    let units = plan.units.sign();
    let size = wording::size(plan, group.width.min(group.length), group.length.max(group.width));
    let mut line = format!("{size} {units}, face grain along the {}, drawn 1:{scale}.", group.length.show(plan.units));
    let needs =
        format!("needs {} of its {} {units} across the strips", group.needs.show(plan.units), side(plan, group));
    let leaves = group.leaves.show(plan.units);
    line = if group.measure_first {
        format!("{line} Measure first: {needs}.")
    } else if group.leaves.is_zero() {
        format!("{line} It {needs}.")
    } else {
        format!("{line} It {needs}, and leaves {leaves}.")
    };
    frame.write(Spot::new(field.x, field.y + 10.5), line, 3.6, Weight::Regular);
}

/// The side of the sheet that is ripped.
fn side(plan: &Plan, group: &SheetGroup) -> String {
    (group.needs + group.leaves).show(plan.units)
}

impl Drawing<'_> {
    /// What black and hatching mean, which way the face grain runs, and what the key letters stand for.
    fn legend(&mut self, field: Field) {
        let y = field.bottom() - 1.0;
        let level = (self.group.direction == Direction::Along) == self.place.level;
        self.grain(Spot::new(field.x, y), level);
        let mut line = "Black: what the blade takes. Hatched: offcuts.".to_string();
        for panel in &self.keys {
            let panel_line = &self.plan.panels[*panel];
            let size = wording::cut_size(self.plan, panel_line);
            let name = if panel_line.name == size { String::new() } else { format!("{}, ", panel_line.name) };
            line = format!("{line} {} = {name}{size}.", key_letter(*panel));
        }
        let room = field.width - 40.0;
        for (at, text) in font::wrap(&line, room, 3.2, Weight::Regular).into_iter().rev().enumerate() {
            let base = y - 4.0 * crate::documents::count(at);
            self.frame.write(Spot::new(field.x + 40.0, base), text, 3.2, Weight::Regular);
        }
    }

    /// An arrow with two heads along the face grain.
    fn grain(&mut self, at: Spot, level: bool) {
        let (length, half) = (12.0, 0.8);
        let spot = |along: f64, off: f64| {
            if level { Spot::new(at.x + along, at.y - 1.2 + off) } else { Spot::new(at.x + 4.0 + off, at.y - along) }
        };
        self.frame.line(Pen::Thick, spot(0.0, 0.0), spot(length, 0.0));
        for (tip, back) in [(0.0, 4.8), (length, length - 4.8)] {
            self.frame.marks.push(Mark::Shape(vec![spot(tip, 0.0), spot(back, -half), spot(back, half)]));
        }
        let beside = if level { 14.0 } else { 7.0 };
        self.frame.write(Spot::new(at.x + beside, at.y), "face grain", 3.6, Weight::Bold);
    }
}

/// `a`, `b`, ... `z`, `aa`, ... for the panel lines of the job.
pub(in crate::documents) fn key_letter(panel: usize) -> String {
    let letter = char::from(b'a' + u8::try_from(panel % 26).expect("under 26"));
    if panel < 26 { letter.to_string() } else { format!("{}{letter}", key_letter(panel / 26 - 1)) }
}
