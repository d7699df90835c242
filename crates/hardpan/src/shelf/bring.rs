//! A survey that is brought: taken into a folder of its own beside the strip, read apart
//! as if the strip named it, and given its name only when it can be read.

use super::places;
use crate::apart::{Asked, Judged, Limits, Place, Told, ask, verdict_of};
use hardpan_files::{CODES, Sources, Unread, render};
use hardpan_web::{Bringing, Brought, Receiver, Refusal, RefusedPlace, StripCheck};
use sha2::{Digest as _, Sha256};
use std::fs::File;
use std::io::Write as _;
use std::path::{Path, PathBuf};
use std::time::Duration;
use toml::de::{DeTable, DeValue};

/// Folder beside the strip that holds what was brought.
const FOLDER: &str = "received";
/// Folder in it for what is not whole yet; its name is passed over by the list.
const PART: &str = ".part";
/// Most files that are kept beside one strip.
const MOST_FILES: usize = 500;
/// Most bytes that they take.
const MOST_BYTES: u64 = 8 * 1024 * 1024 * 1024;
/// Longest name that is kept, in characters.
const LONGEST: usize = 60;
/// After this time a part belongs to nobody.
const FORSAKEN: Duration = Duration::from_secs(24 * 3600);

/// What may be brought: its key in the strip file, and the endings of its files.
const KINDS: [(&str, &str, &[&str]); 5] = [
    ("levels", "survey", &["csv", "las", "laz", "asc", "tif", "tiff"]),
    ("soundings", "soundings", &["csv"]),
    ("strength tests", "strength_tests", &["csv"]),
    ("ruts", "ruts", &["csv"]),
    ("places", "places", &["geojson", "json"]),
];

fn refusal(text: impl Into<String>) -> Refusal {
    Refusal { text: text.into(), places: Vec::new() }
}

fn system(error: &std::io::Error) -> Refusal {
    refusal(format!("The file cannot be kept: {error}."))
}

/// A file on its way.
struct Part {
    strip: PathBuf,
    key: &'static str,
    part: PathBuf,
    whole: PathBuf,
    file: File,
    digest: Sha256,
    /// What its reader may take.
    limits: Limits,
}

impl Drop for Part {
    fn drop(&mut self) {
        // Once it has its name nothing stands here any more.
        let _ = std::fs::remove_file(&self.part);
    }
}

/// Begin to take a file.
pub(super) fn receive(bringing: &Bringing, limits: Limits) -> Result<Box<dyn Receiver>, Refusal> {
    let kind = KINDS.iter().find(|(word, ..)| *word == bringing.what);
    let (_, key, endings) = kind.ok_or_else(|| refusal("Say what was measured."))?;
    let name = name(bringing, endings)?;
    let strip = PathBuf::from(&bringing.strip);
    let beside = strip.parent().unwrap_or(Path::new("")).join(FOLDER);
    let parts = beside.join(PART);
    std::fs::create_dir_all(&parts).map_err(|error| system(&error))?;
    sweep(&parts);
    room_left(&beside)?;
    let whole = free(&beside, &parts, &name)?;
    let part = parts.join(whole.file_name().unwrap_or_default());
    let file = File::create_new(&part).map_err(|error| system(&error))?;
    Ok(Box::new(Part { strip, key, part, whole, file, digest: Sha256::new(), limits }))
}

/// The day and the plain part of the name that was given; never a path.
fn name(bringing: &Bringing, endings: &[&str]) -> Result<String, Refusal> {
    let last = bringing.name.rsplit(['/', '\\']).next().unwrap_or_default();
    let (stem, ending) = last.rsplit_once('.').unwrap_or((last, ""));
    let ending = ending.to_ascii_lowercase();
    if !endings.contains(&ending.as_str()) {
        let known: Vec<String> = endings.iter().map(|one| format!(".{one}")).collect();
        let said = format!(
            "A file of {} ends with {}; this one does not.",
            bringing.what,
            known.join(", ")
        );
        return Err(refusal(said));
    }
    let plain: String =
        stem.chars().map(|c| if c.is_ascii_alphanumeric() { c } else { '-' }).collect();
    let parts: Vec<&str> = plain.split('-').filter(|part| !part.is_empty()).collect();
    let stem: String = parts.join("-").chars().take(LONGEST).collect();
    let stem = if stem.is_empty() { bringing.what.replace(' ', "-") } else { stem };
    let date: String = bringing.date.chars().filter(|c| c.is_ascii_digit() || *c == '-').collect();
    Ok(format!("{date}-{stem}.{ending}"))
}

