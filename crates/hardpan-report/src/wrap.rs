//! Lines of text within a width, and text that is safe to print.

use textwrap::{Options, WordSeparator, WordSplitter};

/// Narrowest width that is honoured.
pub(crate) const LEAST_WIDTH: usize = 40;

/// User text on one line: white space becomes one space; control characters
/// and marks that turn the direction of writing are shown as a box, so that
/// they can neither move a cursor nor reorder a figure.
pub(crate) fn plain(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for word in text.split([' ', '\t', '\n', '\r']).filter(|word| !word.is_empty()) {
        if !out.is_empty() {
            out.push(' ');
        }
        out.extend(word.chars().map(|c| if is_unsafe(c) { '□' } else { c }));
    }
    out
}

fn is_unsafe(c: char) -> bool {
    c.is_control()
        || matches!(c, '\u{2028}'..='\u{202e}' | '\u{2066}'..='\u{2069}' | '\u{200e}' | '\u{200f}')
}

/// Wrap a paragraph; `first` stands before its first line, spaces of the same
/// width before the others. No-break spaces hold numbers and units together.
pub(crate) fn hanging(text: &str, width: usize, first: &str) -> String {
    let rest = " ".repeat(textwrap::core::display_width(first));
    let options = Options::new(width.max(LEAST_WIDTH))
        .initial_indent(first)
        .subsequent_indent(&rest)
        .word_separator(WordSeparator::AsciiSpace)
        .word_splitter(WordSplitter::NoHyphenation);
    let mut out = String::new();
    for line in textwrap::wrap(text, options) {
        out.push_str(line.trim_end());
        out.push('\n');
    }
    if out.is_empty() { format!("{}\n", first.trim_end()) } else { out }
}

/// The text as a sentence: a capital first, a full stop last.
pub(crate) fn sentence(text: &str) -> String {
    let mut chars = text.trim_end().chars();
    let mut out: String = chars.next().map_or(String::new(), |c| c.to_uppercase().collect());
    out.push_str(chars.as_str());
    if !out.is_empty() && !out.ends_with(['.', '!', '?', '…']) {
        out.push('.');
    }
    out
}

/// `label` in a column of `column` characters, then the wrapped text.
pub(crate) fn entry(label: &str, text: &str, column: usize, width: usize) -> String {
    hanging(text, width, &format!("  {label:<column$} "))
}
