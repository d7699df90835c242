//! What the page keeps: records, plans and surveys, each whole or not at all.

use crate::driver::{Served, request, request_of};
use crate::{entries, get, json, port, status, with_book};
use serde_json::Value;
use std::process::Command;

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
    assert_eq!(json(&get(&served, "/api/books/long/entries/6"))["fields"]["tail"], "101");
    let versions = json(&get(&served, "/api/books/long/kept"));
    let versions = &versions["versions"];
    assert_eq!(versions[1]["kind"], "strip");
    assert_eq!(versions[1]["assessments"][0], 1);
    let told =
        json(&get(&served, "/api/books/long/status?strip=Long+Gravel&inspected-within=100000+d"));
    assert_eq!(told["state"], "restricted", "no survey is recorded");
    assert_eq!(told["damage"]["movements"], 2);
    assert!(told["grading"]["not_told"].as_array().is_some_and(|all| !all.is_empty()), "{told}");
    let (_, page) = get(&served, "/books/long/kept");
    assert!(page.contains("Tail 101") && page.contains("assessment: entry 1"), "{page}");
    assert_eq!(status(&get(&served, "/api/books/long/entries/99")), "404");
    let (head, page) = get(&served, "/books/long/ruts?strip=Long+Gravel&flight=flight");
    assert!(head.contains("200"), "{head}");
    for words in ["660", "left main", "G55", "passes until then"] {
        assert!(page.contains(words), "the page does not say {words}");
    }
    let of_book = format!("{book} (entry 8, rut); recorded by Ada, ");
    assert!(page.contains(&of_book), "a rut does not name its entry: {page}");
    assert!(!page.contains("ruts.csv:") && !page.contains("ruts of the book"), "{page}");
    assert!(page.contains("no movement of `Tail 101` is recorded"), "{page}");
    let wrong = format!("{place}/wrong.book");
    std::fs::copy(&book, &wrong).expect("a copy");
    let one = ["book", &wrong, "add", "inspection", "strip=Long Gravel", "at=2026-06-15T09:00:00Z"];
    let rest =
        ["rut=1900 mm", "rut_station=700 m", "rut_lane=left main", "water=0 mm", "--by", "Bob"];
    assert!(hardpan(&[&one[..], &rest[..]].concat()).status.success());
    let (_, page) = get(&served, "/books/wrong/ruts?flight=flight&tail=101");
    for words in ["E306", "line 5 is entry 11, recorded by Bob, 20", "`hardpan book FILE ruts`"] {
        assert!(page.contains(words), "the page does not say {words}: {page}");
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
    let found = ["inspection", "rut"].repeat(3);
    assert_eq!(kinds, [&["axis", "movement", "movement"][..], &found].concat());
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

/// A picture goes in as bytes and comes out as nothing but a picture; what is none is
/// refused, whatever its sender calls it.
#[test]
fn a_picture_is_kept_once_and_given_out_as_a_picture_only() {
    let (_folder, served) = with_book();
    let token = json(&get(&served, "/api/session"))["token"].as_str().expect("one").to_owned();
    let own = [
        ("Origin", served.url.as_str()),
        ("X-Hardpan-Token", token.as_str()),
        ("Content-Type", "image/png"),
    ];
    let send = |id: &str, query: &str, body: &[u8]| {
        let path = format!("/api/books/north/entries/{id}/pictures?{query}");
        request_of(port(&served), ("POST", &path), &own, body)
    };
    let screens = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("../../docs/guide/src");
    let picture = std::fs::read(screens.join("screens/due.png")).expect("a picture");
    let said = "mark=field-0001&shown=rut+by+the+%3Cboot%3E&by=Ada&file=due.png";
    let first = send("1", said, &picture);
    assert_eq!(status(&first), "201", "{}", first.1);
    let again = send("1", said, &picture);
    assert_eq!((status(&again), json(&again)["known"].as_bool()), ("200", Some(true)));
    let digest = json(&first)["sha256"].as_str().expect("a digest").to_owned();
    let large = vec![0x89; 8 * 1024 * 1024 + 1];
    let other = said.replace("0001", "0002");
    for (id, query, body, code) in [
        ("1", other.as_str(), &b"<svg onload=\"x()\"/>"[..], "422"),
        ("1", &other, b"", "422"),
        ("1", &other, &large, "413"),
        ("1", &other, &picture, "422"),
        ("9", &other, &picture, "404"),
        ("x", &other, &picture, "404"),
        ("1", "shown=rut&by=Ada", &picture, "422"),
        ("1", "mark=field-0002&by=Ada", &picture, "422"),
        ("1", "mark=field-0002&shown=rut", &picture, "422"),
        ("1", "mark=no&shown=rut&by=Ada", &picture, "409"),
        ("1", &other, &picture[..picture.len() - 1], "422"),
    ] {
        let answer = send(id, query, body);
        assert_eq!(status(&answer), code, "{id} {query}: {}", answer.1);
    }
    let bare = [("Origin", served.url.as_str())];
    let path = "/api/books/north/entries/1/pictures?".to_owned() + &other;
    assert_eq!(status(&request_of(port(&served), ("POST", &path), &bare, &picture)), "403");
    assert_eq!(entries(&served), 2, "the inspection and its picture");

    let (head, _) = get(&served, &format!("/books/north/pictures/{digest}"));
    let head = head.to_ascii_lowercase();
    for line in [
        "200 ok",
        "content-type: image/png",
        "x-content-type-options: nosniff",
        "default-src 'none'",
        &format!("content-length: {}", picture.len()),
    ] {
        assert!(head.contains(line), "{line}: {head}");
    }
    for none in ["0".repeat(64), "..%2f..%2fetc%2fpasswd".to_owned(), "x".to_owned()] {
        assert_eq!(status(&get(&served, &format!("/books/north/pictures/{none}"))), "404");
    }
    let (_, page) = get(&served, "/books/north");
    assert!(page.contains("alt=\"rut by the &lt;boot&gt;; inspection of North"), "{page}");
    assert!(page.contains(&format!("src=\"/books/north/pictures/{digest}\"")));
}

/// The limits of grading are asked for on the page and of the API as of the command.
#[test]
fn the_depths_at_which_a_strip_is_graded_can_be_stated() {
    let (folder, served) = with_book();
    let file = folder.path().join("north.book");
    let add = |values: &[&str]| {
        let done = Command::new(env!("CARGO_BIN_EXE_hardpan"))
            .arg("book")
            .arg(&file)
            .arg("add")
            .args(values)
            .args(["--by", "Ada"])
            .output();
        assert!(done.expect("the program starts").status.success(), "{values:?}");
    };
    for (day, depth) in [("20", "10 mm"), ("22", "20 mm"), ("24", "30 mm")] {
        let at = format!("at=2026-06-{day}T09:00:00Z");
        let (rut, loose) = (format!("rut={depth}"), format!("loose={depth}"));
        let rest = ["rut_station=640 m", "rut_lane=left main", "loose_station=640 m", "water=0 mm"];
        add(&[&["inspection", "strip=North", &at, &rut, &loose], &rest[..]].concat());
        let at = format!("at=2026-06-{day}T12:00:00Z");
        add(&["movement", "strip=North", "tail=101", "kind=landing", &at, "mass=39.6 t"]);
    }
    let limits = |query: &str| -> Vec<(String, f64)> {
        let told = json(&get(&served, &format!("/api/books/north/status?strip=North{query}")));
        let places = told["grading"]["places"].as_array().expect("places").iter();
        places
            .map(|one| {
                let what = one["what"].as_str().expect("a word").to_owned();
                (what, one["limit_m"].as_f64().expect("a limit"))
            })
            .collect()
    };
    let usual = limits("");
    assert!(usual.iter().all(|(what, limit)| what == "rut" && *limit == 0.076), "{usual:?}");
    let stated = limits("&rut=50+mm&loose=4+in");
    assert!(stated.iter().any(|(what, limit)| what == "rut" && *limit == 0.05), "{stated:?}");
    let loose = stated.iter().find(|(what, _)| what != "rut").expect("loose material");
    assert!((loose.1 - 0.1016).abs() < 1e-12, "{stated:?}");
    for wrong in ["rut=50", "rut=0+mm", "loose=-1+mm", "loose=deep"] {
        let path = format!("/api/books/north/status?strip=North&{wrong}");
        assert_eq!(status(&get(&served, &path)), "400", "{wrong}");
        let (_, page) = get(&served, &format!("/books/north?strip=North&{wrong}"));
        assert!(page.contains("role=\"alert\""), "{wrong}");
    }
    let (_, page) = get(&served, "/books/north?strip=North&rut=50+mm&loose=100+mm");
    assert!(page.contains("value=\"50 mm\"") && page.contains("value=\"100 mm\""), "{page}");
    assert!(page.contains("loose"), "{page}");
}
