//! What the page may open: the files of a folder, or the demo.

mod book_ruts;
mod books;
mod bring;
mod flights;
mod keep;
mod noted;
mod over;
mod plan;

pub(crate) use bring::naming;
pub(crate) use over::Over;

use crate::apart::Limits;
use crate::commands::book::{map_of, off_globe_of};
use crate::commands::reading;
use books::Books;
use flights::Flights;
use hardpan_files::{
    CHANGEABLE, CHANGES, Diagnostic, Disk, FileSource, Glance, Memory, Reading, Severity, Sources,
    change_flight, glance, read_aeroplane, read_strip, render,
};
use hardpan_model::{Aeroplane, Flight, Strip};
use hardpan_quantity::Length;
use hardpan_report::Produced;
use hardpan_web::{
    Bringing, Entry, EntryKind, Keeping, Kept, OffStrip, Opened, Plan, Receiver, Recorded, Refusal,
    RefusedPlace, RutsOfBook, Shelf,
};
use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};
use std::sync::{Mutex, PoisonError};
use std::time::SystemTime;

/// Most files that are looked at; a folder with more is not one of flights.
const MOST_FILES: usize = 2000;
/// Ending of a book.
const BOOK: &str = ".book";
/// Deepest folder under the one that is served.
const DEEPEST: usize = 5;

/// Files of a folder, or of the demo.
pub(crate) struct FileShelf {
    source: Source,
    /// Files that the page made where no folder is served.
    made: Mutex<Vec<(String, String)>>,
    /// Plans are kept one after the other.
    keeping: Mutex<()>,
    /// What was seen in each file, with its mark then.
    glances: Mutex<BTreeMap<String, (String, Option<Seen>)>>,
    /// Flights as they were read last.
    flights: Flights,
    /// Books as they were read last.
    books: Books,
}

/// What a glance at a file tells of its entry.
#[derive(Debug, Clone)]
struct Seen {
    kind: EntryKind,
    name: Option<String>,
    names: Vec<(&'static str, String)>,
}

enum Source {
    /// A folder, and what the reader of what is brought to it may take.
    Folder(PathBuf, Limits),
    Demo(Memory, Vec<&'static str>),
}

impl FileShelf {
    /// The files of a folder and of the folders in it; a survey that is brought is read
    /// within limits.
    pub(crate) fn of_folder(folder: &Path, limits: Limits) -> Self {
        Self::new(Source::Folder(folder.to_owned(), limits))
    }

    /// The demo that ships with the program.
    pub(crate) fn of_demo(files: Memory, names: Vec<&'static str>) -> Self {
        Self::new(Source::Demo(files, names))
    }

    fn new(source: Source) -> Self {
        Self {
            source,
            made: Mutex::default(),
            keeping: Mutex::default(),
            glances: Mutex::default(),
            flights: Flights::default(),
            books: Books::default(),
        }
    }

    /// A glance at a file, taken again only when somebody touched it.
    fn glanced(&self, reader: &dyn FileSource, file: &str) -> Option<Seen> {
        let mark = match &self.source {
            Source::Folder(..) => {
                noted::mark_of(std::slice::from_ref(&file.to_owned()), SystemTime::now())
            }
            Source::Demo(..) => None,
        };
        let open = || self.glances.lock().unwrap_or_else(PoisonError::into_inner);
        if let Some((_, known)) =
            mark.as_ref().and_then(|mark| open().get(file).filter(|(old, _)| old == mark).cloned())
        {
            return known;
        }
        let seen = glance(reader, file).and_then(seen);
        if let Some(mark) = mark {
            open().insert(file.to_owned(), (mark, seen.clone()));
        }
        seen
    }

    /// What changes when one of these files does, or any book, read from a moment on.
    fn mark_at(&self, files: &[String], begun: SystemTime) -> Option<String> {
        match &self.source {
            Source::Folder(..) => {
                let mut mark = noted::mark_of(files, begun)?;
                for book in self.book_files() {
                    mark.push_str(&book);
                    mark.push_str(&noted::mark_of_book(&book, begun)?);
                }
                Some(mark)
            }
            Source::Demo(..) => Some(self.made().len().to_string()),
        }
    }

    /// The books of the folder.
    fn book_files(&self) -> Vec<String> {
        self.files().into_iter().filter(|file| file.ends_with(BOOK)).collect()
    }

    fn made(&self) -> Vec<(String, String)> {
        self.made.lock().unwrap_or_else(PoisonError::into_inner).clone()
    }

    /// Keep files for as long as the program runs.
    fn remember(&self, files: [(&String, String); 2]) {
        let mut made = self.made.lock().unwrap_or_else(PoisonError::into_inner);
        made.extend(files.map(|(name, text)| (name.clone(), text)));
    }

