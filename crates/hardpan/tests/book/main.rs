//! The record of a strip, as a user keeps it.

mod import;
mod opened;
mod state;
#[path = "../support/mod.rs"]
mod support;
mod text;

use snapbox::cmd::{Command, cargo_bin};
use std::path::Path;

fn book(file: &Path, arguments: &[&str]) -> (Option<i32>, String, String) {
    let output = Command::new(cargo_bin!("hardpan"))
        .arg("book")
        .arg(file)
        .args(arguments)
        .output()
        .expect("it runs");
    let text = |bytes: &[u8]| String::from_utf8_lossy(bytes).into_owned();
    (output.status.code(), text(&output.stdout), text(&output.stderr))
}

const MOVEMENT: [&str; 10] = [
    "add",
    "movement",
    "strip=North",
    "tail=101",
    "kind=landing",
    "at=2026-06-18T15:00:00Z",
    "mass=39.6 t",
    "pressure=100 psi",
    "--by",
    "Ada",
];

#[test]
fn a_strip_never_inspected_is_not_known_to_be_open() {
    let folder = tempfile::tempdir().expect("a folder");
    let file = folder.path().join("north.book");
    let (code, out, err) = book(&file, &MOVEMENT);
    assert_eq!(code, Some(0), "{err}");
    assert!(out.contains("a new book was made"), "{out}");
    assert!(out.contains("entry 1") && out.contains("Planning aid only"), "{out}");
    let (_, out, _) = book(&file, &["status", "North", "--inspected-within", "7 d"]);
    assert!(out.starts_with("North: not known"), "{out}");
    assert!(out.contains("passes: 1"), "{out}");
}

#[test]
fn a_half_made_book_is_taken_over_and_said() {
    let folder = tempfile::tempdir().expect("a folder");
    let file = folder.path().join("north.book");
    let part = folder.path().join("north.book.part");
    std::fs::write(&part, "").expect("a writable folder");
    let (code, out, err) = book(&file, &MOVEMENT);
    assert_eq!(code, Some(0), "{err}");
    assert!(out.starts_with("taken away, half made by a run that was cut off: "), "{out}");
    assert!(!part.exists());
    std::fs::remove_file(&file).expect("it stands");
    std::fs::write(&part, "half of a download").expect("a writable folder");
    let (code, _, err) = book(&file, &MOVEMENT);
    assert_eq!(code, Some(2), "{err}");
    assert!(err.contains("stands in the way") && part.exists(), "{err}");
}

#[test]
fn a_deep_rut_restricts_and_a_closure_closes() {
    let folder = tempfile::tempdir().expect("a folder");
    let file = folder.path().join("north.book");
    let inspection = [
        "add",
        "inspection",
        "strip=North",
        "at=2026-06-18T09:00:00Z",
        "rut=3.2 in",
        "rut_station=640 m",
        "rut_lane=left main",
        "water=0 mm",
    ];
    let (code, _, err) = book(&file, &[&inspection[..], &["--by", "Ada"]].concat());
    assert_eq!(code, Some(0), "{err}");
    let status = ["status", "North", "--inspected-within", "100000 d"];
    assert!(book(&file, &status).1.starts_with("North: restricted"));
    let closure = [
        "add",
        "closure",
        "strip=North",
        "action=closed",
        "from=2026-06-18T10:00:00Z",
        "reason=rut",
        "--by",
        "Ada",
    ];
    assert_eq!(book(&file, &closure).0, Some(0));
    assert!(book(&file, &status).1.starts_with("North: closed"));
}

