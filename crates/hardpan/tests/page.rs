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
        assert!(said.contains("needs accounts and encryption"), "{said}");
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
            "referrer-policy: same-origin",
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
        ("/api/flights/demo.flight/masses?temperatures=14+degC", "Trouble"),
        ("/api/strips/demo.strip", "Dossier"),
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
        let slug = if path.contains("strips") { "demo.strip" } else { "demo.flight" };
        let axes = "?temperatures=14+degC&headwinds=9+kt";
        let query = match path.as_str() {
            "/api/flights/{slug}/masses" => axes,
            "/api/compare" => "?flight=demo.flight",
            _ => "",
        };
        let answer = get(&served, &(path.replace("{slug}", slug).replace("{id}", "1") + query));
        // The demo has no book.
        let expected = if path.contains("books") { "404" } else { "200" };
        assert_eq!(status(&answer), expected, "{path}: {}", answer.1);
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
    kinds.map(|kind| kind.as_array().expect("a list").len()).sum()
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
    let (_, page) = get(&served, "/books/north?strip=North&within=7+d");
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
    let (head, page) = get(&served, "/compare?flight=demo.flight&ends=both");
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

/// What a program or a field log sends: once under a mark, and nothing without the
/// token.
#[test]
fn a_record_sent_twice_stands_once_and_a_double_is_said() {
    let (_folder, served) = with_book();
    let session = json(&get(&served, "/api/session"));
    assert_eq!(session["account"], Value::Null);
    let token = session["token"].as_str().expect("a token").to_owned();
    let send = |token: &str, body: &str| {
        let own = [("Origin", served.url.as_str()), ("X-Hardpan-Token", token)];
        request(port(&served), "POST", "/api/books/north/entries", &own, body)
    };
    let landing = |mark: &str, more: &str| {
        format!(
            "{{\"mark\": \"{mark}\", \"record\": \"movement\", \"by\": \"Ada\"{more}, \"fields\": \
             {{\"strip\": \"North\", \"tail\": \"101\", \"kind\": \"landing\", \"mass\": \"39.6 t\", \
             \"at\": \"2026-06-18T15:00:00Z\"}}}}"
        )
    };
    assert_eq!(status(&send("", &landing("field-0001", ""))), "403");
    assert_eq!(status(&send(&token[1..], &landing("field-0001", ""))), "403");
    assert_eq!(entries(&served), 1);
    let first = send(&token, &landing("field-0001", ""));
    assert_eq!(status(&first), "201", "{}", first.1);
    let again = send(&token, &landing("field-0001", ""));
    assert_eq!((status(&again), json(&again)["known"].as_bool()), ("200", Some(true)));
    assert_eq!(json(&first)["entry"], json(&again)["entry"]);
    let double = send(&token, &landing("field-0002", ""));
    assert_eq!(status(&double), "409");
    assert!(json(&double)["error"].as_str().is_some_and(|said| said.contains("entry 2 by Ada")));
    assert_eq!(entries(&served), 2);
    let other = landing("field-0001", "").replace("39.6", "38");
    assert_eq!(status(&send(&token, &other)), "409", "a mark is of one record");
    assert_eq!(status(&send(&token, &landing("field-0002", ", \"anyway\": true"))), "201");
    assert_eq!(entries(&served), 3);
    for (body, code) in [
        ("{", "400"),
        ("[]", "400"),
        (&*landing("field-0003", "").replace("movement", "flight"), "400"),
        (&landing("field-0003", ", \"colour\": 1"), "400"),
        (&landing("field-0003", "").replace("39.6 t", "39.6"), "422"),
        (&landing("no", ", \"anyway\": true"), "409"),
    ] {
        let answer = send(&token, body);
        assert_eq!(status(&answer), code, "{body}: {}", answer.1);
        assert!(json(&answer)["error"].as_str().is_some_and(|said| said.ends_with('.')), "{body}");
    }
    assert_eq!(entries(&served), 3);
}

