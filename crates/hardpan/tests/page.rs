//! `hardpan serve` from outside, without a browser: what it refuses, what it
//! says on every answer, and its JSON.

#[path = "browser/driver.rs"]
#[allow(dead_code)]
mod driver;

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
        assert!(said.contains("neither accounts nor encryption"), "{said}");
    }
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
            "referrer-policy: no-referrer",
            "x-frame-options: deny",
            "cross-origin-resource-policy: same-origin",
        ] {
            assert!(head.contains(rule), "{path} lacks {rule}: {head}");
        }
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
        let answer = request(port(&served), method, "/flights/demo.flight", &[], "a=1");
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
        ("/api/strips/demo.strip", "Dossier"),
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
        let slug = if path.contains("strips") { "demo.strip" } else { "demo.flight" };
        let answer = get(&served, &path.replace("{slug}", slug));
        assert_eq!(status(&answer), "200", "{path}");
        assert!(item["get"]["operationId"].is_string());
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
    ] {
        let answer = get(&served, path);
        assert_eq!(status(&answer), code, "{path}");
        let said = json(&answer);
        assert!(said["error"].as_str().is_some_and(|text| text.ends_with('.')), "{path}: {said}");
    }
}
