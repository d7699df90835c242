//! `hardpan serve` from outside, without a browser: what it refuses, what it
//! says on every answer, and its JSON.

mod apart;
mod calendar;
mod certainty;
#[path = "../browser/driver.rs"]
#[allow(dead_code)]
mod driver;
mod export;
mod import;
mod keeping;
mod kept;
mod mending;
mod mistakes;
mod opened;
mod picture_form;
mod programs;
mod strip_state;

use driver::{Served, request};
use serde_json::Value;
use std::process::Command;

fn port(served: &Served) -> u16 {
    let port = served.url.rsplit_once(':').and_then(|(_, port)| port.parse().ok());
    port.expect("the address ends with a port")
}

fn get(served: &Served, path: &str) -> (String, String) {
    request(port(served), "GET", path, &[], "")
}

fn status(answer: &(String, String)) -> &str {
    answer.0.split(' ').nth(1).unwrap_or_default()
}

fn json(answer: &(String, String)) -> Value {
    let text = if answer.0.to_ascii_lowercase().contains("transfer-encoding: chunked") {
        panic!("a document of unknown length");
    } else {
        &answer.1
    };
    serde_json::from_str(text).unwrap_or_else(|error| panic!("{error}: {text}"))
}

#[test]
fn no_other_machine_is_let_in() {
    for address in ["0.0.0.0:0", "[::]:0", "192.0.2.1:8642"] {
        let out = Command::new(env!("CARGO_BIN_EXE_hardpan"))
            .args(["serve", "--listen", address])
            .output()
            .expect("the program starts");
        assert_eq!(out.status.code(), Some(2), "{address}");
        let said = String::from_utf8_lossy(&out.stderr);
        assert!(said.contains("needs accounts and encryption"), "{said}");
    }
}

#[test]
fn an_address_is_in_numbers_or_this_machine() {
    let served = Served::at("localhost:0", &[]);
    assert!(served.url.starts_with("http://127.0.0.1:"), "{}", served.url);
    let out = Command::new(env!("CARGO_BIN_EXE_hardpan"))
        .args(["serve", "--listen", "strip.example:9199"])
        .output()
        .expect("the program starts");
    assert_eq!(out.status.code(), Some(2));
    let said = String::from_utf8_lossy(&out.stderr);
    assert!(said.contains("such as 127.0.0.1:8642") && said.contains("localhost"), "{said}");
}

#[test]
fn a_folder_that_is_none_is_refused() {
    let out = Command::new(env!("CARGO_BIN_EXE_hardpan"))
        .args(["serve", "no-such-folder"])
        .output()
        .expect("the program starts");
    assert_eq!(out.status.code(), Some(2));
    assert!(String::from_utf8_lossy(&out.stderr).contains("not a folder"));
}

#[test]
fn a_name_that_was_turned_to_this_machine_is_refused() {
    let served = Served::demo();
    for host in ["flights.example.org", "localhost.example.org:80", "169.254.0.1"] {
        let answer = request(port(&served), "GET", "/", &[("Host", host)], "");
        assert_eq!(status(&answer), "421", "{host}");
        assert!(!answer.1.contains("Long Gravel"));
    }
    let own = request(port(&served), "GET", "/", &[("Host", "localhost:1")], "");
    assert_eq!(status(&own), "200");
}

#[test]
fn another_site_may_not_read() {
    let served = Served::demo();
    let foreign = [("Sec-Fetch-Site", "cross-site"), ("Sec-Fetch-Mode", "no-cors")];
    let answer = request(port(&served), "GET", "/api/entries", &foreign, "");
    assert_eq!(status(&answer), "403");
}

#[test]
fn every_answer_carries_the_rules_of_the_house() {
    let served = Served::demo();
    for path in ["/", "/assets/page.js", "/api/rules", "/nothing-here"] {
        let (head, _) = get(&served, path);
        let head = head.to_ascii_lowercase();
        for rule in [
            "content-security-policy: default-src 'none'; script-src 'self'",
            "x-content-type-options: nosniff",
            "referrer-policy: same-origin",
            "x-frame-options: deny",
            "cross-origin-resource-policy: same-origin",
        ] {
            assert!(head.contains(rule), "{path} lacks {rule}: {head}");
        }
        assert!(!head.contains("strict-transport"), "{path}: without encryption it means nothing");
        assert!(!head.contains("unsafe-inline") && !head.contains("access-control"), "{path}");
    }
}

