//! `hardpan serve`: the page on this machine.

use super::{account, demo};
use crate::apart::Limits;
use crate::failure::Failure;
use crate::screen;
use crate::shelf::FileShelf;
use hardpan_files::{Disk, FileSource as _};
use hardpan_web::{Bound, Protection, ServeError};
use std::net::SocketAddr;
use std::path::{Path, PathBuf};
use std::sync::Arc;

impl From<ServeError> for Failure {
    fn from(error: ServeError) -> Self {
        Self::Serve { what: error.to_string() }
    }
}

/// Serve a folder, or the demo, until the process is ended.
pub(crate) fn run(
    folder: Option<&Path>,
    address: SocketAddr,
    files: Option<[PathBuf; 3]>,
    limits: Limits,
) -> Result<u8, Failure> {
    let shelf = match folder {
        Some(folder) if !folder.is_dir() => {
            let what = format!("that is not a folder to serve: {}", folder.display());
            return Err(Failure::Argument { what });
        }
        Some(folder) => FileShelf::of_folder(folder, limits),
        None => FileShelf::of_demo(demo::files(), demo::names()),
    };
    let protection = files.map(|files| protection(&files)).transpose()?;
    let place = if address.ip().is_loopback() { "on this machine" } else { "of this network" };
    let bound = Bound::take(address, protection)?;
    screen::say(&format!("{}\n", bound.url()));
    screen::note(&format!(
        "open the address in a browser {place}; end with Ctrl-C\n{}\n",
        hardpan_assess::CAUTION
    ));
    bound.run(Arc::new(shelf))?;
    Ok(0)
}

/// Accounts, certificate and key of their files.
fn protection([accounts, certificate, key]: &[PathBuf; 3]) -> Result<Protection, Failure> {
    let read = |path: &Path| {
        Disk::default()
            .read(&path.to_string_lossy())
            .map_err(|error| Failure::Argument { what: format!("{}: {error}", path.display()) })
    };
    Ok(Protection {
        accounts: account::read(accounts)?,
        certificate: read(certificate)?,
        key: read(key)?,
    })
}
