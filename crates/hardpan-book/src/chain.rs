//! The digest that ties each entry to the one before.

use crate::Entry;
use sha2::{Digest as _, Sha256};

/// Digest of an entry and of the digest before it: SHA-256 over each part with
/// its length, in hexadecimal digits.
pub(crate) fn digest(previous: &str, entry: &Entry) -> String {
    let mut hash = Sha256::new();
    let mut add = |part: &str| {
        hash.update((part.len() as u64).to_le_bytes());
        hash.update(part.as_bytes());
    };
    add(previous);
    add(&entry.id.to_string());
    add(entry.record.kind().word());
    add(&entry.audit.at.to_string());
    add(&entry.audit.by);
    add(&entry.supersedes.map_or_else(String::new, |id| id.to_string()));
    add(entry.why.as_deref().unwrap_or_default());
    // Entries of older layouts have no mark and keep their digest.
    if let Some(mark) = &entry.mark {
        add("mark");
        add(mark);
    }
    // Nor have those of layouts before 6 anybody who first wrote them.
    if let Some(first) = &entry.first {
        add("first");
        add(&first.by);
        add(&first.at.map_or_else(String::new, |at| at.to_string()));
    }
    for (name, text) in entry.record.fields() {
        add(&name);
        add(&text);
    }
    hash.finalize().iter().map(|byte| format!("{byte:02x}")).collect()
}
