//! What programs are told: keys that the command has too, none dropped in silence, and
//! one object for every error.

use super::{get, json, port, status};
use crate::driver::{Served, request};
use serde_json::Value;
use std::collections::BTreeSet;
use std::process::Command;

fn hardpan(arguments: &[&str]) -> String {
    let out = Command::new(env!("CARGO_BIN_EXE_hardpan")).args(arguments).output();
    let out = out.expect("the program starts");
    let said = String::from_utf8_lossy(&out.stderr).into_owned();
    assert!(!out.stdout.is_empty(), "{arguments:?}: {said}");
    String::from_utf8_lossy(&out.stdout).into_owned()
}

/// The demo in a folder, with a book of two movements.
fn with_demo() -> (tempfile::TempDir, String) {
    let folder = tempfile::tempdir().expect("a folder");
    let place = folder.path().join("demo").to_string_lossy().into_owned();
    hardpan(&["new", "demo", &place]);
    let book = format!("{place}/n.book");
    for tail in ["tail=101", "tail=102"] {
        hardpan(&[
            "book",
            &book,
            "add",
            "movement",
            "strip=Long Gravel",
            "kind=landing",
            tail,
            "at=2026-06-18T15:00:00Z",
            "mass=39 t",
            "--by",
            "Ada",
        ]);
    }
    (folder, place)
}

/// Long names of the options that a command has.
fn options(command: &[&str]) -> BTreeSet<String> {
    let help = hardpan(&[command, &["--help"]].concat());
    let words = help.split(|c: char| c.is_whitespace() || c == ',');
    words.filter_map(|word| word.strip_prefix("--")).map(str::to_owned).collect()
}

#[test]
fn keys_have_the_long_names_of_the_options() {
    let served = Served::demo();
    let description = json(&get(&served, "/api/openapi.json"));
    let flight = "/api/flights/{slug}";
    // What the command takes by its place, not by a name, and what no command has.
    let by_place = ["units", "strip", "flight"];
    let of_flight: BTreeSet<String> = names(&description, flight).into_iter().collect();
    for (path, commands) in [
        ("/masses", vec![vec!["masses"]]),
        ("/confidence", vec![vec!["confidence"]]),
        ("/remedies", vec![vec!["remedies"]]),
        ("/year", vec![vec!["year"]]),
        ("/weeks", vec![vec!["weeks"]]),
        ("/bearing", vec![vec!["bearing"]]),
        ("/lesson", vec![vec!["lesson"]]),
        ("/api/strips/{slug}", vec![vec!["strip"]]),
        ("/api/compare", vec![vec!["compare"]]),
        ("/api/books/{slug}/map", vec![vec!["book", "x.book", "map"]]),
        (
            "/api/books/{slug}/status",
            vec![vec!["book", "x.book", "status"], vec!["book", "x.book", "grading"]],
        ),
    ] {
        let is_of_flight = !path.starts_with("/api") || path == "/api/compare";
        let path =
            if path.starts_with("/api") { path.to_owned() } else { format!("{flight}{path}") };
        let known: BTreeSet<String> = commands.iter().flat_map(|one| options(one)).collect();
        let own = names(&description, &path);
        assert!(!own.is_empty(), "{path}");
        for name in own {
            let is_value = is_of_flight && of_flight.contains(&name);
            let is_known = known.contains(&name) || by_place.contains(&name.as_str()) || is_value;
            assert!(is_known, "{path}: {name} is no option of {commands:?}");
        }
    }
}

/// Names of the keys of an address.
fn names(description: &Value, path: &str) -> Vec<String> {
    let parameters = description["paths"][path]["get"]["parameters"].as_array();
    let parameters = parameters.unwrap_or_else(|| panic!("{path} is not described")).iter();
    let queries = parameters.filter(|one| one["in"] == "query");
    queries.map(|one| one["name"].as_str().expect("a name").to_owned()).collect()
}