    /// Where a file of this name stands or would stand.
    fn place_of(&self, name: &str) -> String {
        match &self.source {
            Source::Folder(folder, _) => folder.join(name).to_string_lossy().into_owned(),
            Source::Demo(..) => format!("demo/{name}"),
        }
    }

    fn reader(&self) -> Box<dyn FileSource + '_> {
        match &self.source {
            Source::Folder(..) => Box::new(Disk::default()),
            Source::Demo(files, _) => {
                let made = self.made().into_iter();
                Box::new(made.fold(files.clone(), |all, (name, text)| all.with(&name, text)))
            }
        }
    }

    fn files(&self) -> Vec<String> {
        match &self.source {
            Source::Folder(folder, _) => {
                let mut found = Vec::new();
                collect(folder, DEEPEST, &mut found);
                found.sort();
                found
            }
            Source::Demo(_, names) => {
                let made = self.made().into_iter().map(|(name, _)| name);
                names.iter().map(|name| (*name).to_owned()).chain(made).collect()
            }
        }
    }

    /// The file under the folder that is served.
    fn short<'a>(&self, file: &'a str) -> &'a str {
        match &self.source {
            Source::Folder(folder, _) => {
                let folder = folder.to_string_lossy();
                file.strip_prefix(&*folder).unwrap_or(file).trim_start_matches('/')
            }
            Source::Demo(..) => file,
        }
    }
}

/// TOML files and books of a folder; links and hidden names are passed over.
fn collect(folder: &Path, depth: usize, found: &mut Vec<String>) {
    let Ok(entries) = std::fs::read_dir(folder) else { return };
    for entry in entries.flatten() {
        let (Ok(kind), name) = (entry.file_type(), entry.file_name()) else { continue };
        let name = name.to_string_lossy().into_owned();
        if found.len() >= MOST_FILES || name.starts_with('.') {
            continue;
        }
        if kind.is_dir() && depth > 0 {
            collect(&entry.path(), depth - 1, found);
        } else if kind.is_file() && (name.ends_with(".toml") || name.ends_with(BOOK)) {
            found.push(entry.path().to_string_lossy().into_owned());
        }
    }
}

fn seen(glance: Glance) -> Option<Seen> {
    let kind = match glance.kind {
        "flight" => EntryKind::Flight,
        "strip" => EntryKind::Strip,
        "aeroplane" => EntryKind::Aeroplane,
        _ => return None,
    };
    Some(Seen { kind, name: glance.name, names: glance.names })
}

/// A name for addresses: the path with everything unusual replaced.
fn slug(short: &str, taken: &mut BTreeSet<String>) -> String {
    let plain: String = short
        .trim_end_matches(".toml")
        .chars()
        .map(|c| if c.is_ascii_alphanumeric() || matches!(c, '-' | '_') { c } else { '.' })
        .collect();
    let plain = plain.trim_matches('.').to_owned();
    let mut name = if plain.is_empty() { "file".to_owned() } else { plain };
    let mut number = 2;
    while !taken.insert(name.clone()) {
        name = format!("{}-{number}", name.trim_end_matches(&format!("-{}", number - 1)));
        number += 1;
    }
    name
}

impl Shelf for FileShelf {
    fn entries(&self) -> Vec<Entry> {
        let reader = self.reader();
        let mut taken = BTreeSet::new();
        let entry = |file: String| {
            if file.ends_with(BOOK) {
                let slug = slug(self.short(&file).trim_end_matches(BOOK), &mut taken);
                let name = Path::new(&file).file_stem();
                let name = name.map(|name| name.to_string_lossy().into_owned());
                return Some(Entry { slug, kind: EntryKind::Book, file, name, names: Vec::new() });
            }
            let Seen { kind, name, names } = self.glanced(&*reader, &file)?;
            let slug = slug(self.short(&file), &mut taken);
            Some(Entry { slug, kind, file, name, names })
        };
        self.files().into_iter().filter_map(entry).collect()
    }

    fn place(&self) -> String {
        match &self.source {
            Source::Folder(folder, _) => format!("the folder {}", folder.display()),
            Source::Demo(..) => "the demo: every name and number in it is invented".to_owned(),
        }
    }

    fn flight(&self, file: &str, changes: &[(String, String)]) -> Result<Opened<Flight>, Refusal> {
        let before = self.flights.read(self, file)?;
        if changes.is_empty() {
            return Ok(before);
        }
        let (value, changed) = sound(change_flight(before.value.clone(), changes))?;
        Ok(Opened {
            identifier: reading::joined(&before.identifier, &changed.identifier),
            warnings: before.warnings + &changed.warnings,
            before: Some(before.value),
            value,
            ..before
        })
    }

    fn flight_with_ruts(&self, file: &str, ruts: &RutsOfBook) -> Result<Opened<Flight>, Refusal> {
        let (value, files) = book_ruts::read(&*self.reader(), file, ruts)?;
        Ok(files.opened(value))
    }