/// A plan is read before it is kept, stands under a name of its own, and is nobody's
/// way to any other file.
#[test]
fn a_plan_is_kept_whole_and_nothing_else_is_touched() {
    let folder = tempfile::tempdir().expect("a folder");
    let made = Command::new(env!("CARGO_BIN_EXE_hardpan"))
        .args(["new", "demo"])
        .arg(folder.path().join("flights"))
        .output()
        .expect("the program starts");
    assert!(made.status.success(), "{}", String::from_utf8_lossy(&made.stderr));
    let served = Served::with(&[&folder.path().to_string_lossy()]);
    let (_, form) = get(&served, "/plan?strip=flights.strip&aeroplane=flights.aeroplane");
    let token =
        form.split("name=\"token\" value=\"").nth(1).and_then(|rest| rest.split('"').next());
    let token = token.expect("a token");
    let own = [("Origin", served.url.as_str())];
    let send = |body: &str| request(port(&served), "POST", "/plan", &own, body);
    let plan = |name: &str, more: &str| {
        format!("strip=flights.strip&aeroplane=flights.aeroplane&name={name}&token={token}{more}")
    };
    let landing = "&landing.mass=39+t&landing.flap=40&landing.direction=25&landing.rule=landing-60";
    assert_eq!(status(&send(&plan("Relief", landing).replace(token, "0"))), "403");
    for (name, more) in [
        ("Relief", "&landing.mass=39"),
        ("Relief", "&landing.wings=2"),
        ("Relief", "&day.colour=red"),
        ("Relief", "&colour=red"),
        ("..%2F..", landing),
        ("Relief", "&landing.mass=39+t%22%0Aname+%3D+%22x"),
    ] {
        let answer = send(&plan(name, more));
        assert_eq!(status(&answer), "422", "{name}{more}: {}", answer.1);
    }
    let files = || {
        let names = std::fs::read_dir(folder.path()).expect("a folder").flatten();
        let mut names: Vec<String> =
            names.map(|one| one.file_name().to_string_lossy().into_owned()).collect();
        names.sort();
        names
    };
    assert_eq!(files(), ["flights"], "something was kept");
    for expected in ["/flights/planned-relief-1", "/flights/planned-relief-1-2"] {
        let answer = send(&plan("..%2FRelief+1", landing));
        assert_eq!(status(&answer), "303", "{}", answer.1);
        assert!(answer.0.contains(expected), "{}", answer.0);
        assert_eq!(status(&get(&served, expected)), "200");
    }
    assert_eq!(files().len(), 5, "{:?}", files());
    for path in ["/aeroplanes/flights.aeroplane", "/flights/planned-relief-1/lesson"] {
        assert_eq!(status(&get(&served, path)), "200", "{path}");
    }
    let year = get(&served, "/flights/planned-relief-1/year");
    assert_eq!(status(&year), "200", "{}", year.1);
    assert!(year.1.contains("Hours in UTC") && year.1.contains("By month"), "{}", year.1);
}

