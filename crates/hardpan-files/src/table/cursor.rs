//! A table of a TOML file as its reader walks it: it remembers which keys were
//! asked for, so that at the end the keys that nobody knows can be named.

use crate::diagnose::lines::floor;
use crate::diagnose::mistake::Mistake;
use crate::diagnose::page::Page;
use hardpan_model::Given;
use std::ops::Range;
use std::sync::Arc;
use toml::de::{DeTable, DeValue};

/// One table, present or not.
pub(crate) struct Table<'p> {
    page: &'p Page<'p>,
    map: Option<&'p DeTable<'p>>,
    path: String,
    span: Range<usize>,
    source: Option<Arc<str>>,
    asked: Vec<&'static str>,
}

/// One value that is there.
pub(crate) struct Entry<'p> {
    pub(crate) path: String,
    pub(crate) value: &'p DeValue<'p>,
    pub(crate) span: Range<usize>,
    pub(crate) source: Option<Arc<str>>,
}

impl<'p> Table<'p> {
    pub(crate) fn root(page: &'p Page<'p>, map: &'p DeTable<'p>) -> Self {
        let source = source_of(page, map, "");
        Self { page, map: Some(map), path: String::new(), span: 0..0, source, asked: Vec::new() }
    }

    pub(crate) fn page(&self) -> &'p Page<'p> {
        self.page
    }

    /// Bytes of the table's header, or of the table when written inline.
    pub(crate) fn span(&self) -> Range<usize> {
        self.span.clone()
    }

    /// Whether the file has this table.
    pub(crate) fn is_present(&self) -> bool {
        self.map.is_some()
    }

    /// Dotted path of a key of this table.
    pub(crate) fn path_of(&self, key: &str) -> String {
        if self.path.is_empty() { key.to_owned() } else { format!("{}.{key}", self.path) }
    }

    /// Dotted path of this table.
    pub(crate) fn path(&self) -> &str {
        &self.path
    }

    /// Make a key known.
    pub(crate) fn ask(&mut self, key: &'static str) {
        if !self.asked.contains(&key) {
            self.asked.push(key);
        }
    }

    fn find(&mut self, key: &'static str) -> Option<(Range<usize>, &'p DeValue<'p>)> {
        self.ask(key);
        self.page.note_asked(self.path_of(key));
        let found = self.map.and_then(|map| map.get(key));
        found.map(|value| (value.span(), value.get_ref()))
    }

    /// Whether the key stands in the file, empty or not.
    pub(crate) fn has(&self, key: &str) -> bool {
        self.map.is_some_and(|map| map.contains_key(key))
    }

    /// Bytes of the value of a key, or of the table without it.
    pub(crate) fn span_of(&self, key: &str) -> Range<usize> {
        self.map.and_then(|map| map.get(key)).map_or_else(|| self.span(), |value| value.span())
    }

