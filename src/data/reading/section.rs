//! A table of the job file, read key by key; keys that nobody asked for are refused at the end.

use super::{Document, Fields, Notes, nearest};
use crate::data::Place;
use crate::length::Length;
use std::fmt::Display;
use toml::Spanned;
use toml::de::{DeTable, DeValue};

/// A table of the job file; without a table all its keys are silent and its defaults hold.
pub(crate) struct Section<'a> {
    notes: &'a Notes,
    document: &'a Document<'a>,
    name: String,
    table: Option<&'a DeTable<'a>>,
    start: usize,
    known: Vec<&'static str>,
}

impl<'a> Section<'a> {
    /// The whole job file, whose keys go by their bare names.
    pub(crate) fn root(notes: &'a Notes, document: &'a Document<'a>, table: &'a DeTable<'a>) -> Self {
        Section { notes, document, name: String::new(), table: Some(table), start: 0, known: Vec::new() }
    }

    /// The table `[name]`, or an empty one.
    pub(crate) fn section(&mut self, name: &'static str) -> Section<'a> {
        self.optional(name).unwrap_or_else(|| self.inner(name, None, self.start))
    }

    /// The table `[name]`, if there is one.
    pub(crate) fn optional(&mut self, name: &'static str) -> Option<Section<'a>> {
        let value = self.value(name)?;
        let DeValue::Table(table) = value.get_ref() else {
            self.fault(name, format!("`{name}` is not a section"), format!("begin it with a line `[{name}]`"));
            return None;
        };
        Some(self.inner(name, Some(table), value.span().start))
    }

    /// The tables `[[name]]` in their order.
    pub(crate) fn each(&mut self, name: &'static str) -> Vec<Section<'a>> {
        let remedy = format!("begin each with a line `[[{name}]]`, in two brackets");
        let Some(value) = self.value(name) else { return Vec::new() };
        let DeValue::Array(array) = value.get_ref() else {
            self.fault(name, format!("`{name}` can come more than once"), remedy);
            return Vec::new();
        };
        let tables = array.iter().filter_map(|value| match value.get_ref() {
            DeValue::Table(table) => Some(self.inner(name, Some(table), value.span().start)),
            _ => None,
        });
        let tables: Vec<Section<'a>> = tables.collect();
        if tables.len() < array.len() {
            self.fault(name, format!("`{name}` holds something that is not a table"), remedy);
        }
        tables
    }

    /// A text ahead of its turn, without a word about faults.
    pub(crate) fn peek(&mut self, key: &'static str) -> Option<&'a str> {
        self.value(key)?.get_ref().as_str().map(str::trim)
    }

    /// True or false.
    pub(crate) fn flag(&mut self, key: &'static str) -> Option<bool> {
        let flag = self.value(key)?.get_ref().as_bool();
        if flag.is_none() {
            self.fault(key, format!("`{key}` is neither true nor false"), "write `true` or `false`, without quotes");
        }
        flag
    }

    /// What was read, or the usual value, which is then noted as an assumption.
    pub(crate) fn or<T>(&self, key: &str, read: Option<T>, usual: T, said: impl Display, origin: &str) -> T {
        if !self.has(key) {
            self.notes.assume(self.full(key), said.to_string(), origin);
        }
        read.unwrap_or(usual)
    }

    /// A length that may be zero, or the usual one.
    pub(crate) fn allowance_or(&mut self, key: &'static str, usual: Length, origin: &str) -> Length {
        let read = self.allowance(key);
        self.or(key, read, usual, usual.say(self.units()), origin)
    }

    /// One of a few known words, or the usual one.
    pub(crate) fn word_or<T: Copy>(
        &mut self,
        key: &'static str,
        choices: &[(&str, T)],
        usual: &str,
        origin: &str,
    ) -> T {
        let read = self.word(key, choices);
        let meaning = choices.iter().find(|(word, _)| *word == usual).unwrap_or(&choices[0]).1;
        self.or(key, read, meaning, usual, origin)
    }

    /// Refuses every key that was not asked for.
    pub(crate) fn end(&self) {
        for key in self.table.iter().flat_map(|table| table.keys()) {
            let name = key.get_ref().as_ref();
            if self.known.contains(&name) {
                continue;
            }
            let here = if self.name.is_empty() { "the job file".into() } else { format!("`{}`", self.name) };
            let remedy = match nearest(name, self.known.iter().copied()) {
                Some(near) => format!("did you mean `{near}`?"),
                None => format!("known in {here} are `{}`", self.known.join("`, `")),
            };
            let place = self.document.place(key.span().start, self.full(name));
            self.notes.fault_at(place, format!("`{name}` is not known in {here}"), remedy);
        }
    }

    fn inner(&self, name: &str, table: Option<&'a DeTable<'a>>, start: usize) -> Section<'a> {
        Section { notes: self.notes, document: self.document, name: self.full(name), table, start, known: Vec::new() }
    }

    /// The value of a key, which is known from then on.
    fn value(&mut self, key: &'static str) -> Option<&'a Spanned<DeValue<'a>>> {
        if !self.known.contains(&key) {
            self.known.push(key);
        }
        self.table?.get(key)
    }

    /// A key with the section's name before it.
    fn full(&self, key: &str) -> String {
        [self.name.as_str(), key].into_iter().filter(|part| !part.is_empty()).collect::<Vec<_>>().join(".")
    }
}

impl Fields for Section<'_> {
    fn notes(&self) -> &Notes {
        self.notes
    }

    fn place(&self, key: &str) -> Place {
        let value = self.table.and_then(|table| table.get(key));
        self.document.place(value.map_or(self.start, |value| value.span().start), self.full(key))
    }

    fn has(&self, key: &str) -> bool {
        self.table.is_some_and(|table| table.contains_key(key))
    }

    fn remedy(&self, key: &str, example: &str) -> String {
        format!("write it, such as `{key} = {example}`")
    }

    fn given(&mut self, key: &'static str) -> Option<String> {
        let text = plain(self.value(key)?.get_ref());
        if text.is_none() {
            self.fault(
                key,
                format!("`{key}` takes a single number or text"),
                format!("write it as `{key} = ...`, a text in quotes"),
            );
        }
        text
    }

    fn list(&mut self, key: &'static str) -> Option<Vec<String>> {
        let value = self.value(key)?.get_ref();
        let DeValue::Array(array) = value else { return self.given(key).map(|text| vec![text]) };
        let texts: Option<Vec<String>> = array.iter().map(|value| plain(value.get_ref())).collect();
        if texts.is_none() {
            self.fault(
                key,
                format!("`{key}` takes numbers and texts only"),
                format!("write it as `{key} = [..., ...]`"),
            );
        }
        texts
    }
}

/// Numbers as they were written, so that nothing is lost on the way, and texts.
fn plain(value: &DeValue) -> Option<String> {
    match value {
        DeValue::String(text) => Some(text.to_string()),
        DeValue::Integer(number) if number.radix() == 10 => Some(number.as_str().to_owned()),
        DeValue::Integer(number) => i128::from_str_radix(number.as_str(), number.radix()).ok().map(|n| n.to_string()),
        DeValue::Float(number) => Some(number.as_str().to_owned()),
        _ => None,
    }
}