#[test]
fn an_unknown_key_is_refused_with_those_that_are_known() {
    let (_folder, place) = with_demo();
    let served = Served::with(&[&place]);
    for (path, known) in [
        ("/api/books/n/status?strip=Long+Gravel&inspectedwithin=7+d", "inspected-within"),
        ("/api/books/n/status?strip=Long+Gravel&within=7+d", "surveyed-within"),
        ("/api/books/n/map?strip=strip&lanes=2.6+m", "lane"),
        ("/api/books/n?strip=Long+Gravel", "units"),
        ("/api/books/n/kept?kind=strip", "units"),
        ("/api/books/n/list/movement?strip=x", "units"),
        ("/api/books/n/entries/1?by=x", "units"),
        ("/api/strips/strip?tracks=5.2+m", "track"),
        ("/api/strips/strip?take_off.mass=38+t", "track"),
        ("/api/aeroplanes/aeroplane?mass=38+t", "units"),
        ("/api/rules?code=G20", "units"),
        ("/api/entries?kind=flight", "units"),
        ("/api/compare?flight=flight&ends=both", "both-ends"),
        ("/api/flights/flight/year?take_of=38+t", "take-off"),
        ("/api/flights/flight/masses?temperatures=14+degC&headwind=9+kt", "headwinds"),
    ] {
        let answer = get(&served, path);
        assert_eq!(status(&answer), "422", "{path}: {}", answer.1);
        let said = json(&answer);
        let hints: Vec<&str> =
            said["mistakes"].as_array().expect("a list").iter().filter_map(hint_of_key).collect();
        assert!(hints.iter().any(|hint| hint.contains(known)), "{path}: {said:#}");
    }
    for path in [
        "/books/n?within=7+d",
        "/books/n/ruts?tails=101",
        "/books/n/map?strip=strip&lanes=1+m",
        "/books/n/field?colour=red",
        "/strips/strip?mass=38+t",
        "/aeroplanes/aeroplane?mass=38+t",
        "/compare?flight=flight&ends=both",
    ] {
        let answer = get(&served, path);
        assert_eq!(status(&answer), "422", "{path}");
        assert!(answer.1.contains("E206"), "{path}: {}", answer.1);
    }
    for path in [
        "/api/books/n/status?strip=Long+Gravel&strip=North",
        "/api/compare?flight=flight&both-ends=both",
        "/api/strips/strip?track=5.2+m&flight=flight",
    ] {
        assert_eq!(status(&get(&served, path)), "400", "{path}");
    }
}

/// The hint beside a key that nobody knows.
fn hint_of_key(mistake: &Value) -> Option<&str> {
    mistake["hint"].as_str().filter(|_| mistake["code"] == "E206")
}

/// Method, address, headers, body, and the status of the answer.
type Case<'a> = (&'a str, &'a str, &'a [(&'a str, &'a str)], &'a str, &'a str);