#[test]
fn a_correction_keeps_what_it_corrects() {
    let folder = tempfile::tempdir().expect("a folder");
    let file = folder.path().join("north.book");
    book(&file, &MOVEMENT);
    let correction =
        ["correct", "1", "mass=39.9 t", "--why", "load sheet was wrong", "--by", "Ada"];
    let (code, _, err) = book(&file, &correction);
    assert_eq!(code, Some(0), "{err}");
    let (_, list, _) = book(&file, &["list", "movement"]);
    assert!(list.contains("39600") && list.contains("39900"), "{list}");
    assert!(list.contains("load sheet was wrong"));
    let copy = folder.path().join("copy.book");
    let (code, out, _) = book(&file, &["backup", &copy.to_string_lossy()]);
    assert_eq!((code, out.contains("2 entries")), (Some(0), true));
    assert_eq!(book(&copy, &["verify"]).0, Some(0));
    assert!(book(&file, &["export"]).1.contains("\"movement\""));
}

#[test]
fn what_is_no_book_is_told() {
    let folder = tempfile::tempdir().expect("a folder");
    let text = folder.path().join("text.book");
    std::fs::write(&text, "this is no book").expect("a file");
    for (file, arguments) in [
        (text.as_path(), &["verify"][..]),
        (&folder.path().join("none.book"), &["verify"]),
        (&folder.path().join("new.book"), &["add", "movement", "strip=North", "--by", "Ada"]),
        (&folder.path().join("new.book"), &["add", "landing", "strip=North", "--by", "Ada"]),
    ] {
        let (code, _, err) = book(file, arguments);
        assert_eq!(code, Some(2), "{arguments:?}");
        assert!(!err.is_empty());
    }
}

/// Limits of a Poisson count of 1 with 90 % confidence, 0.051 and 4.744: tables
/// of [GARWOOD-1936], from memory.
#[test]
fn the_strikes_of_the_book_calibrate_an_assessment() {
    let folder = tempfile::tempdir().expect("a folder");
    let demo = support::changed_files(&[support::change(
        "flight.toml",
        "[damage_record]\nsource = \"Technical log, June 2025 to June 2026 (invented)\"\n\
         movements = 214\nstrikes = 3\nfrom = 2025-06-01\nto = 2026-06-17\n",
        "",
    )]);
    for (name, text) in demo {
        std::fs::write(folder.path().join(name), text).expect("a writable folder");
    }
    let file = folder.path().join("strip.book");
    let assess = || {
        let output = Command::new(cargo_bin!("hardpan"))
            .arg("assess")
            .arg(folder.path().join("flight.toml"))
            .arg("--book")
            .arg(&file)
            .output()
            .expect("it runs");
        let text = |bytes: &[u8]| String::from_utf8_lossy(bytes).into_owned();
        (output.status.code(), text(&output.stdout), text(&output.stderr))
    };
    let (code, _, err) = assess();
    assert_eq!(code, Some(2), "a book that is not there: {err}");
    assert!(!file.exists(), "asking a book must not make it");
    let damage = ["add", "damage", "tail=101", "strip=Long Gravel", "date=2026-06-01"];
    for day in ["2026-05-30", "2026-06-01", "2026-06-02", "2026-06-03"] {
        let mut movement = MOVEMENT;
        let at = format!("at={day}T15:00:00Z");
        (movement[2], movement[5]) = ("strip=Long Gravel", &at);
        assert_eq!(book(&file, &movement).0, Some(0));
    }
    let first = assess();
    assert_eq!(first.0, Some(4), "{}", first.2);
    let rest = ["zone=inboard flaps", "phase=landing", "--by", "Ada"];
    let (code, _, err) = book(&file, &[damage.as_slice(), &rest].concat());
    assert_eq!(code, Some(0), "{err}");
    let (_, out, err) = assess();
    let flat = out.split_whitespace().collect::<Vec<_>>().join(" ");
    let told = "as planned × 1.00 0 250.0 (12.8 to 1186.0)";
    assert!(flat.contains(told), "1/4, 0.051/4 and 4.744/4 of a thousand: {flat} {err}");
}

fn laid_out(folder: &Path) -> std::path::PathBuf {
    for (name, text) in support::changed_files(&[]) {
        std::fs::write(folder.join(name), text).expect("a writable folder");
    }
    folder.join("flight.toml")
}

