//! From text to a TOML table with spans, all mistakes of form in one pass.

use crate::diagnose::diagnostic::inert;
use crate::diagnose::mistake::Mistake;
use crate::diagnose::page::{Page, megabytes};
use crate::table::cursor::Table;
use std::ops::Range;
use toml::de::{DeTable, DeValue};
use toml_parser::lexer::TokenKind;

/// Deepest nesting of brackets, and most dots in one key, that are read. The
/// format needs three; the parser walks nested tables by recursion.
const DEEPEST: usize = 12;
/// Largest TOML file, in bytes.
const LARGEST: usize = 1024 * 1024;
/// Kinds of TOML files.
pub(crate) const KINDS: [&str; 5] = ["aeroplane", "strip", "day", "flight", "fitted"];

/// Read a file of a known kind; `read` gets its top table. Nothing when the
/// file is of another kind or no TOML at all.
pub(crate) fn of_kind<R>(
    page: &Page<'_>,
    kind: &'static str,
    read: impl FnOnce(&mut Table<'_>) -> R,
) -> Option<R> {
    let root = parse(page, kind)?;
    let mut table = Table::root(page, &root);
    if !is_kind(&mut table, &root, kind) {
        return None;
    }
    let value = read(&mut table);
    table.finish();
    Some(value)
}

/// The kind that a file states, if it states one at all. The text must be within reach.
pub(crate) fn stated_kind(page: &Page<'_>) -> Option<&'static str> {
    let (root, _) = DeTable::parse_recoverable(page.text);
    let stated = root.get_ref().get("kind")?.get_ref().as_str()?;
    KINDS.into_iter().find(|kind| *kind == stated)
}

/// A text under a top key, or under its `value`. The text of the page must be within reach.
pub(crate) fn stated_text(page: &Page<'_>, key: &str) -> Option<String> {
    let (root, _) = DeTable::parse_recoverable(page.text);
    let value = root.get_ref().get(key)?.get_ref();
    let plain = value.as_str().or_else(|| value.get("value")?.get_ref().as_str());
    plain.map(inert)
}

/// The top table of a text that is not too large or too deep, its mistakes of
/// form noted.
pub(crate) fn parse<'t>(page: &Page<'t>, kind: &str) -> Option<DeTable<'t>> {
    if page.text.trim().is_empty() {
        page.report(0..0, &Mistake::EmptyFile { content: format!("a file of kind `{kind}`") });
        return None;
    }
    if !within_reach(page) {
        return None;
    }
    let (root, errors) = DeTable::parse_recoverable(page.text);
    for error in errors {
        let span = error.span().unwrap_or(0..0);
        page.report(span.clone(), &form_mistake(page, &span, error.message()));
        page.mute_line(span.start);
    }
    Some(root.into_inner())
}

fn form_mistake(page: &Page<'_>, span: &Range<usize>, message: &str) -> Mistake {
    if message.starts_with("duplicate key") {
        let key = page.text.get(span.clone()).unwrap_or("").to_owned();
        return Mistake::DuplicateKey { key: crate::diagnose::page::shortened(&key) };
    }
    Mistake::Syntax { what: message.to_owned() }
}

/// Whether the parser can take the text; noted if not.
pub(crate) fn within_reach(page: &Page<'_>) -> bool {
    if page.text.len() > LARGEST {
        let size = megabytes(page.text.len() as u64);
        let mistake = Mistake::TooLarge {
            path: page.file.to_string(),
            size,
            limit: megabytes(LARGEST as u64),
        };
        page.report(0..0, &mistake);
        return false;
    }
    if page.has_endless_line() {
        return false;
    }
    match too_deep(page.text) {
        Some(span) => {
            page.report(span, &Mistake::TooDeep { limit: DEEPEST });
            false
        }
        None => true,
    }
}

/// The first place that is nested too deeply for the parser.
fn too_deep(text: &str) -> Option<Range<usize>> {
    let (mut open, mut dots) = (0_usize, 0_usize);
    for token in toml_parser::Source::new(text).lex() {
        match token.kind() {
            TokenKind::LeftSquareBracket | TokenKind::LeftCurlyBracket => open += 1,
            TokenKind::RightSquareBracket | TokenKind::RightCurlyBracket => {
                open = open.saturating_sub(1)
            }
            TokenKind::Dot => dots += 1,
            TokenKind::Equals | TokenKind::Comma | TokenKind::Newline => dots = 0,
            _ => {}
        }
        if open > DEEPEST || dots > DEEPEST {
            return Some(token.span().start()..token.span().end());
        }
    }
    None
}

fn is_kind(table: &mut Table<'_>, root: &DeTable<'_>, kind: &'static str) -> bool {
    let page = table.page();
    let wanted = kind.to_owned();
    table.ask("kind");
    let Some((key, value)) = root.get_key_value("kind") else {
        page.report(first_key(root).unwrap_or(0..0), &Mistake::KindMissing { wanted });
        return true;
    };
    match value.get_ref() {
        DeValue::String(stated) if stated == kind => {
            if first_key(root).is_some_and(|first| first.start < key.span().start) {
                page.report(key.span(), &Mistake::KindNotFirst {});
            }
            true
        }
        DeValue::String(stated) if KINDS.contains(&&**stated) => {
            page.report(value.span(), &Mistake::KindWrong { read: stated.to_string(), wanted });
            false
        }
        _ => {
            let words = KINDS.join(", ");
            let word = crate::diagnose::page::shortened(page.text.get(value.span()).unwrap_or(""));
            let advice = format!("write kind = \"{kind}\"");
            page.report(
                value.span(),
                &Mistake::UnknownWord { key: "kind".to_owned(), word, words, advice },
            );
            true
        }
    }
}

fn first_key(root: &DeTable<'_>) -> Option<Range<usize>> {
    root.keys().map(|key| key.span()).min_by_key(|span| span.start)
}