#[test]
fn every_error_is_the_documented_object() {
    let (_folder, place) = with_demo();
    let served = Served::with(&[&place]);
    let own = ("Origin", served.url.as_str());
    let large = "x".repeat(100_000);
    let foreign = [("Sec-Fetch-Site", "cross-site"), ("Sec-Fetch-Mode", "no-cors")];
    let elsewhere = [("Host", "flights.example.org")];
    let cases: [Case; 15] = [
        ("GET", "/api/books/n/entries/abc", &[], "", "404"),
        ("GET", "/api/books/n/entries/99", &[], "", "404"),
        ("GET", "/api/books/none", &[], "", "404"),
        ("GET", "/api", &[], "", "404"),
        ("GET", "/api/", &[], "", "404"),
        ("GET", "/api/no/such/address", &[], "", "404"),
        ("GET", "/api/flights/%ff", &[], "", "400"),
        ("GET", "/api/compare", &[], "", "400"),
        ("GET", "/api/entries", &foreign, "", "403"),
        ("GET", "/api/entries", &elsewhere, "", "421"),
        ("POST", "/api/entries", &[], "{}", "403"),
        ("POST", "/api/entries", &[own], "{}", "405"),
        ("DELETE", "/api/flights/flight", &[own], "", "405"),
        ("POST", "/api/books/n/entries", &[own], &large, "413"),
        ("POST", "/api/books/n/entries/abc/pictures?mark=12345678", &[own], "x", "404"),
    ];
    for (method, path, headers, body, code) in cases {
        let answer = request(port(&served), method, path, headers, body);
        assert_eq!(status(&answer), code, "{method} {path}: {}", answer.1);
        let head = answer.0.to_ascii_lowercase();
        assert!(head.contains("content-type: application/json"), "{method} {path}: {head}");
        assert!(head.contains("x-content-type-options: nosniff"), "{method} {path}: {head}");
        let said = json(&answer);
        let sentence = said["error"].as_str().unwrap_or_default();
        assert!(sentence.ends_with('.') && !sentence.contains('\n'), "{method} {path}: {said}");
        assert!(!sentence.contains("start page"), "{method} {path}: {said}");
        assert!(said["mistakes"].is_array(), "{method} {path}: {said}");
        assert_eq!(said.as_object().map(serde_json::Map::len), Some(2), "{said}");
    }
    let wrong = request(port(&served), "DELETE", "/api/flights/flight", &[own], "");
    assert!(json(&wrong)["error"].as_str().is_some_and(|said| said.contains("DELETE")));
    assert!(wrong.0.to_ascii_lowercase().contains("allow: get"), "{}", wrong.0);
}

#[test]
fn a_sheet_of_masses_is_that_of_the_command() {
    let (_folder, place) = with_demo();
    let served = Served::with(&[&place]);
    let flight = format!("{place}/flight.toml");
    let options = [
        "--temperatures",
        "14 degC",
        "--headwinds",
        "9 kt",
        "--pressures",
        "100 psi",
        "--states",
        "dry,wet",
        "--air-pressures",
        "1000 hPa",
        "--best-flap",
        "--json",
    ];
    let command = hardpan(&[&["masses", &flight][..], &options].concat());
    let command: Value = serde_json::from_str(&command).expect("JSON");
    let keys = "temperatures=14+degC&headwinds=9+kt&pressures=100+psi&states=dry,wet\
                &air-pressures=1000+hPa&best-flap=yes";
    let page = json(&get(&served, &format!("/api/flights/flight/masses?{keys}")));
    assert_eq!(page["panels"], command["panels"]);
    assert_eq!(command["panels"].as_array().map(Vec::len), Some(4), "two movements, two states");
    let (head, shown) = get(&served, &format!("/flights/flight/masses?{keys}"));
    assert!(head.contains(" 200 "), "{head}");
    let place =
        shown.split("href=\"").find(|rest| rest.starts_with("/flights/flight/masses/place"));
    let place = place.and_then(|rest| rest.split('"').next()).expect("a place opens");
    let place = place.replace("&amp;", "&");
    for key in ["surface_state=dry", "main_tyre_pressure=689.", "best-flap=yes"] {
        assert!(place.contains(key), "{key}: {place}");
    }
    let (head, opened) = get(&served, &place);
    assert!(head.contains(" 200 "), "{place}: {head}");
    let mass = shown.split(&format!("href=\"{}\"", place.replace('&', "&amp;"))).nth(1);
    let mass = mass.and_then(|rest| rest.split("<strong>").nth(1)?.split('<').next());
    let mass = mass.expect("a largest mass stands in the place").replace('\u{a0}', " ");
    let lead = opened.split("class=\"lead\">").nth(1).expect("the place tells its mass");
    let lead: String = lead.chars().take(80).collect();
    assert!(lead.replace('\u{a0}', " ").contains(&mass), "{mass}: {lead}");
}