/// Take away what was forsaken by a program that was stopped.
fn sweep(parts: &Path) {
    for one in std::fs::read_dir(parts).into_iter().flatten().flatten() {
        let age = one.metadata().and_then(|told| told.modified()).map(|time| time.elapsed());
        if age.is_ok_and(|age| age.is_ok_and(|age| age > FORSAKEN)) {
            let _ = std::fs::remove_file(one.path());
        }
    }
}

fn room_left(beside: &Path) -> Result<(), Refusal> {
    let (mut files, mut bytes) = (0, 0);
    for one in std::fs::read_dir(beside).map_err(|error| system(&error))?.flatten() {
        if let Ok(told) = one.metadata() {
            files += 1;
            bytes += told.len();
        }
    }
    if files > MOST_FILES || bytes > MOST_BYTES {
        let said = "The folder `received` beside the strip is full: take old files out of it.";
        return Err(refusal(said));
    }
    Ok(())
}

/// A name that nothing has.
fn free(beside: &Path, parts: &Path, name: &str) -> Result<PathBuf, Refusal> {
    let (stem, ending) = name.rsplit_once('.').unwrap_or((name, ""));
    let names = (1..=99).map(|number| match number {
        1 => name.to_owned(),
        number => format!("{stem}-{number}.{ending}"),
    });
    names
        .map(|name| (beside.join(&name), parts.join(&name)))
        .find(|(whole, part)| !whole.exists() && !part.exists())
        .map(|(whole, _)| whole)
        .ok_or_else(|| refusal("There are 99 files of that name already."))
}

impl Receiver for Part {
    fn take(&mut self, bytes: &[u8]) -> Result<(), Refusal> {
        self.digest.update(bytes);
        self.file.write_all(bytes).map_err(|error| system(&error))
    }

    fn finish(mut self: Box<Self>) -> Result<Brought, Refusal> {
        self.file.flush().and_then(|()| self.file.sync_all()).map_err(|error| system(&error))?;
        let named = |path: &Path| {
            let folder = self.strip.parent().unwrap_or(Path::new(""));
            path.strip_prefix(folder).unwrap_or(path).to_string_lossy().into_owned()
        };
        let (short, shown) = (named(&self.part), named(&self.whole));
        let asked = Asked {
            strip: self.strip.to_string_lossy().into_owned(),
            key: self.key.to_owned(),
            named: short.clone(),
            file: self.part.to_string_lossy().into_owned(),
        };
        let told = ask(&asked, self.limits).map_err(|why| unread(&why, &shown))?;
        let judged = told_of(told, &|text| text.replace(&short, &shown))?;
        let no_check = || unread(&not_whole(), &shown);
        let verdict = verdict_of(&judged.verdict).ok_or_else(no_check)?;
        let checks = judged.checks.into_iter().map(check).collect::<Option<_>>();
        let checks = checks.ok_or_else(no_check)?;
        std::fs::rename(&self.part, &self.whole).map_err(|error| system(&error))?;
        let digest = self.digest.clone().finalize();
        Ok(Brought {
            digest: digest.iter().map(|byte| format!("{byte:02x}")).collect(),
            says: format!("{} = \"{shown}\"\n", self.key),
            warnings: judged.warnings.replace(&short, &shown),
            name: shown,
            verdict,
            checks,
        })
    }
}

/// What was read, or every mistake, with the name that the file would have.
fn told_of(told: Told, cleaned: &dyn Fn(&str) -> String) -> Result<Judged, Refusal> {
    let (found, text) = match told {
        Told::Read(judged) => return Ok(judged),
        Told::Refused(found, text) => (found, text),
    };
    let place = |one: Place| {
        Some(RefusedPlace {
            code: CODES.iter().find(|known| known.code == one.code)?.code,
            file: cleaned(&one.file),
            line: one.line,
            column: one.column,
            key: None,
            message: cleaned(&one.message),
            expected: one.expected,
            hint: cleaned(&one.hint),
        })
    };
    Err(Refusal { text: cleaned(&text), places: found.into_iter().filter_map(place).collect() })
}