    fn recorded(&self, strip: &str, at: jiff::Timestamp) -> Vec<Recorded> {
        self.books.of_strip(&self.book_files(), strip, at)
    }

    fn strip(&self, file: &str) -> Result<Opened<Strip>, Refusal> {
        let (value, files) = sound(read_strip(&*self.reader(), file))?;
        Ok(files.opened(value))
    }

    fn off_globe(&self, file: &str) -> Result<OffStrip, Refusal> {
        let (strip, _) = sound(read_strip(&*self.reader(), file))?;
        off_globe_of(&strip).map_err(|what| unplaced(file, &what))
    }

    fn map(
        &self,
        file: &str,
        entries: &[hardpan_book::Entry],
        lane: Option<Length>,
    ) -> Result<String, Refusal> {
        let (strip, _) = sound(read_strip(&*self.reader(), file))?;
        map_of(&strip, entries, lane).map_err(|what| unplaced(file, &what))
    }

    fn aeroplane(&self, file: &str) -> Result<Opened<Aeroplane>, Refusal> {
        let (value, files) = sound(read_aeroplane(&*self.reader(), file))?;
        Ok(files.opened(value))
    }

    fn plan(&self, plan: &Plan) -> Result<String, Refusal> {
        let _one = self.keeping.lock().unwrap_or_else(PoisonError::into_inner);
        plan::keep(self, plan)
    }

    fn keep(&self, keeping: &Keeping) -> Result<Kept, Refusal> {
        keep::keep(self, keeping)
    }

    fn receive(&self, bringing: &Bringing) -> Result<Box<dyn Receiver>, Refusal> {
        match &self.source {
            Source::Folder(_, limits) => bring::receive(bringing, *limits),
            Source::Demo(..) => {
                let text = "The demo keeps no surveys: `hardpan new demo my-flights` writes its \
                            files, and `hardpan serve my-flights` takes more.";
                Err(Refusal { text: text.to_owned(), places: Vec::new() })
            }
        }
    }

    fn produced(&self, identifier: &str) -> Produced {
        reading::produced(identifier)
    }

    fn mark_of(&self, files: &[String]) -> Option<String> {
        self.mark_at(files, SystemTime::now())
    }

    fn now(&self) -> jiff::Timestamp {
        jiff::Timestamp::now()
    }

    fn changeable(&self) -> &[&'static str] {
        &CHANGEABLE
    }
}

/// A strip that is nowhere on the globe.
fn unplaced(file: &str, what: &str) -> Refusal {
    Refusal { text: format!("{file}: {what}."), places: Vec::new() }
}

/// What came with a value.
struct Read {
    identifier: String,
    warnings: String,
}

impl Read {
    fn opened<T>(self, value: T) -> Opened<T> {
        Opened {
            value,
            before: None,
            identifier: self.identifier,
            warnings: self.warnings,
            files: Vec::new(),
            mark: None,
        }
    }
}

fn sound<T>(reading: Reading<T>) -> Result<(T, Read), Refusal> {
    let text = render(&reading.diagnostics, &reading.sources, false);
    match reading.value {
        Some(value) => {
            let identifier = reading::whole_identifier(&reading.sources);
            Ok((value, Read { identifier, warnings: text }))
        }
        None => Err(Refusal { text, places: places(&reading.diagnostics, &reading.sources) }),
    }
}

fn places(diagnostics: &[Diagnostic], sources: &Sources) -> Vec<RefusedPlace> {
    let errors = diagnostics.iter().filter(|one| one.severity == Severity::Error);
    let place = |one: &Diagnostic| RefusedPlace {
        code: one.code,
        file: one.file.to_string(),
        line: one.line,
        column: one.column,
        key: (&*one.file == CHANGES).then(|| changed_key(one, sources)).flatten(),
        message: one.message.clone(),
        expected: one.expected.clone(),
        hint: one.hint.clone(),
    };
    errors.map(place).collect()
}

/// The key on the line of a mistake.
fn changed_key(diagnostic: &Diagnostic, sources: &Sources) -> Option<String> {
    let line = usize::try_from(diagnostic.line).ok()?.checked_sub(1)?;
    let text = sources.text(CHANGES)?.lines().nth(line)?;
    Some(text.split_once(" = ")?.0.trim_matches('"').to_owned())
}

#[cfg(test)]
mod tests {
    use super::slug;
    use std::collections::BTreeSet;

    #[test]
    fn names_in_addresses_are_plain_and_unique() {
        let mut taken = BTreeSet::new();
        assert_eq!(slug("a/b c.toml", &mut taken), "a.b.c");
        assert_eq!(slug("a/b/c.toml", &mut taken), "a.b.c-2");
        assert_eq!(slug("a.b.c.toml", &mut taken), "a.b.c-3");
        assert_eq!(slug("../ß.toml", &mut taken), "file");
    }
}
