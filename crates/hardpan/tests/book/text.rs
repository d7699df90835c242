//! What the book prints: amounts without remains of their binary form, and one of a
//! thing in the singular.

use crate::{MOVEMENT, book};

/// Nine millimetres and multiples of 300 ft have no exact binary form.
#[test]
fn amounts_carry_no_binary_remains() {
    let folder = tempfile::tempdir().expect("a folder");
    let file = folder.path().join("north.book");
    book(&file, &MOVEMENT);
    let seen = ["add", "inspection", "strip=North", "at=2026-06-18T16:00:00Z", "rut=9 mm"];
    let rest = ["rut_station=2101 ft", "rut_lane=left main", "water=0 mm", "--by", "Ada"];
    assert_eq!(book(&file, &[&seen[..], &rest[..]].concat()).0, Some(0));
    let (_, ruts, err) = book(&file, &["ruts", "North"]);
    assert!(ruts.contains("\n640.385,left main,2026-06-18,9,1,39.600,689.5\n"), "{ruts}{err}");
    let show = |more: &[&str]| book(&file, &[&["show"], more].concat()).1.replace('\u{a0}', " ");
    let shown = show(&["2"]);
    assert!(shown.contains("  rut: 9.0 mm\n"), "{shown}");
    assert!(shown.contains("  rut_station: 640 m\n"), "{shown}");
    let shown = show(&["1", "--units", "imperial"]);
    assert!(shown.contains("  pressure: 100 psi\n"), "{shown}");
    assert!(show(&["1"]).contains("  pressure: 689 kPa\n"));
    let (_, export, _) = book(&file, &["list", "inspection"]);
    assert!(export.contains("0.009000000000000001"), "an export stays exact: {export}");
    let (_, damage, _) = book(&file, &["damage", "North", "--step", "300 ft", "--csv"]);
    assert!(damage.contains("\n640.08,640.385,,"), "{damage}");
}

#[test]
fn every_mistake_of_a_record_is_told() {
    let folder = tempfile::tempdir().expect("a folder");
    let file = folder.path().join("north.book");
    let seen = ["add", "inspection", "strip=North", "at=2026-06-18T16:00:00Z", "rut=9 mm"];
    let (code, _, err) = book(&file, &[&seen[..], &["water=3", "--by", "Ada"]].concat());
    assert_eq!(code, Some(2));
    for said in [
        "the record has 3 mistakes; nothing was recorded:\n",
        "  inspection, water: `3` has no unit",
        "  inspection, rut_station: must be stated where the depth is more than 0\n",
        "  inspection, rut_lane: must be stated",
    ] {
        assert!(err.contains(said), "{said}: {err}");
    }
    assert!(!file.exists(), "a book of a record with mistakes");
}

#[test]
fn one_of_a_thing_takes_the_singular() {
    let folder = tempfile::tempdir().expect("a folder");
    let file = folder.path().join("north.book");
    book(&file, &MOVEMENT);
    assert!(book(&file, &["verify"]).1.starts_with("1 entry, each"));
    let damage = ["add", "damage", "tail=101", "strip=North", "date=2026-06-18", "zone=flap"];
    book(&file, &[&damage[..], &["phase=landing", "--by", "Ada"]].concat());
    let (_, status, _) = book(&file, &["status", "North", "--inspected-within", "7 d"]);
    assert!(status.contains("  2026-06: 1 landing, 0 take-offs\n"), "{status}");
    assert!(status.contains("  damage: 1 report in 1 movement, "), "{status}");
    let (_, told, _) = book(&file, &["damage", "North"]);
    assert!(told.contains("  1 report states no station\n"), "{told}");
    let copy = folder.path().join("copy.book").to_string_lossy().into_owned();
    assert!(book(&file, &["backup", &copy]).1.starts_with("2 entries copied"));
}