fn keep(flight: &Path, file: &Path, more: &[&str]) {
    let output = Command::new(cargo_bin!("hardpan"))
        .arg("assess")
        .arg(flight)
        .args(["--units", "imperial", "--by", "Ada", "--keep"])
        .arg(file)
        .args(more)
        .output()
        .expect("it runs");
    let told = String::from_utf8_lossy(&output.stderr).into_owned();
    assert!(told.contains("kept as entry"), "{told}");
}

#[test]
fn a_kept_assessment_is_made_again_bit_for_bit_after_its_files_are_gone() {
    let folder = tempfile::tempdir().expect("a folder");
    let flight = laid_out(folder.path());
    let file = folder.path().join("strip.book");
    keep(&flight, &file, &["--change", "take_off.mass=38 t"]);
    for name in support::FILES {
        let _ = std::fs::remove_file(folder.path().join(name));
    }
    let (code, out, err) = book(&file, &["again", "1"]);
    assert_eq!(code, Some(0), "{out}{err}");
    assert!(out.contains("the same to the last bit") && out.contains("Planning aid only"));
    let (code, _, err) = book(&file, &["again", "9"]);
    assert!(code == Some(2) && err.contains("there is no entry 9"), "{err}");
}

#[test]
fn a_kept_assessment_that_comes_out_otherwise_says_where() {
    let folder = tempfile::tempdir().expect("a folder");
    let flight = laid_out(folder.path());
    let file = folder.path().join("strip.book");
    keep(&flight, &file, &[]);
    let (_, export, _) = book(&file, &["export"]);
    let mut export: serde_json::Value = serde_json::from_str(&export).expect("JSON");
    let kept = &mut export["assessment"][0];
    let changed = kept["inputs"].as_str().expect("inputs").replace("40.4 t", "39.4 t");
    kept["inputs"] = changed.into();
    let json = folder.path().join("other.json");
    std::fs::write(&json, export.to_string()).expect("a writable folder");
    let other = folder.path().join("other.book");
    let from = json.to_string_lossy().into_owned();
    let (code, out, err) = book(&other, &["import", &from, "--by", "Ada"]);
    assert_eq!(code, Some(0), "{out}{err}");
    let (code, out, _) = book(&other, &["again", "1"]);
    assert_eq!(code, Some(1), "{out}");
    assert!(out.contains("not the same") && out.contains("take_off_mass"), "{out}");
}

#[test]
fn what_the_book_measured_is_read_by_the_strip_file() {
    let folder = tempfile::tempdir().expect("a folder");
    let flight = laid_out(folder.path());
    let file = folder.path().join("strip.book");
    let day = "2026-06-15T08:00:00Z";
    for mass in ["39 t", "41 t"] {
        let mass = format!("mass={mass}");
        let mut movement = MOVEMENT;
        (movement[2], movement[5], movement[6]) =
            ("strip=Long Gravel", "at=2026-06-10T15:00:00Z", &mass);
        assert_eq!(book(&file, &movement).0, Some(0));
    }
    for station in ["600 m", "660 m", "1400 m"] {
        let at = format!("at={day}");
        let place = format!("rut_station={station}");
        let seen = ["add", "inspection", "strip=Long Gravel", &at, "rut=14 mm", &place];
        let rest = ["rut_lane=left main", "water=0 mm", "--by", "Ada"];
        let (code, _, err) = book(&file, &[&seen[..], &rest[..]].concat());
        assert_eq!(code, Some(0), "{err}");
    }
    let (code, ruts, err) = book(&file, &["ruts", "Long Gravel"]);
    assert_eq!(code, Some(0), "{err}");
    assert!(ruts.contains("660,left main,2026-06-15,14,2,40.000,"), "{ruts}");
    std::fs::write(folder.path().join("ruts.csv"), ruts).expect("a writable folder");
    let output =
        Command::new(cargo_bin!("hardpan")).arg("assess").arg(&flight).output().expect("it runs");
    assert_ne!(output.status.code(), Some(2), "{}", String::from_utf8_lossy(&output.stderr));
}