#[test]
fn a_dossier_is_that_of_the_command() {
    let (_folder, place) = with_demo();
    let served = Served::with(&[&place]);
    let (strip, flight) = (format!("{place}/strip.toml"), format!("{place}/flight.toml"));
    for (options, keys) in [
        (vec!["--track", "5.2 m", "--dated", "1 June"], "track=5.2+m&dated=1+June"),
        (vec!["--flight", &*flight, "--dated", "1 June"], "flight=flight&dated=1+June"),
    ] {
        let command = hardpan(&[&["strip", &strip, "--json"][..], &options].concat());
        let command: Value = serde_json::from_str(&command).expect("JSON");
        let page = json(&get(&served, &format!("/api/strips/strip?{keys}")));
        assert_eq!(page, command, "{keys}");
        assert_eq!(status(&get(&served, &format!("/strips/strip?{keys}"))), "200", "{keys}");
    }
    for keys in ["track=52+m", "track=5.2", "flight=none"] {
        let answer = get(&served, &format!("/api/strips/strip?{keys}"));
        assert!(["400", "404"].contains(&status(&answer)), "{keys}: {}", answer.1);
    }
}

#[test]
fn flights_are_compared_with_values_stated_again_and_open_to_their_sheets() {
    let (_folder, place) = with_demo();
    let served = Served::with(&[&place]);
    let keys = "flight=flight&both-ends=yes&take_off.mass=36+t";
    let flight = format!("{place}/flight.toml");
    let command = ["compare", &flight, "--both-ends", "--change", "take_off.mass=36 t", "--json"];
    let command: Value = serde_json::from_str(&hardpan(&command)).expect("JSON");
    let page = json(&get(&served, &format!("/api/compare?{keys}")));
    // The command names the file, the page its slug.
    let mut command = command;
    for one in command["flights"].as_array_mut().expect("flights") {
        one["basis"]["flight"] = "flight".into();
    }
    assert_eq!(page["flights"], command["flights"]);
    let (_, shown) = get(&served, &format!("/compare?{keys}"));
    let rows: Vec<&str> = shown.split("<th scope=\"row\"><a href=\"").skip(1).collect();
    assert_eq!(rows.len(), 4, "every choice of ends: {shown}");
    let mut seen = BTreeSet::new();
    for (row, ranked) in rows.iter().zip(page["flights"].as_array().expect("a list")) {
        let address = row.split('"').next().unwrap_or_default().replace("&amp;", "&");
        assert!(address.contains("take_off.mass=36+t"), "{address}");
        let sheet = json(&get(&served, &format!("/api{address}")));
        assert_eq!(sheet["identity"]["directions"], ranked["directions"], "{address}");
        assert_eq!(sheet["answer"]["verdict"], ranked["verdict"], "{address}");
        seen.insert(address);
    }
    assert_eq!(seen.len(), 4, "{seen:?}");
}

#[test]
fn passes_of_a_flight_are_those_over_its_own_strip_by_aeroplanes_of_the_book() {
    let (_folder, place) = with_demo();
    let book = format!("{place}/n.book");
    hardpan(&[
        "book",
        &book,
        "add",
        "movement",
        "strip=A first strip",
        "kind=landing",
        "tail=103",
        "at=2026-06-18T15:00:00Z",
        "mass=39 t",
        "--by",
        "Ada",
    ]);
    let served = Served::with(&[&place]);
    let (_, page) = get(&served, "/books/n/ruts?flight=flight");
    assert!(page.contains("Passes and ruts of Long Gravel"), "{page}");
    assert!(page.contains("no movement of `Tail 101` is recorded"), "{page}");
    for tail in ["101", "102"] {
        assert!(page.contains(&format!("name=\"tail\" value=\"{tail}\"")), "{page}");
    }
    assert!(!page.contains("name=\"tail\" value=\"103\""), "it never was on this strip: {page}");
    let (_, page) = get(&served, "/books/n/ruts?flight=flight&tail=101&tail=102");
    assert!(page.contains("One pass of 101, 102 covers"), "{page}");
    assert!(!page.contains("of others"), "{page}");
    let (head, _) = get(&served, "/books/n/ruts?strip=A+first+strip&flight=flight");
    assert!(head.contains(" 400 "), "{head}");
    let told = get(&served, "/api/books/n/status?strip=Long+Gravel&flight=flight");
    assert_eq!(status(&told), "422", "{}", told.1);
    assert!(told.1.contains("101, 102"), "{}", told.1);
    let flight = format!("{place}/flight.toml");
    let out = Command::new(env!("CARGO_BIN_EXE_hardpan"))
        .args(["book", &book, "passes", "Long Gravel", "--flight", &flight])
        .output()
        .expect("the program starts");
    assert_eq!(out.status.code(), Some(2));
    assert!(String::from_utf8_lossy(&out.stderr).contains("101, 102"));
}

