//! One file that is open for reading: its text, and the mistakes found in it.

use crate::diagnose::diagnostic::{Diagnostic, Related};
use crate::diagnose::lines::{Lines, floor};
use crate::diagnose::mistake::Mistake;
use crate::diagnose::nearest::nearest;
use crate::{FileReadError, FileSource, Reading, Severity, Sources};
use hardpan_model::Origin;
use hardpan_survey::CloudInput;
use std::cell::{Cell, RefCell};
use std::collections::BTreeSet;
use std::ops::Range;
use std::sync::Arc;

/// Longest line that is read, in bytes. Places are counted along their line, so
/// that a bound on it bounds the time that a file can take.
const LONGEST_LINE: usize = 4096;
/// Most diagnostics listed for one file.
const MOST: usize = 100;

/// All files of one reading.
pub(crate) struct Files<'s> {
    source: &'s dyn FileSource,
    diagnostics: Vec<Diagnostic>,
    sources: Sources,
    absent: Vec<String>,
}

impl<'s> Files<'s> {
    pub(crate) fn new(source: &'s dyn FileSource) -> Self {
        Self { source, diagnostics: Vec::new(), sources: Sources::default(), absent: Vec::new() }
    }

    /// The text of a file. A failure is reported where the file is named.
    pub(crate) fn load(
        &mut self,
        path: &str,
        named: Option<(&Page<'_>, Range<usize>)>,
    ) -> Option<Arc<str>> {
        let file: Arc<str> = path.into();
        let bytes = match self.source.read(path) {
            Ok(bytes) => bytes,
            Err(error) => {
                let mistake = refusal(path, &error);
                match named {
                    Some((page, span)) => page.report(span, &mistake),
                    None => self.diagnostics.push(Diagnostic::of_file(&file, &mistake)),
                }
                return None;
            }
        };
        let bytes = bytes.strip_prefix(b"\xef\xbb\xbf").unwrap_or(&bytes);
        match std::str::from_utf8(bytes) {
            Ok(text) => {
                let text: Arc<str> = text.into();
                self.sources.add(file, Arc::clone(&text));
                Some(text)
            }
            Err(error) => {
                self.not_text(&file, bytes, error.valid_up_to());
                None
            }
        }
    }

    /// The bytes of a file that may be larger than memory. A failure is reported
    /// where the file is named.
    pub(crate) fn open(
        &self,
        path: &str,
        page: &Page<'_>,
        span: Range<usize>,
    ) -> Option<Box<dyn CloudInput>> {
        match self.source.open(path) {
            Ok(input) => Some(input),
            Err(error) => {
                page.report(span, &refusal(path, &error));
                None
            }
        }
    }

    /// Tell whoever waits how much of a large file has been read.
    pub(crate) fn told(&self, path: &str, share: f64) {
        self.source.told(path, share);
    }

    /// Keep the levels of a cloud in place of its text, so that another cloud is
    /// another input.
    pub(crate) fn keep_levels(&mut self, file: &Arc<str>, levels: String) {
        self.sources.add(Arc::clone(file), levels.into());
    }

    fn not_text(&mut self, file: &Arc<str>, bytes: &[u8], valid: usize) {
        let text: Arc<str> =
            bytes.get(..valid).and_then(|good| std::str::from_utf8(good).ok()).unwrap_or("").into();
        let byte = bytes.get(valid).map_or_else(String::new, |byte| format!("{byte:#04x}"));
        self.sources.add(Arc::clone(file), Arc::clone(&text));
        let page = Page::new(file, &text);
        page.report(valid..valid, &Mistake::NotUtf8 { byte });
        self.close(page);
    }

    /// Take over what was found in a file.
    pub(crate) fn close(&mut self, page: Page<'_>) {
        page.settle_unknown();
        let mut found = page.found.into_inner();
        found.sort_by_key(|one| one.span.start);
        let dropped = page.dropped.get();
        if dropped.0 + dropped.1 > 0 {
            let count = dropped.0 + dropped.1;
            let mut more =
                Diagnostic::of_file(&page.file, &Mistake::TooMany { count, limit: MOST });
            if dropped.0 == 0 {
                more.severity = Severity::Warning;
            }
            found.push(more);
        }
        self.diagnostics.append(&mut found);
        self.absent.append(&mut page.absent.into_inner());
    }

    /// Note a mistake at a value of a file that is already closed.
    pub(crate) fn report_at(&mut self, origin: &Origin, mistake: &Mistake) {
        let Some(text) = self.sources.text(&origin.file).map(str::to_owned) else {
            return;
        };
        let page = Page::new(&origin.file, &text);
        page.report(page.value_at(origin), mistake);
        self.close(page);
    }

    /// The outcome: a value only if nothing is an error.
    pub(crate) fn finish<T>(mut self, value: Option<T>) -> Reading<T> {
        let sources = &self.sources;
        self.diagnostics.sort_by_key(|one| sources.order(&one.file));
        let sound = self.diagnostics.iter().all(|one| one.severity != Severity::Error);
        Reading {
            value: value.filter(|_| sound),
            diagnostics: self.diagnostics,
            sources: self.sources,
            absent: self.absent,
        }
    }
}

fn refusal(path: &str, error: &FileReadError) -> Mistake {
    let path = path.to_owned();
    match error {
        FileReadError::TooLarge { size, limit } => {
            Mistake::TooLarge { path, size: megabytes(*size), limit: megabytes(*limit) }
        }
        other => Mistake::Unreadable { path, reason: other.to_string() },
    }
}

/// A size for people, rounded up.
pub(crate) fn megabytes(bytes: u64) -> String {
    format!("{} MB", bytes.div_ceil(1024 * 1024))
}

/// One open file.
pub(crate) struct Page<'t> {
    pub(crate) file: Arc<str>,
    pub(crate) text: &'t str,
    pub(crate) lines: Lines,
    found: RefCell<Vec<Diagnostic>>,
    dropped: Cell<(usize, usize)>,
    absent: RefCell<Vec<String>>,
    asked: RefCell<Vec<String>>,
    unknown: RefCell<Vec<UnknownKey>>,
    muted: RefCell<BTreeSet<u32>>,
}