#[test]
fn what_is_due_is_told_and_nothing_recorded_is_no_comfort() {
    let folder = tempfile::tempdir().expect("a folder");
    let file = folder.path().join("north.book");
    book(&file, &MOVEMENT);
    let (_, out, _) = book(&file, &["due"]);
    assert!(out.contains("nothing of equipment or surveys is recorded"), "{out}");
    let levels = ["add", "survey", "strip=North", "what=levels", "date=2026-05-04"];
    let rest = ["file=survey.csv", "due=2026-06-01", "--by", "Ada"];
    assert_eq!(book(&file, &[&levels[..], &rest[..]].concat()).0, Some(0));
    let (code, out, _) = book(&file, &["due", "--within", "30 d"]);
    assert_eq!(code, Some(0));
    assert!(out.contains("North, levels: OVERDUE since 2026-06-01"), "{out}");
    let csv = folder.path().join("movements.csv");
    std::fs::write(&csv, "strip,tail,kind,at,mass\nNorth,102,landing,2026-06-19T15:00Z,85000 lb\n")
        .expect("a writable folder");
    let from = csv.to_string_lossy().into_owned();
    let (code, out, err) = book(&file, &["import", &from, "--kind", "movement", "--by", "Ada"]);
    assert!(code == Some(0) && out.contains("entry 3"), "{out}{err}");
    let (code, _, err) = book(&file, &["import", &from, "--by", "Ada"]);
    assert!(code == Some(2) && err.contains("--kind"), "{err}");
    std::fs::write(&csv, "strip,tail,kind,at,mass\nNorth,102,landing,2026-06-19T15:00Z,85000\n")
        .expect("a writable folder");
    let (code, _, err) = book(&file, &["import", &from, "--kind", "movement", "--by", "Ada"]);
    assert!(code == Some(2) && err.contains("movements.csv: line 2, column 37: "), "{err}");
}

/// Interrupted at any time, a backup is whole or not there, and so is a new
/// record; nothing else is left beside them.
#[cfg(unix)]
#[test]
fn an_interrupted_backup_leaves_nothing_half_written() {
    use hardpan_book::{Audit, Book, Kind, Record};
    let folder = tempfile::tempdir().expect("a folder");
    let file = folder.path().join("north.book");
    let mut large = Book::create(&file).expect("a new record");
    let at: jiff::Timestamp = "2026-06-19T12:00:00Z".parse().expect("a time");
    let remark = "long words of an inspector ".repeat(30);
    for _ in 0..400 {
        let values = [
            ("strip", "North"),
            ("at", "2026-06-18T09:00:00Z"),
            ("rut", "0 mm"),
            ("water", "0 mm"),
            ("remarks", &remark),
        ];
        let fields = values.map(|(name, text)| (name.to_owned(), text.to_owned())).into();
        let record = Record::from_fields(Kind::Inspection, &fields).expect("it fits");
        large.add(record, Audit { by: "Ada".to_owned(), at }).expect("it fits");
    }
    drop(large);
    let copy = folder.path().join("copy.book");
    let new = folder.path().join("new.book");
    let (mut stopped, mut ended) = (0, 0);
    for delay in [1, 4, 8, 12, 16, 20, 25, 30, 40, 60, 90, 130, 200, 300] {
        let run = |file: &Path, arguments: &[&str]| {
            let mut child = std::process::Command::new(cargo_bin!("hardpan"))
                .arg("book")
                .arg(file)
                .args(arguments)
                .stdout(std::process::Stdio::null())
                .stderr(std::process::Stdio::null())
                .spawn()
                .expect("it starts");
            std::thread::sleep(std::time::Duration::from_millis(delay));
            let sent =
                std::process::Command::new("kill").args(["-INT", &child.id().to_string()]).status();
            assert!(sent.is_ok());
            child.wait().expect("it ends").code()
        };
        for code in [run(&file, &["backup", &copy.to_string_lossy()]), run(&new, &MOVEMENT)] {
            match code {
                None | Some(130) => stopped += 1,
                Some(_) => ended += 1,
            }
        }
        for name in std::fs::read_dir(folder.path()).expect("the folder").flatten() {
            let name = name.file_name().to_string_lossy().into_owned();
            assert!(!name.contains(".part"), "after {delay} ms {name} was left");
        }
        if copy.exists() {
            let entries = Book::open(&copy).and_then(|copy| copy.verify()).expect("it is whole");
            assert_eq!(entries.len(), 400, "after {delay} ms");
            std::fs::remove_file(&copy).expect("for the next");
        }
        if new.exists() {
            let entries = Book::open(&new).and_then(|new| new.verify()).expect("it is whole");
            assert!(entries.len() <= 1, "after {delay} ms");
        }
        for ending in ["", "-wal", "-shm"] {
            let _ = std::fs::remove_file(folder.path().join(format!("new.book{ending}")));
        }
    }
    assert!(stopped > 0 && ended > 0, "{stopped} were stopped, {ended} ended");
}