    /// The value of a key, out of `{ value = …, source = … }` if need be.
    /// Empty text counts as not given.
    pub(crate) fn entry(&mut self, key: &'static str) -> Option<Entry<'p>> {
        let given = self.alternative(key);
        if given.is_none() {
            self.page.note_absent(self.path_of(key));
        }
        given
    }

    /// As [`Self::entry`], for a key that another key may stand in for.
    pub(crate) fn alternative(&mut self, key: &'static str) -> Option<Entry<'p>> {
        let path = self.path_of(key);
        let found = self.find(key).and_then(|(span, value)| self.unwrapped(&path, span, value));
        found.filter(|entry| entry.value.as_str().is_none_or(|text| !text.trim().is_empty()))
    }

    fn unwrapped(
        &self,
        path: &str,
        span: Range<usize>,
        value: &'p DeValue<'p>,
    ) -> Option<Entry<'p>> {
        let plain = |value, span, source| Entry { path: path.to_owned(), value, span, source };
        let DeValue::Table(inner) = value else {
            return Some(plain(value, span, self.source.clone()));
        };
        let Some(wrapped) = inner.get("value") else {
            return Some(plain(value, span, self.source.clone()));
        };
        for key in inner.keys().filter(|key| !matches!(&**key.get_ref(), "value" | "source")) {
            self.page.note_unknown(
                key.get_ref(),
                format!("`{path}`"),
                key.span(),
                &["value", "source"],
            );
        }
        let source = source_of(self.page, inner, path).or_else(|| self.source.clone());
        Some(plain(wrapped.get_ref(), wrapped.span(), source))
    }

    /// Read a table below this one; `read` is called with an empty table when
    /// the file has none, so that its keys are known all the same.
    pub(crate) fn table<R>(
        &mut self,
        key: &'static str,
        read: impl FnOnce(&mut Table<'p>) -> R,
    ) -> R {
        let path = self.path_of(key);
        let (map, span) = match self.find(key) {
            Some((span, DeValue::Table(map))) => (Some(map), span),
            Some((span, other)) => {
                self.wrong_type(&path, span, other, "a table", &format!("[{path}]"));
                (None, 0..0)
            }
            None => (None, 0..0),
        };
        let mut below = self.below(map, path, span);
        let result = read(&mut below);
        below.finish();
        result
    }

    /// Read every entry of a list of tables.
    pub(crate) fn list<R>(
        &mut self,
        key: &'static str,
        mut read: impl FnMut(&mut Table<'p>) -> Option<R>,
    ) -> Vec<R> {
        let path = self.path_of(key);
        let mut results = Vec::new();
        match self.find(key) {
            None => {
                let mut below = self.below(None, format!("{path}[]"), 0..0);
                read(&mut below);
            }
            Some((span, DeValue::Array(array))) => {
                if array.is_empty() {
                    self.wrong_type_named(
                        &path,
                        span,
                        "an empty list",
                        "entries",
                        &format!("[[{path}]]"),
                    );
                }
                for (index, entry) in array.iter().enumerate() {
                    let DeValue::Table(map) = entry.get_ref() else {
                        self.wrong_type(
                            &path,
                            entry.span(),
                            entry.get_ref(),
                            "a table",
                            &format!("[[{path}]]"),
                        );
                        continue;
                    };
                    let mut below =
                        self.below(Some(map), format!("{path}[{}]", index + 1), entry.span());
                    results.extend(read(&mut below));
                    below.finish();
                }
            }
            Some((span, other)) => {
                self.wrong_type(&path, span, other, "a list of tables", &format!("[[{path}]]"));
            }
        }
        results
    }

    fn below(&self, map: Option<&'p DeTable<'p>>, path: String, span: Range<usize>) -> Table<'p> {
        let own = map.and_then(|map| source_of(self.page, map, &path));
        let source = own.or_else(|| self.source.clone());
        Table { page: self.page, map, path, span, source, asked: Vec::new() }
    }

    pub(crate) fn given<T>(&self, entry: &Entry<'p>, value: T) -> Given<T> {
        let origin = self.page.origin(entry.span.start, &entry.path);
        Given { value, origin, source: entry.source.clone() }
    }

    pub(crate) fn wrong_type(
        &self,
        key: &str,
        span: Range<usize>,
        value: &DeValue<'_>,
        wanted: &str,
        example: &str,
    ) {
        self.wrong_type_named(key, span, type_name(value), wanted, example);
    }

    fn wrong_type_named(
        &self,
        key: &str,
        span: Range<usize>,
        is: &str,
        wanted: &str,
        example: &str,
    ) {
        let mistake = Mistake::WrongType {
            key: key.to_owned(),
            is: is.to_owned(),
            wanted: wanted.to_owned(),
            example: example.to_owned(),
        };
        self.page.report(span, &mistake);
    }

    /// An entry of a list lacks a key that it cannot do without.
    pub(crate) fn lacks(&self, key: &str, example: &str) {
        if !self.is_present() {
            return;
        }
        let list = self.path.split('[').next().unwrap_or("").to_owned();
        let mistake =
            Mistake::EntryWithout { list, key: key.to_owned(), example: example.to_owned() };
        self.page.report(self.span(), &mistake);
    }

    /// Note the keys that nobody asked for.
    pub(crate) fn finish(self) {
        let place =
            if self.path.is_empty() { "the file".to_owned() } else { format!("`{}`", self.path) };
        for key in self.map.into_iter().flat_map(|map| map.keys()) {
            let name: &str = key.get_ref();
            if name != "source" && !self.asked.contains(&name) {
                self.page.note_unknown(name, place.clone(), key.span(), &self.asked);
            }
        }
    }
}

impl Page<'_> {
    /// Bytes of a part of a text value: `part` counts within the text, `whole`
    /// are the bytes of the value with its quotes.
    pub(crate) fn within(
        &self,
        whole: &Range<usize>,
        text: &str,
        part: Range<usize>,
    ) -> Range<usize> {
        let raw = self.text.get(whole.clone()).unwrap_or("");
        match raw.find(text) {
            Some(lead) if !text.is_empty() => {
                let start = whole.start + lead;
                floor(self.text, start + part.start)..floor(self.text, start + part.end)
            }
            _ => whole.clone(),
        }
    }
}

/// The source that a table states for its values.
fn source_of(page: &Page<'_>, map: &DeTable<'_>, path: &str) -> Option<Arc<str>> {
    let value = map.get("source")?;
    match value.get_ref().as_str() {
        Some(text) if text.trim().is_empty() => None,
        Some(text) => Some(text.into()),
        None => {
            let key = if path.is_empty() { "source".to_owned() } else { format!("{path}.source") };
            let mistake = Mistake::WrongType {
                key,
                is: type_name(value.get_ref()).to_owned(),
                wanted: "text that names a document and a place in it".to_owned(),
                example: "source = \"Flight manual supplement 7, 2-4\"".to_owned(),
            };
            page.report(value.span(), &mistake);
            None
        }
    }
}

/// A value's type in words.
pub(crate) fn type_name(value: &DeValue<'_>) -> &'static str {
    match value {
        DeValue::String(_) => "text",
        DeValue::Integer(_) | DeValue::Float(_) => "a plain number",
        DeValue::Boolean(_) => "a true-or-false value",
        DeValue::Datetime(_) => "a date or time",
        DeValue::Array(_) => "a list",
        DeValue::Table(_) => "a table",
    }
}