/// A key that nobody asked for.
struct UnknownKey {
    key: String,
    place: String,
    span: Range<usize>,
    siblings: Vec<&'static str>,
}

impl<'t> Page<'t> {
    pub(crate) fn new(file: &Arc<str>, text: &'t str) -> Self {
        Self {
            file: Arc::clone(file),
            text,
            lines: Lines::of(text),
            found: RefCell::default(),
            dropped: Cell::default(),
            absent: RefCell::default(),
            asked: RefCell::default(),
            unknown: RefCell::default(),
            muted: RefCell::default(),
        }
    }

    /// Note a mistake at these bytes of the text.
    pub(crate) fn report(&self, span: Range<usize>, mistake: &Mistake) {
        self.note(span, mistake, None);
    }

    /// Note a mistake and another place that has to do with it.
    pub(crate) fn report_with(
        &self,
        span: Range<usize>,
        mistake: &Mistake,
        other: Range<usize>,
        label: &str,
    ) {
        self.note(span, mistake, Some((other, label)));
    }

    fn note(&self, span: Range<usize>, mistake: &Mistake, other: Option<(Range<usize>, &str)>) {
        if self.muted.borrow().contains(&self.lines.line(span.start)) {
            return;
        }
        if self.found.borrow().len() >= MOST {
            let (errors, warnings) = self.dropped.get();
            self.dropped.set(match mistake.severity() {
                Severity::Error => (errors + 1, warnings),
                Severity::Warning => (errors, warnings + 1),
            });
            return;
        }
        let start = floor(self.text, span.start);
        let end = floor(self.text, span.end.max(start));
        let place = self.lines.locate(self.text, start);
        let read = shortened(self.text.get(start..end).unwrap_or(""));
        let mut one = Diagnostic::at(&self.file, place, start..end, read, mistake);
        one.related = other.map(|(span, label)| Related {
            line: self.lines.line(span.start),
            span,
            label: label.to_owned(),
        });
        self.found.borrow_mut().push(one);
    }

    /// Whether a line is longer than any that is read; noted if so.
    pub(crate) fn has_endless_line(&self) -> bool {
        let (line, length) = self.lines.longest(self.text);
        let endless = length > LONGEST_LINE;
        if endless {
            let start = self.lines.start(line);
            self.report(start..start, &Mistake::LineTooLong { length, limit: LONGEST_LINE });
        }
        endless
    }

    /// Say no more about the line of this byte: its form is already wrong.
    pub(crate) fn mute_line(&self, byte: usize) {
        self.muted.borrow_mut().insert(self.lines.line(byte));
    }

    /// Where a value stands.
    pub(crate) fn origin(&self, byte: usize, key: &str) -> Origin {
        let (line, column) = self.lines.locate(self.text, byte);
        Origin { file: Arc::clone(&self.file), line, column, key: key.into() }
    }

    pub(crate) fn note_asked(&self, path: String) {
        self.asked.borrow_mut().push(path);
    }

    pub(crate) fn note_absent(&self, path: String) {
        self.absent.borrow_mut().push(path);
    }

    pub(crate) fn note_unknown(
        &self,
        key: &str,
        place: String,
        span: Range<usize>,
        siblings: &[&'static str],
    ) {
        let key = key.to_owned();
        self.unknown.borrow_mut().push(UnknownKey {
            key,
            place,
            span,
            siblings: siblings.to_vec(),
        });
    }

    /// Report the unknown keys, now that every known key has been asked for.
    fn settle_unknown(&self) {
        for one in self.unknown.take() {
            if self.found.borrow().len() >= MOST {
                let (key, place) = (String::new(), String::new());
                self.report(one.span, &Mistake::UnknownKey { key, place, advice: String::new() });
                continue;
            }
            let asked = self.asked.borrow();
            let elsewhere = asked.iter().find(|path| path.rsplit('.').next() == Some(&one.key));
            let advice = match (nearest(&one.key, one.siblings.iter().copied()), elsewhere) {
                (Some(name), _) => format!("write `{name}`, if that is what is meant"),
                (None, Some(path)) => format!("it stands elsewhere: `{path}`"),
                (None, None) => format!("the keys here are {}", one.siblings.join(", ")),
            };
            let key = shortened(&one.key);
            self.report(one.span, &Mistake::UnknownKey { key, place: one.place, advice });
        }
    }
}

/// A text cut to a length that fits into a sentence, on one line.
pub(crate) fn shortened(text: &str) -> String {
    const LONGEST: usize = 60;
    let mut line: String =
        text.chars().take(LONGEST).map(|c| if c.is_control() { ' ' } else { c }).collect();
    if text.chars().nth(LONGEST).is_some() {
        line.push('…');
    }
    line
}