#[test]
fn files_are_kept_in_versions_shown_and_written_back() {
    let folder = tempfile::tempdir().expect("a folder");
    let flight = laid_out(folder.path());
    let file = folder.path().join("strip.book");
    keep(&flight, &file, &[]);
    let (code, out, err) = book(&file, &["kept"]);
    assert_eq!(code, Some(0), "{err}");
    for line in [
        "aeroplane Tail 101: entry 2,",
        "strip Long Gravel: entry 3,",
        "day 2026-06-18: entry 4,",
        "flight Supply flight to Long Gravel (invented): entry 5,",
        "used by the assessment of entry 1",
        "the state of its equipment is not recorded",
    ] {
        assert!(out.contains(line), "{line}: {out}");
    }
    let strip = folder.path().join("strip.toml").to_string_lossy().into_owned();
    let (_, out, _) = book(&file, &["keep", &strip, "--by", "Ben"]);
    assert!(out.starts_with("nothing has changed"), "{out}");
    let survey = folder.path().join("survey.csv");
    let levels = std::fs::read_to_string(&survey).expect("levels");
    std::fs::write(&survey, format!("{levels}\n")).expect("a writable folder");
    let (code, out, err) = book(&file, &["keep", &strip, "--by", "Ben"]);
    assert!(code == Some(0) && out.contains("entry 6 after entry 3"), "{out}{err}");
    let (_, out, _) = book(&file, &["show", "6"]);
    assert!(
        out.contains("in the place of entry 3") && out.contains("survey.csv, kept whole"),
        "{out}"
    );
    assert!(out.contains("digest: before "), "{out}");
    let (_, out, _) = book(&file, &["show", "1"]);
    assert!(out.contains("made from strip version") && out.contains("entry 3"), "{out}");
    let back = folder.path().join("back").to_string_lossy().into_owned();
    let (code, _, err) = book(&file, &["files", "3", "--to", &back]);
    assert_eq!(code, Some(0), "{err}");
    let written = std::fs::read_to_string(Path::new(&back).join("survey.csv")).expect("it stands");
    assert_eq!(written, levels, "as it was when the assessment was made");
    let (code, _, err) = book(&file, &["files", "3", "--to", &back]);
    assert!(code == Some(2) && err.contains("stands there already"), "{err}");
    let (code, _, err) = book(&file, &["files", "1", "--to", &format!("{back}2")]);
    assert!(code == Some(2) && err.contains("holds no files"), "{err}");
    let (_, out, _) = book(&file, &["withdraw", "6", "--why", "a trial", "--by", "Ben"]);
    assert!(out.contains("entry 6 no longer stands"), "{out}");
    let (code, _, err) = book(&file, &["verify"]);
    assert_eq!(code, Some(0), "{err}");
}