/// A file that is brought names no path, arrives whole and in bounds, and is kept
/// only when it can be read.
#[test]
fn a_survey_that_is_brought_stays_in_its_place() {
    use std::io::{Read as _, Write as _};
    let folder = tempfile::tempdir().expect("a folder");
    let flights = folder.path().join("flights");
    let made =
        Command::new(env!("CARGO_BIN_EXE_hardpan")).args(["new", "demo"]).arg(&flights).output();
    assert!(made.expect("the program starts").status.success());
    let good = std::fs::read_to_string(flights.join("ruts.csv")).expect("the demo has ruts");
    let served = Served::with(&[&flights.to_string_lossy()]);
    let (_, form) = get(&served, "/strips/strip/bring");
    let token =
        form.split("name=\"token\" value=\"").nth(1).and_then(|rest| rest.split('"').next());
    let token = token.expect("a token");
    let field = |name: &str, value: &str| {
        format!("--x\r\nContent-Disposition: form-data; name=\"{name}\"\r\n\r\n{value}\r\n")
    };
    let file = |name: &str, text: &str| {
        format!(
            "--x\r\nContent-Disposition: form-data; name=\"file\"; filename=\"{name}\"\r\n\r\n{text}\r\n"
        )
    };
    let head = field("token", token) + &field("what", "ruts") + &field("date", "2026-06-19");
    let sent = |headers: &[(&str, &str)], body: &str| {
        let own =
            [("Content-Type", "multipart/form-data; boundary=x"), ("Origin", served.url.as_str())];
        let headers: Vec<_> = own.iter().chain(headers).copied().collect();
        request(port(&served), "POST", "/strips/strip/bring", &headers, body)
    };
    let kept = || {
        let names = std::fs::read_dir(flights.join("received")).into_iter().flatten().flatten();
        let names = names.map(|one| one.file_name().to_string_lossy().into_owned());
        let mut names: Vec<String> = names.filter(|name| name != ".part").collect();
        names.sort();
        names
    };
    let end = "--x--\r\n";
    let refused = [
        (file("a.csv", &good) + &head + end, "403", "the file before the token"),
        (field("token", "0") + &file("a.csv", &good) + end, "403", "another token"),
        (head.clone() + &file("a.exe", &good) + end, "422", "a program"),
        (head.clone() + &file("a.csv", "") + end, "422", "nothing"),
        (head.clone() + &file("a.csv", "\u{0}\u{1}\u{2}") + end, "422", "no text"),
        (
            head.clone() + &file("a.csv", &good.replace("station_m", "place")) + end,
            "422",
            "no rows",
        ),
        (head.clone() + &file("a.csv", &good), "400", "no end"),
        (head.clone() + end, "422", "no file"),
        ("--y\r\n".to_owned(), "400", "another boundary"),
        (field("token", &"t".repeat(5000)) + end, "413", "a long value"),
        (
            field("token", token) + &field("what", "../ruts") + &file("a.csv", &good) + end,
            "422",
            "what",
        ),
        (
            field("token", token)
                + &field("what", "ruts")
                + &field("date", "../x")
                + &file("a.csv", &good)
                + end,
            "422",
            "date",
        ),
    ];
    for (body, code, what) in &refused {
        let answer = sent(&[], body);
        assert_eq!(status(&answer), *code, "{what}: {}", answer.1);
        assert!(kept().is_empty(), "{what}: {:?}", kept());
    }
    for name in ["../../../escaped.csv", "..\\escaped.csv", "/escaped.csv"] {
        let answer = sent(&[], &(head.clone() + &file(name, &good) + end));
        assert_eq!(status(&answer), "200", "{name}: {}", answer.1);
    }
    let names = ["2026-06-19-escaped-2.csv", "2026-06-19-escaped-3.csv", "2026-06-19-escaped.csv"];
    assert_eq!(kept(), names);
    assert!(!folder.path().join("escaped.csv").exists() && !flights.join("escaped.csv").exists());
    let parts = std::fs::read_dir(flights.join("received/.part")).expect("a folder").count();
    assert_eq!(parts, 0, "a part was left");
    // More than is taken is refused before a byte of it is read.
    let mut stream =
        std::net::TcpStream::connect(("127.0.0.1", port(&served))).expect("it listens");
    write!(
        stream,
        "POST /strips/strip/bring HTTP/1.1\r\nHost: 127.0.0.1:{}\r\nOrigin: {}\r\nContent-Type: \
         multipart/form-data; boundary=x\r\nContent-Length: 900000000\r\n\r\n--x\r\n",
        port(&served),
        served.url
    )
    .expect("it takes the head");
    let mut answer = [0_u8; 64];
    let count = stream.read(&mut answer).expect("it answers");
    assert!(String::from_utf8_lossy(&answer[..count]).contains(" 413 "));
    // A sender that breaks off leaves nothing.
    drop(stream);
    let demo = Served::demo();
    let (_, form) = get(&demo, "/strips/demo.strip/bring");
    assert!(form.contains("form"), "the demo has the page, and says where files are kept");
}

