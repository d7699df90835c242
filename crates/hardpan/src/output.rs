//! Writing files whole or not at all.

use crate::failure::Failure;
use std::fs::{self, File};
use std::io::Write as _;
use std::path::{Path, PathBuf};
use std::sync::{Mutex, MutexGuard, PoisonError};

/// Exit code of an interrupted run, as shells have it: 128 and signal 2.
const INTERRUPTED: i32 = 130;

/// The parts of files that are being written.
static UNDER_WAY: Mutex<Vec<PathBuf>> = Mutex::new(Vec::new());

fn under_way() -> MutexGuard<'static, Vec<PathBuf>> {
    UNDER_WAY.lock().unwrap_or_else(PoisonError::into_inner)
}

/// From now on an interrupted run takes away what it has half written.
pub(crate) fn leave_nothing_half_written() {
    // Where no handler can be set, the system ends the run: then a part may
    // stay, yet never under the name of the whole.
    let _ = ctrlc::set_handler(|| {
        // Held to the end, so that no part becomes the whole now.
        let parts = under_way();
        for path in &*parts {
            let _ = fs::remove_file(path);
        }
        std::process::exit(INTERRUPTED);
    });
}

/// Replace or make a file; a killed process leaves the old one or the new one.
pub(crate) fn write_whole(path: &Path, bytes: &[u8]) -> Result<(), Failure> {
    write_by(path, readable_by_all, |mut file| file.write_all(bytes))
}

/// The same of a file that nobody else may read.
pub(crate) fn write_private(path: &Path, bytes: &[u8]) -> Result<(), Failure> {
    // A part is made readable by its owner only.
    write_by(path, |_| Ok(()), |mut file| file.write_all(bytes))
}

/// As [`write_whole`], by work that writes to the file bit by bit.
pub(crate) fn write_large(
    path: &Path,
    work: impl FnOnce(File) -> std::io::Result<()>,
) -> Result<(), Failure> {
    write_by(path, readable_by_all, work)
}

fn write_by(
    path: &Path,
    share: impl FnOnce(&Path) -> std::io::Result<()>,
    work: impl FnOnce(File) -> std::io::Result<()>,
) -> Result<(), Failure> {
    let failed = |cause| Failure::Write { path: path.to_owned(), cause };
    let folder = match path.parent() {
        Some(folder) if !folder.as_os_str().is_empty() => folder,
        _ => Path::new("."),
    };
    let mut part = under_way();
    let file = tempfile::Builder::new().prefix(".hardpan-").tempfile_in(folder).map_err(failed)?;
    part.push(file.path().to_owned());
    drop(part);
    let written = file.reopen().and_then(work);
    written.and_then(|()| file.as_file().sync_all()).map_err(failed)?;
    share(file.path()).map_err(failed)?;
    let mut part = under_way();
    part.clear();
    file.persist(path).map_err(|error| failed(error.error))?;
    Ok(())
}

/// Work that writes parts of its own: an interrupted run takes them away.
pub(crate) fn while_writing<T>(parts: Vec<PathBuf>, work: impl FnOnce() -> T) -> T {
    *under_way() = parts;
    let done = work();
    under_way().clear();
    done
}

#[cfg(unix)]
fn readable_by_all(path: &Path) -> std::io::Result<()> {
    use std::os::unix::fs::PermissionsExt as _;
    fs::set_permissions(path, fs::Permissions::from_mode(0o644))
}

#[cfg(not(unix))]
fn readable_by_all(_path: &Path) -> std::io::Result<()> {
    Ok(())
}

/// Make a new file; an old one is left alone.
pub(crate) fn write_new(path: &Path, text: &str) -> Result<(), Failure> {
    if path.exists() {
        return Err(Failure::Exists { path: path.to_owned() });
    }
    write_whole(path, text.as_bytes())
}

/// Make a folder and those above it.
pub(crate) fn make_folder(path: &Path) -> Result<(), Failure> {
    fs::create_dir_all(path).map_err(|cause| Failure::Write { path: path.to_owned(), cause })
}