#[test]
fn nothing_outside_the_list_can_be_opened() {
    let served = Served::demo();
    for path in [
        "/flights/..%2f..%2fetc%2fpasswd",
        "/flights/%2e%2e/%2e%2e/etc/passwd",
        "/assets/..%2fpage.css",
        "/assets/../../Cargo.toml",
        "/strips/demo.flight",
        "/strips/demo.strip/figures/..%2f..%2fx.svg",
        "/flights/demo.flight%00",
        "/flights/",
    ] {
        let answer = get(&served, path);
        assert!(["404", "400"].contains(&status(&answer)), "{path}: {}", answer.0);
        assert!(!answer.1.contains("root:"), "{path}");
    }
}

#[test]
fn nothing_is_written_by_any_method() {
    let served = Served::demo();
    for method in ["POST", "PUT", "DELETE", "PATCH"] {
        let path = "/flights/demo.flight";
        let answer = request(port(&served), method, path, &[], "a=1");
        assert_eq!(status(&answer), "403", "{method} without a page");
        let answer = request(port(&served), method, path, &[("Origin", &served.url)], "a=1");
        assert_eq!(status(&answer), "405", "{method}");
    }
}

#[test]
fn words_of_a_file_stay_words() {
    let folder = tempfile::tempdir().expect("a folder");
    let flight = "kind = \"flight\"\nname = \"<script>alert(1)</script>\"\n";
    std::fs::write(folder.path().join("flight.toml"), flight).expect("it is written");
    let served = Served::with(&[&folder.path().to_string_lossy()]);
    for path in ["/", "/flights/flight"] {
        let (head, body) = get(&served, path);
        assert!(head.contains("200"), "{path}: {head}");
        assert!(!body.contains("<script>alert"), "{path}");
        assert!(body.contains("&lt;script&gt;alert"), "{path}");
    }
}

#[test]
fn a_flight_with_mistakes_shows_file_line_and_column() {
    let folder = tempfile::tempdir().expect("a folder");
    let flight = "kind = \"flight\"\nname = \"Broken\"\n[landing]\nmass = \"9 bananas\"\n";
    std::fs::write(folder.path().join("flight.toml"), flight).expect("it is written");
    let served = Served::with(&[&folder.path().to_string_lossy()]);
    let page = get(&served, "/flights/flight");
    assert_eq!(status(&page), "422");
    assert!(page.1.contains("flight.toml:4:"), "{}", page.1);
    let answer = get(&served, "/api/flights/flight");
    assert_eq!(status(&answer), "422");
    let trouble = json(&answer);
    let mistake = &trouble["mistakes"][0];
    assert_eq!(mistake["line"], 4);
    assert!(mistake["message"].as_str().is_some_and(|said| said.contains("bananas")), "{mistake}");
}

#[test]
fn the_json_is_that_of_the_command() {
    let served = Served::demo();
    let from_page = json(&get(&served, "/api/flights/demo.flight"));
    let demo = concat!(env!("CARGO_MANIFEST_DIR"), "/../../demo/flight.toml");
    let out = Command::new(env!("CARGO_BIN_EXE_hardpan"))
        .args(["assess", "--json", demo])
        .output()
        .expect("the program starts");
    let from_command: Value = serde_json::from_slice(&out.stdout).expect("it prints JSON");
    let codes = |value: &Value| -> Vec<(Value, Value)> {
        let findings = value["findings"].as_array().expect("findings");
        findings.iter().map(|one| (one["code"].clone(), one["value"].clone())).collect()
    };
    assert_eq!(from_page["answer"], from_command["answer"]);
    assert_eq!(codes(&from_page), codes(&from_command));
    assert_eq!(from_page["produced"]["identifier"], from_command["produced"]["identifier"]);
}

