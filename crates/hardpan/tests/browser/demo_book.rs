//! The demo with a book of its strip.

use std::path::Path;
use std::process::{Command, Stdio};

const ENTRIES: [&[&str]; 7] = [
    &[
        "movement",
        "tail=101",
        "kind=landing",
        "at=2026-06-17T15:00:00Z",
        "mass=39.6 t",
        "pressure=100 psi",
    ],
    &[
        "movement",
        "tail=101",
        "kind=take-off",
        "at=2026-06-18T15:00:00Z",
        "mass=38.2 t",
        "pressure=100 psi",
    ],
    &[
        "inspection",
        "at=2026-06-18T17:00:00Z",
        "rut=12 mm",
        "rut_station=600 m",
        "rut_lane=left main",
        "water=0 mm",
    ],
    &["damage", "date=2026-06-18", "tail=101", "zone=inner flap", "phase=landing", "size=14 mm"],
    &["repair", "date=2026-06-10", "what=grading", "from=500 m", "to=700 m"],
    &[
        "equipment",
        "tail=101",
        "item=nose gear deflector",
        "state=serviceable",
        "at=2026-06-18T12:00:00Z",
        "due=2026-09-01",
    ],
    &["closure", "action=closed", "from=2026-07-01T06:00:00Z", "reason=grading"],
];

/// The demo with a book of its strip.
pub(crate) fn demo_with_book(folder: &Path) {
    let run = |arguments: &[&str]| {
        let done = Command::new(env!("CARGO_BIN_EXE_hardpan"))
            .args(arguments)
            .stdout(Stdio::null())
            .status();
        assert!(done.expect("the program starts").success(), "{arguments:?}");
    };
    let place = folder.to_string_lossy();
    run(&["new", "demo", &place]);
    let book = format!("{place}/long.book");
    for entry in ENTRIES {
        let strip: &[&str] = if entry[0] == "equipment" { &[] } else { &["strip=Long Gravel"] };
        run(&[&["book", &book, "add"], entry, strip, &["--by", "Ada"]].concat());
    }
}
