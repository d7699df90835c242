//! Diagnostics as text for people, with the line of the file and a mark under
//! the place. Only the line concerned is handed to the renderer, so that the
//! size of the file does not matter.

use crate::diagnose::diagnostic::Related;
use crate::diagnose::lines::floor;
use crate::{Diagnostic, Severity, Sources};
use annotate_snippets::{Annotation, AnnotationKind, Group, Level, Origin, Renderer, Snippet};
use std::borrow::Cow;
use std::ops::Range;

/// Longest line that is shown, in bytes.
const LONGEST_SHOWN: usize = 20_000;

/// All diagnostics as text, one block each and a last line that counts them.
#[must_use]
pub fn render(diagnostics: &[Diagnostic], sources: &Sources, colour: bool) -> String {
    let renderer = if colour { Renderer::styled() } else { Renderer::plain() };
    let mut out = String::new();
    for diagnostic in diagnostics {
        out.push_str(&renderer.render(&[block(diagnostic, sources)]));
        out.push_str("\n\n");
    }
    if !diagnostics.is_empty() {
        out.push_str(&tally(diagnostics));
        out.push('\n');
    }
    out
}

fn block<'d>(diagnostic: &'d Diagnostic, sources: &'d Sources) -> Group<'d> {
    let level = match diagnostic.severity {
        Severity::Error => Level::ERROR,
        Severity::Warning => Level::WARNING,
    };
    let mut group = Group::with_title(level.primary_title(&diagnostic.message).id(diagnostic.code));
    let text = sources.text(&diagnostic.file).filter(|_| diagnostic.line > 0);
    let shown = text.and_then(|text| window(text, &diagnostic.span));
    match shown.clone() {
        Some((line, span)) => {
            let label = format!("expected {}", diagnostic.expected);
            let mark = AnnotationKind::Primary.span(span).label(label);
            group = group.element(snippet(diagnostic, line, diagnostic.line, mark));
        }
        None => group = group.element(place(diagnostic)),
    }
    if let (Some(text), Some(other)) = (text, &diagnostic.related) {
        group = related(group, diagnostic, text, other);
    }
    if shown.is_none() {
        group = group.element(Level::NOTE.message(format!("expected {}", diagnostic.expected)));
    }
    group.element(Level::HELP.message(&diagnostic.hint))
}

fn related<'d>(
    group: Group<'d>,
    diagnostic: &'d Diagnostic,
    text: &'d str,
    other: &'d Related,
) -> Group<'d> {
    match window(text, &other.span) {
        Some((line, span)) => {
            let mark = AnnotationKind::Context.span(span).label(&other.label);
            group.element(snippet(diagnostic, line, other.line, mark))
        }
        None => group,
    }
}

fn snippet<'d>(
    diagnostic: &'d Diagnostic,
    line: &'d str,
    number: u32,
    mark: Annotation<'d>,
) -> Snippet<'d, Annotation<'d>> {
    let number = usize::try_from(number).unwrap_or(usize::MAX);
    Snippet::source(shown(line)).path(&*diagnostic.file).line_start(number).annotation(mark)
}

/// A line whose control characters of two bytes, which the renderer lets
/// through, are replaced by a dot of two bytes, so that places keep.
fn shown(line: &str) -> Cow<'_, str> {
    let steers = |c: char| matches!(c, '\u{80}'..='\u{9f}');
    if line.contains(steers) { line.replace(steers, "·").into() } else { line.into() }
}

fn place(diagnostic: &Diagnostic) -> Origin<'_> {
    let origin = Origin::path(&*diagnostic.file);
    match (usize::try_from(diagnostic.line), usize::try_from(diagnostic.column)) {
        (Ok(line), Ok(column)) if line > 0 => origin.line(line).char_column(column),
        _ => origin,
    }
}

/// The line that a span starts on and the part of the span within it; nothing
/// for a line too long to show.
fn window<'t>(text: &'t str, span: &Range<usize>) -> Option<(&'t str, Range<usize>)> {
    let at = floor(text, span.start);
    let before = text.get(..at)?;
    let start = before.rfind('\n').map_or(0, |newline| newline + 1);
    let rest = text.get(start..)?;
    let length = rest.find('\n').unwrap_or(rest.len());
    let line = rest.get(..length)?.trim_end_matches('\r');
    if line.len() > LONGEST_SHOWN {
        return None;
    }
    let from = (at - start).min(line.len());
    let to = floor(line, span.end.saturating_sub(start)).max(from);
    Some((line, from..to))
}

fn tally(diagnostics: &[Diagnostic]) -> String {
    let errors = diagnostics.iter().filter(|one| one.severity == Severity::Error).count();
    let warnings = diagnostics.len() - errors;
    let count = |number: usize, word: &str| match number {
        0 => None,
        1 => Some(format!("1 {word}")),
        _ => Some(format!("{number} {word}s")),
    };
    let parts: Vec<String> =
        [count(errors, "error"), count(warnings, "warning")].into_iter().flatten().collect();
    parts.join(" and ")
}
