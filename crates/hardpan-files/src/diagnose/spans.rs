//! Bytes of a value, found again from where it stands.

use crate::diagnose::page::Page;
use hardpan_model::Origin;
use std::ops::Range;

impl Page<'_> {
    /// A value as it is written, without its quotes.
    pub(crate) fn written(&self, origin: &Origin) -> String {
        let text = self.text.get(self.value_at(origin)).unwrap_or("");
        crate::diagnose::page::shortened(text.trim_matches(['"', '\'']).trim())
    }

    /// Bytes of the value that stands at an origin of this file.
    pub(crate) fn value_at(&self, origin: &Origin) -> Range<usize> {
        let line = self.lines.line_span(self.text, self.lines.start(origin.line));
        let rest = self.text.get(line.clone()).unwrap_or("");
        let column = usize::try_from(origin.column).unwrap_or(1).saturating_sub(1);
        let start = rest.char_indices().nth(column).map_or(rest.len(), |(at, _)| at);
        let value = rest.get(start..).unwrap_or("");
        let length = match value.chars().next() {
            Some(quote @ ('"' | '\'')) => value
                .get(1..)
                .and_then(|inner| inner.find(quote))
                .map_or(value.len(), |end| end + 2),
            _ => value.find([' ', '\t', ',', ';', ']', '}', '#']).unwrap_or(value.len()),
        };
        let start = line.start + start;
        start..start + length
    }
}