#[test]
fn grading_and_damage_are_told_with_their_intervals() {
    let folder = tempfile::tempdir().expect("a folder");
    let file = folder.path().join("north.book");
    let movements: String = (1..=28)
        .flat_map(|day| (0..10).map(move |minute| (day, minute)))
        .map(|(day, minute)| format!("North,101,landing,2026-06-{day:02}T06:{minute:02}Z,39 t\n"))
        .collect();
    let table = folder.path().join("movements.csv");
    std::fs::write(&table, format!("strip,tail,kind,at,mass\n{movements}")).expect("it is written");
    let table = table.to_string_lossy().into_owned();
    let (code, _, err) = book(&file, &["import", &table, "--kind", "movement", "--by", "Ada"]);
    assert_eq!(code, Some(0), "{err}");
    let seen = folder.path().join("seen.geojson");
    let feature = |day: u32, rut: u32| {
        format!(
            "{{\"type\": \"Feature\", \"geometry\": null, \"properties\": {{\"kind\": \
             \"inspection\", \"strip\": \"North\", \"at\": \"2026-06-{day:02}T12:00Z\", \
             \"rut\": \"{rut} mm\", \"rut_station\": \"640 m\", \"rut_lane\": \"left main\", \
             \"water\": \"0 mm\"}}}}"
        )
    };
    let damage = "{\"type\": \"Feature\", \"geometry\": null, \"properties\": {\"kind\": \
                  \"damage\", \"strip\": \"North\", \"tail\": \"101\", \"date\": \"2026-06-18\", \
                  \"zone\": \"flap\", \"phase\": \"landing\", \"station\": \"640 m\"}}";
    let map = |more: &str| {
        format!(
            "{{\"type\": \"FeatureCollection\", \"features\": [\n{},\n{},\n{},\n{damage}{more}]}}",
            feature(4, 4),
            feature(14, 14),
            feature(24, 24)
        )
    };
    let place = seen.to_string_lossy().into_owned();
    std::fs::write(&seen, map(",\n{\"properties\": {\"kind\": \"pond\"}}")).expect("it is written");
    let (code, _, err) = book(&file, &["import", &place, "--by", "Ada"]);
    assert!(code == Some(2) && err.contains("seen.geojson: line 6, column 17: `pond`"), "{err}");
    std::fs::write(&seen, map("")).expect("it is written");
    let (code, out, err) = book(&file, &["import", &place, "--by", "Ada"]);
    assert!(code == Some(0) && out.contains("entries 281 to 284"), "{out}{err}");
    let (code, out, err) = book(&file, &["grading", "North"]);
    assert_eq!(code, Some(0), "{err}");
    let growth =
        "rut left main, station 600 to 700 m: 24 mm on 2026-06-24, 100.0 mm more in each 1,000";
    assert!(out.contains(growth) && out.contains("Planning aid only"), "{out}");
    let (_, out, _) = book(&file, &["grading", "North", "--csv"]);
    assert!(out.contains("rut,left main,600,700,3,24.0,2026-06-24,100.00,76.0,480,"), "{out}");
    let (code, out, err) = book(&file, &["damage", "North"]);
    assert_eq!(code, Some(0), "{err}");
    assert!(out.contains("600 to 640 m: 1 report in 280 movements, 3.6 for each 1,000"), "{out}");
    assert!(out.contains("  flap: 1 report in"), "{out}");
    let (_, out, _) = book(&file, &["damage", "North", "--csv"]);
    assert!(out.contains(",,\"flap\",1,280,3.571,0.183,16.942"), "{out}");
    let status = ["status", "North", "--inspected-within", "100000 d", "--json"];
    let (_, out, _) = book(&file, &status);
    let told: serde_json::Value = serde_json::from_str(&out).expect("JSON");
    assert_eq!(told["grading"]["places"][0]["passes_left"].as_f64().map(f64::round), Some(480.0));
    assert!(told["reasons"][0].as_str().is_some_and(|why| why.contains("no survey of levels")));
}

