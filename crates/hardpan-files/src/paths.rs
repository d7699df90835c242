//! Paths that one file states for another.

use std::path::Path;

/// The path of a file that another file names, counted from the folder of the
/// file that names it.
pub(crate) fn beside(file: &str, named: &str) -> String {
    let named = named.trim();
    match Path::new(file).parent() {
        Some(folder) if !folder.as_os_str().is_empty() => {
            folder.join(named).to_string_lossy().into_owned()
        }
        _ => named.to_owned(),
    }
}
