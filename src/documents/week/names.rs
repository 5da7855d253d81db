//! Panels named in drawings: by their names where these can be read, over several lines if need be, else by a key
//! letter that the caption explains.

use crate::documents::drawing::{key_letter, label};
use crate::documents::frame::{Field, Frame};
use crate::documents::wording;
use crate::plan::Plan;
use std::collections::BTreeSet;

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
        let keyed = lines(&key_letter);
        let keys = panels.iter().copied().map(key_letter).collect::<Vec<_>>().join(" ");
        let written = label(frame, field, &[named, keyed, vec![keys]]);
        if written.is_none_or(|choice| choice > 0) {
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