fn check((code, title, verdict): (String, String, String)) -> Option<StripCheck> {
    let code = hardpan_assess::rules().iter().find(|rule| rule.code == code)?.code;
    Some(StripCheck { code, title, verdict: verdict_of(&verdict)? })
}

fn not_whole() -> Unread {
    Unread::Ended { how: "the answer was not whole".to_owned() }
}

/// Why there is no reading, as every mistake is told.
fn unread(why: &Unread, shown: &str) -> Refusal {
    let told = [why.diagnostic(shown)];
    let sources = Sources::default();
    Refusal { text: render(&told, &sources, false), places: places(&told, &sources) }
}

/// The text of a strip file that names another file under a key.
pub(crate) fn naming(text: &str, key: &str, file: &str) -> Option<String> {
    let root = DeTable::parse(text).ok()?;
    let value = root.get_ref().iter().find(|(name, _)| name.get_ref() == key).map(|(_, v)| v);
    let place = value.and_then(|value| match value.get_ref() {
        DeValue::Table(table) => {
            table.iter().find(|(name, _)| name.get_ref() == "value").map(|(_, inner)| inner.span())
        }
        _ => Some(value.span()),
    });
    if let Some(place) = place {
        return Some(format!("{}\"{file}\"{}", text.get(..place.start)?, text.get(place.end..)?));
    }
    let kind = root.get_ref().iter().find(|(name, _)| name.get_ref() == "kind")?.1.span();
    let end = text.get(kind.end..)?.find('\n').map_or(text.len(), |at| kind.end + at);
    Some(format!("{}\n{key} = \"{file}\"{}", text.get(..end)?, text.get(end..)?))
}

#[cfg(test)]
mod tests {
    use super::{name, naming};
    use hardpan_web::Bringing;

    fn bringing(name: &str) -> Bringing {
        Bringing {
            strip: "strip.toml".to_owned(),
            what: "levels".to_owned(),
            name: name.to_owned(),
            date: "2026-06-18".to_owned(),
        }
    }

    #[test]
    fn a_name_is_never_a_path() {
        let kept = |given: &str| name(&bringing(given), &["csv"]).map_err(|why| why.text);
        assert_eq!(kept("levels.csv").as_deref(), Ok("2026-06-18-levels.csv"));
        for given in ["../../etc/x.csv", "..\\..\\x.csv", "/x.csv", "C:\\x.csv", "x.CSV"] {
            assert_eq!(kept(given).as_deref(), Ok("2026-06-18-x.csv"), "{given}");
        }
        assert_eq!(kept("....csv").as_deref(), Ok("2026-06-18-levels.csv"));
        assert_eq!(kept("a\0b\n.csv").as_deref(), Ok("2026-06-18-a-b.csv"));
        for given in ["", "x", "x.exe", "x.csv.sh", ".toml"] {
            assert!(kept(given).is_err_and(|why| why.contains(".csv")), "{given}");
        }
    }

    #[test]
    fn a_strip_file_names_the_other_file() {
        for (text, expected) in [
            ("kind = \"strip\"\nsurvey = \"a.csv\"\n", "kind = \"strip\"\nsurvey = \"b.csv\"\n"),
            (
                "kind = \"strip\"\nsurvey = { value = \"a.csv\", source = \"x\" }\n",
                "kind = \"strip\"\nsurvey = { value = \"b.csv\", source = \"x\" }\n",
            ),
            ("kind = \"strip\" # a\n[x]\n", "kind = \"strip\" # a\nsurvey = \"b.csv\"\n[x]\n"),
            ("kind = \"strip\"", "kind = \"strip\"\nsurvey = \"b.csv\""),
        ] {
            assert_eq!(naming(text, "survey", "b.csv").as_deref(), Some(expected));
        }
        assert_eq!(naming("kind = ", "survey", "b.csv"), None);
    }
}