/// What an entry was, and what the ruts of a book say beside the law.
#[test]
fn an_entry_is_given_as_kept_and_the_law_is_held_to_the_ruts() {
    let folder = tempfile::tempdir().expect("a folder");
    let flights = folder.path().join("flights");
    let hardpan = |arguments: &[&str]| {
        let out = Command::new(env!("CARGO_BIN_EXE_hardpan")).args(arguments).output();
        out.expect("the program starts")
    };
    let place = flights.to_string_lossy();
    assert!(hardpan(&["new", "demo", &place]).status.success());
    let (flight, book) = (format!("{place}/flight.toml"), format!("{place}/long.book"));
    hardpan(&["assess", &flight, "--keep", &book, "--by", "Ada"]);
    for (day, tail) in [("2026-06-10", "101"), ("2026-06-11", "102")] {
        let at = format!("at={day}T15:00:00Z");
        let tail = format!("tail={tail}");
        let one = ["book", &book, "add", "movement", "strip=Long Gravel", "kind=landing"];
        let rest = [
            &*tail,
            &*at,
            "mass=39 t",
            "pressure=100 psi",
            "rolled_from=500 m",
            "rolled_to=1900 m",
            "--by",
            "Ada",
        ];
        assert!(hardpan(&[&one[..], &rest[..]].concat()).status.success());
    }
    for station in ["560 m", "660 m", "1400 m"] {
        let station = format!("rut_station={station}");
        let one =
            ["book", &book, "add", "inspection", "strip=Long Gravel", "at=2026-06-15T08:00:00Z"];
        let rest = ["rut=14 mm", &*station, "rut_lane=left main", "water=0 mm", "--by", "Ada"];
        assert!(hardpan(&[&one[..], &rest[..]].concat()).status.success());
    }
    let served = Served::with(&[&place]);
    let kept = json(&get(&served, "/api/books/long/entries/1"));
    assert_eq!(kept["format"], "hardpan-assessment");
    let again = json(&get(&served, "/api/books/long"))["assessment"][0]["json"].clone();
    let again: Value = serde_json::from_str(again.as_str().expect("a text")).expect("JSON");
    assert_eq!(kept, again, "an assessment is given as it was kept");
    assert_eq!(json(&get(&served, "/api/books/long/entries/2"))["fields"]["tail"], "101");
    assert_eq!(status(&get(&served, "/api/books/long/entries/99")), "404");
    let (head, page) = get(&served, "/books/long/ruts?strip=Long+Gravel&flight=flight");
    assert!(head.contains("200"), "{head}");
    for words in ["660", "left main", "G55", "ruts of the book.csv", "passes until then"] {
        assert!(page.contains(words), "the page does not say {words}");
    }
    let map = hardpan(&["book", &book, "map", &format!("{place}/strip.toml")]);
    assert_eq!(map.status.code(), Some(2), "the demo strip states no place on the globe");
    assert!(String::from_utf8_lossy(&map.stderr).contains("latitude"));
    let strip = std::fs::read_to_string(flights.join("strip.toml")).expect("a strip");
    let strip = strip
        .replace("[low_end]\n", "[low_end]\nlatitude = \"60.0 deg\"\nlongitude = \"10.0 deg\"\n")
        .replace(
            "[high_end]\n",
            "[high_end]\nlatitude = \"60.0066 deg\"\nlongitude = \"10.0329 deg\"\n",
        );
    std::fs::write(flights.join("strip.toml"), strip).expect("a writable folder");
    let map = hardpan(&["book", &book, "map", &format!("{place}/strip.toml"), "--lane", "2.6 m"]);
    let said = String::from_utf8_lossy(&map.stderr).into_owned();
    let map: Value =
        serde_json::from_slice(&map.stdout).unwrap_or_else(|error| panic!("{error}: {said}"));
    let kinds = map["features"].as_array().expect("features").iter();
    let kinds: Vec<&str> = kinds.filter_map(|one| one["properties"]["kind"].as_str()).collect();
    assert_eq!(kinds, ["axis", "movement", "movement", "rut", "rut", "rut"]);
    let passes = hardpan(&[
        "book",
        &book,
        "passes",
        "Long Gravel",
        "--file",
        &format!("{place}/strip.toml"),
    ]);
    let passes = String::from_utf8_lossy(&passes.stdout).replace('\u{a0}', " ");
    assert!(passes.contains("500–600 m: 2") && passes.contains("rut left main 14 mm"), "{passes}");
    assert!(passes.contains("0–100 m: 0"), "{passes}");
}