#[test]
fn the_json_answers_to_its_description() {
    let served = Served::demo();
    let description = json(&get(&served, "/api/openapi.json"));
    assert_eq!(description["openapi"], "3.1.0");
    for (path, schema) in [
        ("/api/flights/demo.flight?take_off.mass=38+t", "Assessment"),
        ("/api/flights/demo.flight/masses?temperatures=14+degC&headwinds=9+kt", "Masses"),
        ("/api/flights/demo.flight/masses?temperatures=14", "Trouble"),
        ("/api/strips/demo.strip", "Dossier"),
        ("/api/aeroplanes/demo.aeroplane", "Aeroplane"),
        ("/api/compare?flight=demo.flight&both-ends=yes", "Comparison"),
        ("/api/flights/demo.flight/bearing?passes=1,100", "Bearing"),
        ("/api/flights/demo.flight/confidence?draws=128", "Confidence"),
        ("/api/flights/demo.flight/remedies", "Remedies"),
        ("/api/flights/demo.flight/weeks", "Weeks"),
        ("/api/flights/demo.flight/year", "Year"),
        ("/api/flights/demo.flight/year?landing=heavy", "Trouble"),
        ("/api/flights/demo.flight?take_off.mass=38", "Trouble"),
    ] {
        let answer = json(&get(&served, path));
        let mut schema = description["components"]["schemas"][schema].clone();
        schema["components"] = description["components"].clone();
        let validator = jsonschema::validator_for(&schema).expect("the schema is one");
        let wrong: Vec<String> = validator.iter_errors(&answer).map(|e| e.to_string()).collect();
        assert!(wrong.is_empty(), "{path}: {wrong:#?}");
    }
    for (path, item) in description["paths"].as_object().expect("paths") {
        if item.get("get").is_none() {
            assert!(item["post"]["operationId"].is_string(), "{path}");
            continue;
        }
        let slug = match path.as_str() {
            "/api/strips/{slug}" => "demo.strip",
            "/api/aeroplanes/{slug}" => "demo.aeroplane",
            _ => "demo.flight",
        };
        let axes = "?temperatures=14+degC&headwinds=9+kt";
        let query = match path.as_str() {
            "/api/flights/{slug}/masses" => axes,
            "/api/compare" => "?flight=demo.flight",
            "/api/flights/{slug}/station" => "?at=640+m",
            "/api/flights/{slug}/hour" => "?from=6-18&hour=12",
            _ => "",
        };
        let answer = get(
            &served,
            &(path.replace("{slug}", slug).replace("{id}", "1").replace("{kind}", "movement")
                + query),
        );
        // The demo has no book.
        let expected = if path.contains("books") { "404" } else { "200" };
        assert_eq!(status(&answer), expected, "{path}: {}", answer.1);
        assert!(item["get"]["operationId"].is_string());
    }
}

#[test]
fn every_document_carries_the_caution() {
    let served = Served::demo();
    for path in ["/api/rules", "/api/entries", "/api/flights/demo.flight/lesson"] {
        let told = json(&get(&served, path));
        assert_eq!(told["caution"].as_str(), Some(hardpan_assess::CAUTION), "{path}");
    }
}

#[test]
fn errors_for_programs_are_sentences() {
    let served = Served::demo();
    for (path, code) in [
        ("/api/flights/none", "404"),
        ("/api/flights/demo.flight?units=furlongs", "400"),
        ("/api/flights/demo.flight?landing.mass=soft", "422"),
        ("/api/flights/demo.flight?strip.length=9+km", "422"),
        ("/api/flights/demo.flight/dream", "404"),
        ("/api/flights/demo.flight/confidence?draws=9", "400"),
        ("/api/flights/demo.flight/bearing?passes=0", "400"),
        ("/api/flights/demo.flight/year?landing=0+t", "400"),
        ("/api/compare", "400"),
    ] {
        let answer = get(&served, path);
        assert_eq!(status(&answer), code, "{path}");
        let said = json(&answer);
        assert!(said["error"].as_str().is_some_and(|text| text.ends_with('.')), "{path}: {said}");
    }
}

fn with_book() -> (tempfile::TempDir, Served) {
    let folder = tempfile::tempdir().expect("a folder");
    let book = folder.path().join("north.book");
    let done = Command::new(env!("CARGO_BIN_EXE_hardpan"))
        .arg("book")
        .arg(&book)
        .args(["add", "inspection", "strip=North", "at=2026-06-18T09:00:00Z", "rut=0 mm"])
        .args(["water=0 mm", "--by", "Ada"])
        .status()
        .expect("the program starts");
    assert!(done.success());
    let served = Served::with(&[&folder.path().to_string_lossy()]);
    (folder, served)
}

fn token(served: &Served) -> String {
    let (_, page) = get(served, "/books/north");
    let token =
        page.split("name=\"token\" value=\"").nth(1).and_then(|rest| rest.split('"').next());
    token.expect("the forms carry a token").to_owned()
}

fn entries(served: &Served) -> usize {
    let book = json(&get(served, "/api/books/north"));
    let kinds = book.as_object().expect("a list for each kind").values();
    kinds.filter_map(|kind| kind.as_array()).map(Vec::len).sum()
}

