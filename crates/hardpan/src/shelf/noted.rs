//! Which files were read, and whether they are still the same.

use hardpan_files::{CloudInput, FileReadError, FileSource};
use std::cell::RefCell;
use std::fmt::Write as _;
use std::time::{Duration, SystemTime};

/// A file that was written so shortly ago may be written again under the same time.
const FRESH: Duration = Duration::from_secs(2);

/// Files whose names are noted as they are read.
pub(super) struct Noted<'s> {
    under: &'s dyn FileSource,
    names: RefCell<Vec<String>>,
}

impl<'s> Noted<'s> {
    pub(super) const fn new(under: &'s dyn FileSource) -> Self {
        Self { under, names: RefCell::new(Vec::new()) }
    }

    pub(super) fn files(&self) -> Vec<String> {
        self.names.borrow().clone()
    }

    fn note(&self, path: &str) {
        let mut names = self.names.borrow_mut();
        if !names.iter().any(|known| known == path) {
            names.push(path.to_owned());
        }
    }
}

impl FileSource for Noted<'_> {
    fn read(&self, path: &str) -> Result<Vec<u8>, FileReadError> {
        self.note(path);
        self.under.read(path)
    }

    fn open(&self, path: &str) -> Result<Box<dyn CloudInput>, FileReadError> {
        self.note(path);
        self.under.open(path)
    }

    fn told(&self, path: &str, share: f64) {
        self.under.told(path, share);
    }
}

/// Size and times of every file; none when one of them is gone or was written a
/// moment before `now`, which is when reading it began or later.
pub(super) fn mark_of(files: &[String], now: SystemTime) -> Option<String> {
    let mut mark = String::new();
    for file in files {
        let told = std::fs::metadata(file).ok()?;
        let written = told.modified().ok()?;
        let is_settled = now.duration_since(written).is_ok_and(|age| age > FRESH);
        let since = written.duration_since(SystemTime::UNIX_EPOCH).ok()?;
        let changed = changed(&told);
        let settled_too = changed.is_none_or(|at| {
            now.duration_since(SystemTime::UNIX_EPOCH + at).is_ok_and(|age| age > FRESH)
        });
        if !is_settled || !settled_too {
            return None;
        }
        let _ = write!(mark, "{} {} {changed:?};", told.len(), since.as_nanos());
    }
    Some(mark)
}

/// The same of a book, of which the newest entries may stand in a file beside it while
/// another program has it open.
pub(super) fn mark_of_book(file: &str, now: SystemTime) -> Option<String> {
    let mut files = vec![file.to_owned()];
    let beside = format!("{file}-wal");
    if std::fs::metadata(&beside).is_ok_and(|told| told.len() > 0) {
        files.push(beside);
    }
    mark_of(&files, now)
}

/// When the system last changed anything about a file, a copy with old times too.
#[cfg(unix)]
fn changed(told: &std::fs::Metadata) -> Option<Duration> {
    use std::os::unix::fs::MetadataExt as _;
    let seconds = u64::try_from(told.ctime()).ok()?;
    Some(Duration::new(seconds, u32::try_from(told.ctime_nsec()).ok()?))
}

#[cfg(not(unix))]
const fn changed(_: &std::fs::Metadata) -> Option<Duration> {
    None
}

#[cfg(test)]
mod tests {
    use super::mark_of;
    use std::fs::{File, FileTimes};
    use std::time::{Duration, SystemTime};

    #[test]
    fn a_file_that_was_just_written_has_no_mark() {
        let folder = tempfile::tempdir().expect("a folder");
        let path = folder.path().join("flight.toml");
        let name = path.to_string_lossy().into_owned();
        std::fs::write(&path, "one").expect("a writable folder");
        assert_eq!(mark_of(std::slice::from_ref(&name), SystemTime::now()), None);
        let old = FileTimes::new().set_modified(SystemTime::now() - Duration::from_secs(3600));
        File::options().write(true).open(&path).and_then(|f| f.set_times(old)).expect("a file");
        // Its times can be set back by hand, when it was changed cannot.
        assert_eq!(mark_of(std::slice::from_ref(&name), SystemTime::now()).is_none(), cfg!(unix));
        std::fs::remove_file(&path).expect("a file");
        assert_eq!(mark_of(&[name], SystemTime::now()), None);
    }
}