/// Addresses as the server names them.
fn addresses() -> BTreeSet<&'static str> {
    let routes = include_str!("../../../hardpan-web/src/routes.rs");
    let for_programs = include_str!("../../../hardpan-web/src/api.rs");
    let pages = routes.split(".route(").skip(1).filter_map(|rest| rest.split('"').nth(1));
    let programs = for_programs.split("const ").filter_map(|rest| {
        rest.split_once(": &str = \"").and_then(|(_, text)| text.split('"').next())
    });
    pages.chain(programs).filter(|text| text.starts_with('/')).collect()
}

#[test]
fn the_page_of_the_docs_lists_every_address_and_no_other() {
    let docs = include_str!("../../../../docs/page.md");
    let all = addresses();
    assert!(all.len() > 45, "{all:?}");
    let listed = docs.lines().filter(|line| line.starts_with("| `/"));
    let listed: BTreeSet<&str> = listed
        .filter_map(|line| line.split('|').nth(1))
        .flat_map(|cell| cell.split('`').filter(|text| text.starts_with('/')))
        .collect();
    let missing: Vec<_> = all.difference(&listed).collect();
    let unknown: Vec<_> = listed.difference(&all).collect();
    assert!(missing.is_empty(), "not in docs/page.md: {missing:?}");
    assert!(unknown.is_empty(), "only in docs/page.md: {unknown:?}");
}

/// Whatever is asked for, a key that nobody knows is not dropped in silence.
#[test]
fn every_address_refuses_a_key_that_it_does_not_know() {
    let (_folder, place) = with_demo();
    let served = Served::with(&[&place]);
    for address in addresses() {
        let slug = match address.trim_start_matches("/api").split('/').nth(1) {
            Some("flights") => "flight",
            Some("strips") => "strip",
            Some("aeroplanes") => "aeroplane",
            _ => "n",
        };
        let name = if address.starts_with("/assets") { "page.css" } else { "profile.svg" };
        let path = address
            .replace("{slug}", slug)
            .replace("{id}", "1")
            .replace("{kind}", "movement")
            .replace("{command}", "year")
            .replace("{name}", name)
            .replace("{digest}", &"0".repeat(64));
        // What must be stated is stated, so that the key alone is wrong.
        let stated = match address {
            "/api/compare" | "/compare" => "flight=flight&",
            "/flights/{slug}/masses/place" => "movement=landing&temperature=14+degC&headwind=9+kt&",
            "/flights/{slug}/year/hour" => "from=6-18&hour=12&",
            "/books/{slug}/map" | "/api/books/{slug}/map" => "strip=strip&",
            _ => "",
        };
        let path = format!("{path}?{stated}colour=red");
        let mut taken = 0;
        for method in ["GET", "POST"] {
            let own = [("Origin", served.url.as_str())];
            let answer = request(port(&served), method, &path, &own, "");
            if status(&answer) == "405" {
                continue;
            }
            taken += 1;
            assert_eq!(status(&answer), "422", "{method} {path}: {}", answer.1);
            for words in ["E206", "colour"] {
                assert!(answer.1.contains(words), "{method} {path}: {}", answer.1);
            }
        }
        assert!(taken > 0, "{path} takes neither");
    }
}