#[test]
fn only_our_own_form_records_and_it_records_whole() {
    let (_folder, served) = with_book();
    let token = token(&served);
    let form = "record=movement&strip=North&kind=landing&tail=101&at=2026-06-18T15%3A00%3A00Z\
                &mass=39.6+t&by=Ada";
    let good = format!("{form}&token={token}");
    let send = |headers: &[(&str, &str)], body: &str| {
        request(port(&served), "POST", "/books/north/add", headers, body)
    };
    let own = [("Origin", served.url.as_str())];
    let foreign: [&[(&str, &str)]; 4] = [
        &[],
        &[("Origin", "http://flights.example.org")],
        &[("Origin", "null")],
        &[("Origin", "http://127.0.0.1:1")],
    ];
    for headers in foreign {
        assert_eq!(status(&send(headers, &good)), "403", "{headers:?}");
    }
    assert_eq!(status(&send(&own, form)), "403", "no token");
    assert_eq!(status(&send(&own, &format!("{form}&token={token}0"))), "403", "another token");
    assert_eq!(entries(&served), 1, "something was recorded");
    for wrong in ["&mass=39.6", "&colour=red", "&tail=", "&at=yesterday"] {
        let name = wrong.trim_start_matches('&').split('=').next().unwrap_or_default();
        let rest = form.split('&').filter(|part| !part.starts_with(&format!("{name}=")));
        let body = format!("{}{wrong}&token={token}", rest.collect::<Vec<_>>().join("&"));
        let answer = send(&own, &body);
        assert_eq!(status(&answer), "422", "{wrong}");
        assert!(answer.1.contains("Not recorded."), "{wrong}");
    }
    let huge = format!("{good}&remarks={}", "x".repeat(100_000));
    assert_eq!(status(&send(&own, &huge)), "413");
    assert_eq!(entries(&served), 1, "something was recorded");
    let answer = send(&own, &good);
    assert_eq!(status(&answer), "303", "{}", answer.1);
    assert_eq!(entries(&served), 2);
}

#[test]
fn words_in_a_book_stay_words() {
    let (_folder, served) = with_book();
    let body = format!(
        "record=closure&strip=North&action=closed&from=2026-06-18T15%3A00%3A00Z\
         &reason=%3Cscript%3Ealert(1)%3C%2Fscript%3E&by=%3Cb%3EAda&token={}",
        token(&served)
    );
    let own = [("Origin", served.url.as_str())];
    let answer = request(port(&served), "POST", "/books/north/add", &own, &body);
    assert_eq!(status(&answer), "303", "{}", answer.1);
    let (_, page) = get(&served, "/books/north?strip=North&inspected-within=7+d");
    assert!(!page.contains("<script>alert") && !page.contains("<b>Ada"));
    assert!(page.contains("&lt;script&gt;alert"));
    assert!(page.contains("closed"));
}

#[test]
fn fifty_readers_get_the_same_whole_answer() {
    let served = Served::demo();
    let first = get(&served, "/api/flights/demo.flight");
    let port = port(&served);
    let readers: Vec<_> = (0..50)
        .map(|_| {
            std::thread::spawn(move || {
                let read = || request(port, "GET", "/api/flights/demo.flight", &[], "");
                (0..4).map(|_| read()).collect::<Vec<_>>()
            })
        })
        .collect();
    for reader in readers {
        for answer in reader.join().expect("a reader") {
            assert_eq!(status(&answer), "200");
            assert_eq!(answer.1, first.1, "an answer differs");
        }
    }
}

#[test]
fn flights_are_ranked_by_their_ends() {
    let served = Served::demo();
    let (head, page) = get(&served, "/compare?flight=demo.flight&both-ends=yes");
    assert!(head.contains("200"), "{head}");
    assert!(page.contains("landing 25, take-off 25") && page.contains("landing 07"));
    assert_eq!(status(&get(&served, "/compare")), "400");
    assert_eq!(status(&get(&served, "/compare?flight=none")), "404");
}

#[test]
fn a_flight_gives_its_lesson_its_climb_and_no_endless_table() {
    let served = Served::demo();
    for name in ["lesson.pdf", "handout.pdf"] {
        let answer = get(&served, &format!("/flights/demo.flight/{name}"));
        assert_eq!(status(&answer), "200", "{name}");
        assert!(answer.1.starts_with("%PDF-"), "{name}");
    }
    let climb = get(&served, "/flights/demo.flight/climb.svg");
    assert!(climb.1.starts_with("<svg") || climb.1.starts_with("<?xml"), "{}", climb.0);
    let many: String = (0..40).map(|n| format!("{n}+degC,")).collect();
    let path = format!("/flights/demo.flight/masses?temperatures={many}&headwinds=0+kt,9+kt");
    let answer = get(&served, &path);
    assert_eq!(status(&answer), "422");
    assert!(answer.1.contains("ask for at most"), "{}", answer.1);
}