/// A picture of the guide goes in and comes out byte for byte, and with the history
/// into another book.
#[test]
fn pictures_go_from_book_to_book_with_what_was_corrected() {
    let folder = tempfile::tempdir().expect("a folder");
    let file = folder.path().join("north.book");
    let picture =
        Path::new(env!("CARGO_MANIFEST_DIR")).join("../../docs/guide/src/screens/due.png");
    let picture = picture.to_string_lossy().into_owned();
    let seen = ["add", "inspection", "strip=North", "at=2026-06-18T09:00:00Z", "rut=12 mm"];
    let rest = ["rut_station=640 m", "rut_lane=left main", "water=0 mm", "--by", "Ada"];
    assert_eq!(book(&file, &[&seen[..], &rest[..]].concat()).0, Some(0));
    let shown = ["--shown", "rut at 640 m, left main, a boot beside it", "--by", "Ada"];
    let (code, out, err) = book(&file, &[&["photo", "1", &picture], &shown[..]].concat());
    assert_eq!(code, Some(0), "{err}");
    assert!(out.contains("entry 2: png, ") && out.contains("without the place, time"), "{out}");
    let (code, _, err) = book(&file, &[&["photo", "1", &picture], &shown[..]].concat());
    assert!(code == Some(2) && err.contains("entry 2 keeps the same one"), "{err}");
    let manifest = Path::new(env!("CARGO_MANIFEST_DIR")).join("Cargo.toml");
    let manifest = manifest.to_string_lossy().into_owned();
    let (code, _, err) = book(&file, &[&["photo", "1", &manifest], &shown[..]].concat());
    assert!(code == Some(2) && err.contains("Cargo.toml") && err.contains("JPEG"), "{err}");
    let (code, _, err) = book(&file, &["add", "picture", "strip=North", "--by", "Ada"]);
    assert!(code == Some(2) && err.contains("photo"), "{err}");
    let why = ["correct", "1", "rut=14 mm", "--why", "read wrong", "--by", "Ada"];
    assert_eq!(book(&file, &why).0, Some(0));

    let out = folder.path().join("pictures");
    let to = out.to_string_lossy().into_owned();
    let (code, told, err) = book(&file, &["photos", "--to", &to, "--of", "1"]);
    assert!(code == Some(0) && told.contains("a boot beside it"), "{told}{err}");
    let (code, told, _) = book(&file, &["photos", "--to", &to]);
    assert!(code == Some(0) && told.contains("stands there already"), "{told}");
    let written: Vec<_> = std::fs::read_dir(&out).expect("a folder").flatten().collect();
    assert_eq!(written.len(), 1);
    let bytes = std::fs::read(written[0].path()).expect("it stands");
    assert_eq!(bytes, std::fs::read(&picture).expect("it stands"));

    let json = folder.path().join("old.json").to_string_lossy().into_owned();
    std::fs::write(&json, book(&file, &["export"]).1).expect("a writable folder");
    let other = folder.path().join("other.book");
    let (code, _, err) = book(&other, &["import", &json, "--by", "Bob"]);
    assert!(code == Some(2) && err.contains("SHA-256"), "{err}");
    let (code, told, err) = book(&other, &["import", &json, "--pictures", &to, "--by", "Bob"]);
    assert!(code == Some(0) && told.contains("entries 1 to 3"), "{told}{err}");
    let (code, told, _) = book(&other, &["show", "3"]);
    assert!(code == Some(0) && told.contains("in the place of entry 1: read wrong"), "{told}");
    assert!(told.contains(" by Bob\nfirst written by Ada, 20"), "{told}");
    assert!(book(&other, &["verify"]).1.contains("3 entries"));
}

