//! Panels named in drawings: by their names where these can be read, over several lines if need be, else by a key letter
//! that the caption explains.

use crate::documents::drawing::{key_letter, label};
use crate::documents::font::{self, Weight};
use crate::documents::frame::{Field, Frame};
use crate::documents::wording;
use crate::plan::Plan;
use std::collections::BTreeSet;

/// Letters of this height can still be read at the bench.
const READABLE: f64 = 2.2;

/// Lines of text, made from what each panel is called.
type Lines<'a> = dyn Fn(&dyn Fn(usize) -> String) -> Vec<String> + 'a;

/// The names in one drawing.
pub(super) struct Names<'a> {
    plan: &'a Plan,
    keys: BTreeSet<usize>,
}

impl<'a> Names<'a> {
    pub(super) fn new(plan: &'a Plan) -> Self {
        Names { plan, keys: BTreeSet::new() }
    }

    /// Writes lines about some panels into a field.
    pub(super) fn write(&mut self, frame: &mut Frame, field: Field, panels: &[usize], lines: &Lines) {
        let named = lines(&|panel| self.plan.panels[panel].name.clone());
        let room = field.width - 2.0;
        let wrapped = named.iter().flat_map(|line| font::wrap(line, room, READABLE, Weight::Bold)).collect();
        let keyed = lines(&key_letter);
        let keys = panels.iter().copied().map(key_letter).collect::<Vec<_>>().join(" ");
        let written = label(frame, field, &[named, wrapped, keyed, vec![keys]]);
        if written.is_none_or(|choice| choice > 1) {
            self.keys.extend(panels);
        }
    }

    /// What the key letters stand for, to follow a caption; nothing where none was used.
    pub(super) fn legend(&self) -> String {
        let key = |panel: &usize| {
            format!(" {} = {};", key_letter(*panel), wording::called(self.plan, &self.plan.panels[*panel]))
        };
        let keys: String = self.keys.iter().map(key).collect();
        keys.trim_end_matches(';').to_string()
    }
}