/// Sentences are in the units that were asked for, whoever asked before.
#[test]
fn sentences_for_programs_follow_the_reader() {
    let served = Served::demo();
    let said = |query: &str| {
        let mut body = json(&get(&served, &format!("/api/flights/demo.flight{query}")));
        body["account"].take()
    };
    let (metric, imperial) = (said(""), said("?units=imperial"));
    assert!(metric.as_array().is_some_and(|all| !all.is_empty()));
    assert_ne!(metric, imperial);
    assert_eq!((said(""), said("?units=imperial")), (metric, imperial));
}

/// A browser that hangs up ends the work on its advice: the processor time that is spent
/// for it stays well under that of an answer that somebody waits for.
#[test]
#[cfg(target_os = "linux")]
fn advice_that_nobody_waits_for_is_given_up() {
    use std::io::Write as _;
    let served = Served::demo();
    let spent = || -> u64 {
        let stat = std::fs::read_to_string(format!("/proc/{}/stat", served.number()));
        let stat = stat.expect("the process runs");
        // Its name stands in brackets; user and system time are the 12th and 13th after it.
        let rest = stat.rsplit_once(')').expect("a name").1;
        rest.split_whitespace()
            .skip(11)
            .take(2)
            .map(|ticks| ticks.parse::<u64>().unwrap_or(0))
            .sum()
    };
    let quiet = || {
        let mut before = spent();
        loop {
            std::thread::sleep(std::time::Duration::from_millis(400));
            let now = spent();
            if now <= before + 1 {
                return now;
            }
            before = now;
        }
    };
    let path = |mass: &str| format!("/api/flights/demo.flight?take_off.mass={mass}+t");
    assert_eq!(status(&get(&served, &path("38"))), "200");
    let begun = quiet();
    assert_eq!(status(&get(&served, &path("37.8"))), "200");
    let whole = quiet() - begun;
    let begun = quiet();
    let mut stream =
        std::net::TcpStream::connect(("127.0.0.1", port(&served))).expect("it listens");
    let head =
        format!("GET {} HTTP/1.1\r\nHost: 127.0.0.1:{}\r\n\r\n", path("37.6"), port(&served));
    stream.write_all(head.as_bytes()).expect("it takes the request");
    std::thread::sleep(std::time::Duration::from_millis(50));
    drop(stream);
    let given_up = quiet() - begun;
    assert!(2 * given_up < whole, "{given_up} of {whole} ticks were spent for nobody");
    // Whoever asks again is answered.
    assert_eq!(status(&get(&served, &path("37.6"))), "200");
}

/// A place of the tables of masses opens to its steps, and tells there what the table
/// tells.
#[test]
fn a_place_of_the_masses_opens_to_its_basis() {
    let served = Served::demo();
    let axes = "temperatures=14+degC&headwinds=9+kt";
    let (_, page) = get(&served, &format!("/flights/demo.flight/masses?{axes}"));
    let cells: Vec<&str> = page.split("<td><a href=\"").skip(1).collect();
    assert_eq!(cells.len(), 2, "take-off and landing");
    for cell in cells {
        let (address, rest) = cell.split_once("\">").expect("a link");
        let told = rest.split("<strong>").nth(1).and_then(|rest| rest.split('<').next());
        let code = rest.split("class=\"of\">").nth(1).and_then(|rest| rest.split('<').next());
        let (told, code) = (told.expect("a mass"), code.expect("a code"));
        let answer = get(&served, &address.replace("&amp;", "&"));
        assert_eq!(status(&answer), "200", "{address}");
        let place = answer.1;
        let same = format!("<strong>{}</strong>", told.replace('\u{a0}', " "));
        assert!(place.replace('\u{a0}', " ").contains(&same), "{told}: {place}");
        assert!(place.contains(&format!("<h2>{code} ")), "{code}");
        assert!(place.contains("class=\"steps\"") && place.contains("Planning aid only"));
    }
    for (query, code) in [
        ("movement=landing&temperature=14&headwind=9+kt", "400"),
        ("movement=taxi&temperature=14+degC&headwind=9+kt", "400"),
        ("movement=landing&temperature=14+degC", "400"),
    ] {
        let path = format!("/flights/demo.flight/masses/place?{query}");
        assert_eq!(status(&get(&served, &path)), code, "{query}");
    }
}
