//! Pictures into the book and out of it.

use super::audit;
use crate::failure::Failure;
use crate::output::{make_folder, write_whole};
use hardpan_book::{
    Book, BookError, Entry, LARGEST_PICTURE, Once, PictureFile, Record, Shown, newest_of,
    picture_digests, pictures_of,
};
use std::collections::BTreeSet;
use std::fmt::Write as _;
use std::fs::File;
use std::io::Read as _;
use std::path::Path;

fn refused(what: String) -> Failure {
    Failure::Argument { what }
}

/// A file of a picture, read no further than one may be long.
fn read(path: &Path) -> Result<PictureFile, Failure> {
    of_bytes(path, PictureFile::read)
}

fn of_bytes(
    path: &Path,
    made: fn(Vec<u8>) -> Result<PictureFile, BookError>,
) -> Result<PictureFile, Failure> {
    let told = |why: &dyn std::fmt::Display| refused(format!("{}: {why}", path.display()));
    let file = File::open(path).map_err(|error| told(&error))?;
    let mut content = Vec::new();
    let bounded = file.take(LARGEST_PICTURE as u64 + 1).read_to_end(&mut content);
    bounded.map_err(|error| told(&error))?;
    made(content).map_err(|error| told(&error))
}

/// Keep a picture of what an entry tells.
pub(super) fn add(
    path: &Path,
    (id, file): (i64, &Path),
    shown: &str,
    by: &str,
) -> Result<String, Failure> {
    let picture = of_bytes(file, PictureFile::received)?;
    let told = format!(
        "{}, {} by {}, {} bytes, SHA-256 {}",
        picture.format,
        picture.width,
        picture.height,
        picture.bytes(),
        picture.digest
    );
    let name = file.file_name().map(|name| name.to_string_lossy().into_owned());
    let of = Shown { of_entry: id, what: shown, file: name.as_deref() };
    let once = Book::open(path)?.add_picture(of, picture, None, audit(by))?;
    let Once::New(entry) = once else { return Ok(String::new()) };
    Ok(format!(
        "recorded as entry {}: {told}\nkept without the place, time and owner that a camera may \
         have written into it\n",
        entry.id
    ))
}

/// Write pictures into a folder, each under its digest; one that stands there is
/// compared.
pub(super) fn write_out(path: &Path, of: Option<i64>, to: &Path) -> Result<String, Failure> {
    let book = Book::open(path)?;
    let entries = book.entries()?;
    let wanted: BTreeSet<&str> = match of {
        None => picture_digests(&entries),
        Some(id) => {
            let owner = newest_of(&entries, id).ok_or(BookError::NoEntry { id })?.id;
            pictures_of(&entries, owner).into_iter().map(|(_, one)| one.digest.as_str()).collect()
        }
    };
    if wanted.is_empty() {
        return Ok("the book holds no picture of it; `photo` keeps them\n".to_owned());
    }
    make_folder(to)?;
    let mut text = String::new();
    for digest in wanted {
        let Some(picture) = book.picture(digest)? else { continue };
        let target = to.join(format!("{digest}.{}", picture.format.ending()));
        if target.exists() {
            if read(&target).is_ok_and(|there| there == picture) {
                let _ = writeln!(text, "stands there already: {}", target.display());
                continue;
            }
            return Err(Failure::Exists { path: target });
        }
        write_whole(&target, &picture.content)?;
        let _ = writeln!(text, "written: {}; {}", target.display(), told_of(&entries, digest));
    }
    Ok(text)
}

/// What the entries say of a picture.
fn told_of(entries: &[Entry], digest: &str) -> String {
    let all = entries.iter().filter_map(|entry| match &entry.record {
        Record::Picture(one) if one.digest == digest => {
            Some(format!("entry {} of entry {}: {}", entry.id, one.of_entry, one.shown))
        }
        _ => None,
    });
    all.collect::<Vec<_>>().join("; ")
}

/// The pictures of a folder that records name by their digest.
pub(super) fn of_folder(
    folder: &Path,
    digests: &BTreeSet<&str>,
) -> Result<Vec<PictureFile>, Failure> {
    let told = |why: &dyn std::fmt::Display| refused(format!("{}: {why}", folder.display()));
    let mut found = Vec::new();
    for one in std::fs::read_dir(folder).map_err(|error| told(&error))? {
        let path = one.map_err(|error| told(&error))?.path();
        let is_wanted = path.file_stem().and_then(|name| name.to_str());
        let Some(digest) = is_wanted.filter(|name| digests.contains(name)) else { continue };
        let picture = read(&path)?;
        if picture.digest != digest {
            let what = format!("{}: its SHA-256 is {}", path.display(), picture.digest);
            return Err(refused(what));
        }
        found.push(picture);
    }
    Ok(found)
}