/// Passes become coverages by the normal law: a single tyre of width w that wanders with
/// the deviation w/2 covers its middle in 68.27 % of the passes, one of w/4 in 95.45 %
/// (areas of the normal curve within one and two deviations, as printed in any table of
/// it). The other legs are over twelve deviations away.
#[test]
fn passes_are_turned_into_coverages_by_lane_and_stretch() {
    let folder = tempfile::tempdir().expect("a folder");
    let single = [
        support::change(
            "aeroplane.toml",
            "legs = 1\nwheels = 2\nspacing = \"0.36 m\"\n",
            "legs = 1\nwheels = 1\n",
        ),
        support::change(
            "aeroplane.toml",
            "legs = 2\nwheels = 2\nspacing = \"0.78 m\"\n",
            "legs = 2\nwheels = 1\n",
        ),
        support::change("aeroplane.toml", "wheels = 4", "wheels = 2"),
        support::change("aeroplane.toml", "width = \"0.36 m\"", "width = \"0.40 m\""),
        support::change(
            "strip.toml",
            "name = \"Long Gravel\"\n",
            "name = \"Long Gravel\"\nwheel_wander = \"0.1 m\"\n",
        ),
    ];
    for (name, text) in support::changed_files(&single) {
        std::fs::write(folder.path().join(name), text).expect("a writable folder");
    }
    let file = folder.path().join("strip.book");
    let rows: String = (0..100)
        .map(|number| {
            let (from, to) = if number < 40 { ("0 m", "950 m") } else { ("0 m", "250 m") };
            let at = format!("2026-06-10T15:{:02}:{:02}Z", number / 60, number % 60);
            format!("Long Gravel,101,landing,{at},39.6 t,{from},{to}\n")
        })
        .collect();
    let other = "Long Gravel,202,landing,2026-06-11T15:00Z,20 t,0 m,950 m\n";
    let head = "strip,tail,kind,at,mass,rolled_from,rolled_to\n";
    let csv = folder.path().join("movements.csv");
    std::fs::write(&csv, format!("{head}{rows}{other}")).expect("a writable folder");
    let from = csv.to_string_lossy().into_owned();
    let (code, _, err) = book(&file, &["import", &from, "--kind", "movement", "--by", "Ada"]);
    assert_eq!(code, Some(0), "{err}");
    let flight = folder.path().join("flight.toml").to_string_lossy().into_owned();
    let passes = ["passes", "Long Gravel", "--step", "500 m", "--flight", &flight];
    let (code, out, err) = book(&file, &[&passes[..], &["--tail", "101"]].concat());
    assert_eq!(code, Some(0), "{err}");
    let told = out.replace('\u{a0}', " ");
    let first = "coverages left main 95.4, nose 68.3, right main 95.4 from 100 passes, and 1 pass \
                 of other aeroplanes on top";
    assert!(told.contains(first), "{told}");
    let second = "coverages left main 38.2, nose 27.3, right main 38.2 from 40 passes";
    assert!(told.contains(second), "{told}");
    // A name that no movement has would count nothing: those that there are are named.
    for named in [&passes[..], &[&passes[..], &["--tail", "303"]].concat()] {
        let (code, _, err) = book(&file, named);
        assert!(code == Some(2) && err.contains("those with this gear: 101, 202"), "{err}");
    }
    let status = ["status", "Long Gravel", "--inspected-within", "7 d", "--json", "--flight"];
    let (code, out, err) =
        book(&file, &[&status[..], &[flight.as_str(), "--tail", "101", "--tail", "202"]].concat());
    assert_eq!(code, Some(0), "{err}");
    let told: serde_json::Value = serde_json::from_str(&out).expect("JSON");
    let nose = &told["stretches"][0]["coverages"]["lanes"][1];
    assert_eq!(nose["lane"], "nose");
    let count = nose["coverages"].as_f64().expect("a number");
    assert!((count - 101.0 * 0.6827).abs() < 101.0 * 5e-5, "{count}");
    let (code, _, err) = book(&file, &["passes", "Long Gravel", "--tail", "101"]);
    assert!(code == Some(2) && err.contains("--flight"), "{err}");
}
