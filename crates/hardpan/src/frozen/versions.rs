//! The versions of the aeroplane, strip, day and flight of a file, as a book holds
//! them.

use super::{Keeper, KeptFile};
use crate::commands::reading;
use crate::failure::Failure;
use hardpan_book::{
    AeroplaneVersion, DayVersion, FlightVersion, Kind, Record, StripVersion, Version, VersionFile,
    digest_of_files,
};
use hardpan_files::{FileSource, glance, read_aeroplane, read_day};
use serde_json::{Map, Value, json};
use sha2::{Digest as _, Sha256};
use std::collections::BTreeMap;

/// What a book keeps of the files that were read for one thing.
struct Kept {
    file: String,
    digest: String,
    files: String,
}

/// Versions of a file, and of those that a flight names; `name` is the name under
/// which the book knows an aeroplane, a strip, a day or a flight, where the file
/// has another.
pub(crate) fn versions(
    source: &dyn FileSource,
    path: &str,
    name: Option<&str>,
) -> Result<Vec<Record>, Failure> {
    let refused = |what: &str| Failure::Argument { what: format!("{path}: {what}") };
    let seen = glance(source, path)
        .ok_or_else(|| refused("this is no file of an aeroplane, a strip, a day or a flight"))?;
    let keeper = Keeper::new(source);
    let nameless = || refused("it states no name; give one with --name");
    let stated = |own: Option<String>| name.map(str::to_owned).or(own);
    let one = match seen.kind {
        "aeroplane" => {
            let (read, _) = reading::usable(read_aeroplane(&keeper, path))?;
            let tail = stated(read.name.map(|given| given.value)).ok_or_else(nameless)?;
            let Kept { file, digest, files } = kept(&keeper, path);
            Record::Aeroplane(AeroplaneVersion { tail, file, digest, files })
        }
        "strip" => {
            let (read, _) = reading::strip(&keeper, path)?;
            let strip = stated(read.name.map(|given| given.value)).ok_or_else(nameless)?;
            let Kept { file, digest, files } = kept(&keeper, path);
            Record::Strip(StripVersion { strip, file, digest, files })
        }
        "day" => {
            let (read, _) = reading::usable(read_day(&keeper, path))?;
            let date = read.date.map(|given| given.value.to_string());
            let day = stated(date).ok_or_else(|| refused("it states no date; give --name"))?;
            let Kept { file, digest, files } = kept(&keeper, path);
            Record::Day(DayVersion { day, strip: None, file, digest, files })
        }
        _ => return of_flight(source, path, stated(seen.name), seen.names),
    };
    Ok(vec![one])
}

fn of_flight(
    source: &dyn FileSource,
    path: &str,
    name: Option<String>,
    names: Vec<(&'static str, String)>,
) -> Result<Vec<Record>, Failure> {
    let mut all = Vec::new();
    for (_, file) in names {
        all.extend(versions(source, &file, None)?);
    }
    let name_of = |kind: Kind| {
        let found = all.iter().filter_map(Version::of).find(|one| one.kind == kind);
        found.map(|one| one.name.to_owned())
    };
    let (strip, tail) = (name_of(Kind::Strip), name_of(Kind::Aeroplane));
    for record in &mut all {
        if let Record::Day(day) = record {
            day.strip.clone_from(&strip);
        }
    }
    let flight = name.unwrap_or_else(|| path.to_owned());
    let keeper = Keeper::new(source);
    let read = keeper.read(path);
    read.map_err(|error| Failure::Argument { what: format!("{path}: {error}") })?;
    let Kept { file, digest, files } = kept(&keeper, path);
    all.push(Record::Flight(FlightVersion { flight, strip, tail, file, digest, files }));
    Ok(all)
}

/// The files that were read, named from the folder of the first.
fn kept(keeper: &Keeper<'_>, path: &str) -> Kept {
    let folder = path.rsplit_once('/').map_or("", |(folder, _)| folder);
    let mut files = BTreeMap::new();
    let mut object = Map::new();
    for (place, file) in keeper.files() {
        let within = place.strip_prefix(folder).map(|name| name.trim_start_matches('/'));
        let name = within.filter(|_| !folder.is_empty()).unwrap_or(&place).to_owned();
        let (text, digest, value) = match file {
            KeptFile::Text(text) => {
                let digest = super::keeper::hex(Sha256::new().chain_update(&text));
                let value = json!({ "text": &text });
                (Some(text), digest, value)
            }
            KeptFile::Sha256(digest) => (None, digest.clone(), json!({ "sha256": digest })),
        };
        object.insert(name.clone(), value);
        files.insert(name, VersionFile { text, digest });
    }
    Kept {
        file: path.to_owned(),
        digest: digest_of_files(&files),
        files: Value::Object(object).to_string(),
    }
}

/// Digests of versions by the kind of each, as a kept assessment names them.
pub(super) fn digests(versions: &[Record]) -> String {
    let told = versions.iter().filter_map(Version::of);
    let object: BTreeMap<&str, &str> = told.map(|one| (one.kind.word(), one.digest)).collect();
    json!(object).to_string()
}
