//! `hardpan serve`: the page on this machine.

use super::demo;
use crate::failure::Failure;
use crate::screen;
use crate::shelf::FileShelf;
use hardpan_web::{Bound, ServeError};
use std::net::SocketAddr;
use std::path::Path;
use std::sync::Arc;

impl From<ServeError> for Failure {
    fn from(error: ServeError) -> Self {
        Self::Serve { what: error.to_string() }
    }
}

/// Serve a folder, or the demo, until the process is ended.
pub(crate) fn run(folder: Option<&Path>, address: SocketAddr) -> Result<u8, Failure> {
    let shelf = match folder {
        Some(folder) if !folder.is_dir() => {
            let what = format!("that is not a folder to serve: {}", folder.display());
            return Err(Failure::Argument { what });
        }
        Some(folder) => FileShelf::of_folder(folder),
        None => FileShelf::of_demo(demo::files(), demo::names()),
    };
    let bound = Bound::take(address)?;
    screen::say(&format!("{}\n", bound.url()));
    screen::note(&format!(
        "open the address in a browser on this machine; end with Ctrl-C\n{}\n",
        hardpan_assess::CAUTION
    ));
    bound.run(Arc::new(shelf))?;
    Ok(0)
}
