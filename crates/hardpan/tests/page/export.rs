//! A book as a file: what the page gives is what the command writes.

use crate::driver::Served;
use crate::{get, json, status};
use std::path::Path;
use std::process::Command;

fn hardpan() -> Command {
    Command::new(env!("CARGO_BIN_EXE_hardpan"))
}

/// The demo, with both ends of its strip on the globe: 1980 m towards 68°, by the lengths
/// of a degree at 57° of WGS 84.
pub(crate) fn demo_on_globe(flights: &Path) {
    assert!(hardpan().args(["new", "demo"]).arg(flights).status().expect("it runs").success());
    let strip = flights.join("strip.toml");
    let text = std::fs::read_to_string(&strip).expect("the demo has a strip");
    let (low, high) = ("57 deg\"\nlongitude = \"-145", "57.00666 deg\"\nlongitude = \"-144.96979");
    let text = [("low_end", low), ("high_end", high)].iter().fold(text, |text, (end, place)| {
        let head = format!("[{end}]\n");
        text.replace(&head, &format!("{head}latitude = \"{place} deg\"\n"))
    });
    std::fs::write(&strip, text).expect("a writable folder");
}

#[test]
fn a_book_is_given_as_the_command_writes_it() {
    let folder = tempfile::tempdir().expect("a folder");
    let flights = folder.path().join("flights");
    demo_on_globe(&flights);
    let book = flights.join("long.book");
    let command = |arguments: &[&str]| {
        let out = hardpan().arg("book").arg(&book).args(arguments).output().expect("it runs");
        assert!(out.status.success(), "{}", String::from_utf8_lossy(&out.stderr));
        String::from_utf8(out.stdout).expect("text")
    };
    let damage = ["add", "damage", "strip=Long Gravel", "tail=101", "date=2026-06-18"];
    command(&[&damage[..], &["zone=flap, \"left\"", "phase=taxi", "--by", "Ada"]].concat());
    let seen = ["add", "inspection", "strip=Long Gravel", "at=2026-06-18T09:00:00Z", "rut=9 mm"];
    let rest = ["rut_station=640 m", "rut_lane=left main", "water=0 mm", "--by", "Ada"];
    command(&[&seen[..], &rest[..]].concat());
    command(&["correct", "1", "zone=flap", "--why", "nearer", "--by", "Ada"]);
    let strip = flights.join("strip.toml").to_string_lossy().into_owned();
    let served = Served::with(&[&flights.to_string_lossy()]);
    let csv = "text/csv; charset=utf-8; header=present";
    let map = "application/geo+json";
    for (path, kind, name, arguments) in [
        ("/api/books/long", "application/json", "long.json", &["export"][..]),
        ("/api/books/long/list/damage", csv, "long-damage.csv", &["list", "damage"]),
        ("/api/books/long/list/inspection", csv, "long-inspection.csv", &["list", "inspection"]),
        ("/api/books/long/list/movement", csv, "long-movement.csv", &["list", "movement"]),
        ("/api/books/long/map?strip=strip", map, "long-strip.geojson", &["map", &strip]),
        (
            "/books/long/map?strip=strip&lane=2.6+m",
            map,
            "long-strip.geojson",
            &["map", &strip, "--lane", "2.6 m"],
        ),
    ] {
        let (head, body) = get(&served, path);
        assert_eq!(body, command(arguments), "{path}");
        let head = head.to_ascii_lowercase();
        assert!(head.contains(&format!("content-type: {kind}\r\n")), "{path}: {head}");
        let saved = format!("content-disposition: attachment; filename=\"{name}\"");
        assert!(head.contains(&saved), "{path}: {head}");
    }
    let page = get(&served, "/books/long?strip=Long+Gravel").1;
    for link in ["/api/books/long", "/api/books/long/list/damage", "/books/long/map?strip=strip"] {
        assert!(page.contains(&format!("href=\"{link}\"")), "{link}: {page}");
    }
    assert!(page.contains("(2 entries)") && page.contains("(1 entry)"), "{page}");
    assert!(!page.contains("/list/movement"), "the book holds no movement");
    let described = json(&get(&served, "/api/openapi.json"));
    let of = |path: &str| described["paths"][path]["get"]["responses"]["200"]["content"].clone();
    assert!(of("/api/books/{slug}/list/{kind}")["text/csv"].is_object(), "{described}");
    assert!(of("/api/books/{slug}/map")["application/geo+json"].is_object(), "{described}");
}

#[test]
fn what_cannot_be_given_is_said() {
    let folder = tempfile::tempdir().expect("a folder");
    let flights = folder.path().join("flights");
    assert!(hardpan().args(["new", "demo"]).arg(&flights).status().expect("it runs").success());
    let made = hardpan()
        .arg("book")
        .arg(flights.join("long.book"))
        .args(["add", "repair", "strip=Long Gravel", "date=2026-06-10", "from=500 m", "to=700 m"])
        .args(["what=gravel laid", "--by", "Ada"])
        .status();
    assert!(made.expect("it runs").success());
    let served = Served::with(&[&flights.to_string_lossy()]);
    for (path, code, said) in [
        ("/api/books/long/list/landing", "404", "There is no such kind of record"),
        ("/api/books/none/list/movement", "404", "There is no book"),
        ("/api/books/long/map", "404", "There is no strip"),
        ("/api/books/long/map?strip=strip&lane=wide", "400", "lane: "),
        ("/api/books/long/map?strip=strip&lane=0+m", "400", "lane: 0 m is not above 0."),
        ("/api/books/long/map?strip=strip", "422", "no `latitude` and `longitude` of both ends"),
        ("/books/long/map?strip=strip", "422", "no `latitude` and `longitude` of both ends"),
    ] {
        let answer = get(&served, path);
        assert_eq!(status(&answer), code, "{path}");
        assert!(answer.1.contains(said), "{path}: {}", answer.1);
    }
}
