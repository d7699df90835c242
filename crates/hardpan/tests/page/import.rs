//! Files that are taken over on the page: all of one or nothing, with who first wrote
//! it, and mistakes told by line and column.

use crate::driver::{Served, request, request_of};
use crate::export::demo_on_globe;
use crate::{entries, get, json, port, status, token, with_book};
use serde_json::Value;
use std::process::Command;

const FORM: (&str, &str) = ("Content-Type", "multipart/form-data; boundary=x");
const HEAD: &str = "strip,tail,kind,at,mass\n";
const ROW: &str = "North,101,landing,2026-06-18T15:00Z,39.6 t\n";

fn part(name: &str, value: &str) -> String {
    format!("--x\r\nContent-Disposition: form-data; name=\"{name}\"\r\n\r\n{value}\r\n")
}

fn file(name: &str, text: &str) -> String {
    part(&format!("file\"; filename=\"{name}"), text)
}

fn send(served: &Served, path: &str, headers: &[(&str, &str)], body: &str) -> (String, String) {
    let own = [("Origin", served.url.as_str()), FORM];
    let headers: Vec<_> = own.iter().chain(headers).copied().collect();
    request(port(served), "POST", path, &headers, &format!("{body}--x--\r\n"))
}

fn csv(rows: &str) -> String {
    part("kind", "movement") + &file("moved.csv", &format!("{HEAD}{rows}"))
}

#[test]
fn good_files_are_taken_over_whole_with_who_first_wrote_them() {
    let (_folder, served) = with_book();
    let form = |values: &str| part("token", &token(&served)) + &part("by", "Bea") + values;
    let path = "/books/north/import";
    let page = get(&served, path).1;
    assert!(page.contains("multipart/form-data") && !page.contains("data-most"), "no script");
    let answer = send(
        &served,
        path,
        &[],
        &form(&csv(&format!("{ROW}\"North\",102,take-off,2026-06-18T17:00Z,87000 lb\n"))),
    );
    assert_eq!(status(&answer), "303", "{}", answer.1);
    let to = answer
        .0
        .lines()
        .find_map(|line| line.to_ascii_lowercase().strip_prefix("location: ").map(str::to_owned));
    let told = get(&served, to.expect("a place").trim()).1;
    assert!(told.contains("Recorded as entries 2 to 3."), "{told}");
    let map = "{\"type\": \"FeatureCollection\", \"features\": [{\"type\": \"Feature\", \
               \"geometry\": null, \"properties\": {\"kind\": \"damage\", \"strip\": \"North\", \
               \"tail\": \"101\", \"date\": \"2026-06-18\", \"zone\": \"flap\", \"phase\": \
               \"landing\", \"station\": \"640 m\", \"recorded_by\": \"Cid\"}}]}";
    let answer = send(&served, path, &[], &form(&file("seen.geojson", map)));
    assert_eq!(status(&answer), "303", "{}", answer.1);
    let whole = get(&served, "/api/books/north").1;
    let again = send(&served, path, &[], &form(&file("north.json", &whole)));
    assert!(again.0.contains("import?known=4"), "{}", again.0);
    let told = get(&served, "/books/north/import?known=4").1;
    assert!(told.contains("Nothing was recorded. 4 records stood in the book already"), "{told}");
    assert_eq!(entries(&served), 4, "nothing stands twice");
    let other = whole.replace("\"North\"", "\"North, old\"");
    let answer = send(&served, path, &[], &form(&file("north.json", &other)));
    assert_eq!(status(&answer), "303", "{}", answer.1);
    assert_eq!(entries(&served), 8);
    let book = json(&get(&served, "/api/books/north"));
    let told = |kind: &str, at: usize| {
        let row = &book[kind][at];
        ["recorded_by", "first_by"].map(|key| row[key].as_str().unwrap_or_default().to_owned())
    };
    assert_eq!(told("damage", 0), ["Bea", "Cid"]);
    assert_eq!(told("damage", 1), ["Bea", "Cid"], "the first of all");
    assert_eq!(told("inspection", 1), ["Bea", "Ada"]);
    assert_eq!(book["inspection"][1]["first_at"], book["inspection"][0]["recorded_at"]);
    let page = get(&served, "/books/north?strip=North%2C+old").1;
    assert!(page.contains("first written by Ada, 20"), "{page}");
}

#[test]
fn bad_files_are_told_by_line_and_column_and_nothing_is_recorded() {
    let (_folder, served) = with_book();
    let token = token(&served);
    let good = part("token", &token) + &part("by", "Bea");
    let later = "North,101,landing,2999-06-18T15:00Z,39.6 t\n";
    for (body, code, said) in [
        (csv(ROW) + &good, "403", "open it again"),
        (part("token", "0") + &part("by", "Bea") + &csv(ROW), "403", "open it again"),
        (part("token", &token) + &csv(ROW), "422", "Say who takes it over."),
        (good.clone() + &part("kind", "movement"), "422", "No file was sent"),
        (
            good.clone() + &csv(&format!("{ROW}{}", ROW.replace("39.6 t", "39.6"))),
            "422",
            "moved.csv: line 3, column 37: movement, mass: ",
        ),
        (
            good.clone() + &csv(&ROW.replace("landing", "flight")),
            "422",
            "moved.csv: line 2, column 11: ",
        ),
        (good.clone() + &csv(&format!("{ROW}{later}")), "422", "moved.csv: line 3, column 1: "),
        (good.clone() + &csv(&format!("{ROW}North\n")), "422", "moved.csv: line 3, column 1: "),
        (good.clone() + &csv(""), "422", "it holds no record"),
        (
            good.clone() + &csv(&ROW.replace("landing", "flight").replace("39.6 t", "39.6")),
            "422",
            "<li>moved.csv: line 2, column 11: movement, kind: ",
        ),
        (
            good.clone() + &csv(&ROW.replace("landing", "flight").replace("39.6 t", "39.6")),
            "422",
            "<li>moved.csv: line 2, column 36: movement, mass: ",
        ),
        (
            good.clone() + &csv(&ROW.replace("landing", "flight").repeat(60)),
            "422",
            "moved.csv has 60 mistakes. Nothing was recorded.",
        ),
        (good.clone() + &csv(&ROW.replace("landing", "x").repeat(60)), "422", "And 10 more."),
        (good.clone() + &file("moved.csv", &format!("{HEAD}{ROW}")), "422", "name the kind"),
        (good.clone() + &part("kind", "wheel") + &file("a.csv", HEAD), "422", "no wheel"),
        (
            good.clone() + &file("a.json", "{\n \"landing\": []}"),
            "422",
            "a.json: line 2, column 2: `landing`",
        ),
        (
            good.clone() + &file("a.json", "{\"closure\": [\n {\"id\": 1}]}"),
            "422",
            "a.json: line 2, column 2: ",
        ),
        (good.clone() + &file("a.json", "{\"closure\": ["), "422", "a.json: line 1, column 13: "),
        (
            good.clone()
                + &file(
                    "a.geojson",
                    "{\"type\": \"FeatureCollection\",\n\"features\": [{\"properties\": {}}]}",
                ),
            "422",
            "a.geojson: line 2, column 14: ",
        ),
        (good.clone() + &part("strip", "south") + &file("a.json", "{}"), "404", "no strip"),
        (part("by", &"b".repeat(5000)), "413", "over 400 bytes"),
        (good.clone() + &csv(ROW) + &csv(ROW), "422", "send one"),
        (
            good.clone() + &csv(ROW) + &part("picture\"; filename=\"a.png", "no picture"),
            "422",
            "a.png: ",
        ),
    ] {
        let answer = send(&served, "/books/north/import", &[], &body);
        assert_eq!(status(&answer), code, "{said}: {}", answer.1);
        let page = answer.1.replace("&quot;", "\"");
        assert!(page.contains(said), "{said}: {page}");
        assert_eq!(entries(&served), 1, "{said}: something was recorded");
    }
    let body = good + &csv(ROW) + "--x--\r\n";
    let foreign = [FORM, ("Origin", "http://flights.example.org")];
    let answer = request(port(&served), "POST", "/books/north/import", &foreign, &body);
    assert_eq!(status(&answer), "403", "from another site");
    let binary = [body.as_bytes(), b"\xff\xfe"].concat();
    let own = [FORM, ("Origin", served.url.as_str())];
    let cut = String::from_utf8_lossy(&binary).replace("--x--", "");
    let answer = request_of(port(&served), ("POST", "/books/north/import"), &own, cut.as_bytes());
    assert_eq!(status(&answer), "400", "{}", answer.1);
    assert_eq!(entries(&served), 1);
}

/// The interface for programs tells the same, with the place as numbers.
#[test]
fn a_program_takes_a_file_over_and_is_told_where_it_is_wrong() {
    let (_folder, served) = with_book();
    let path = "/api/books/north/import";
    let token = json(&get(&served, "/api/session"))["token"].as_str().expect("a token").to_owned();
    let own = [("X-Hardpan-Token", token.as_str())];
    let form = |rows: &str| part("by", "Bea") + &csv(rows);
    assert_eq!(status(&send(&served, path, &[], &form(ROW))), "403");
    let wrong = send(&served, path, &own, &form(&ROW.replace("39.6 t", "heavy")));
    assert_eq!(status(&wrong), "422", "{}", wrong.1);
    let mistake = &json(&wrong)["mistakes"][0];
    assert_eq!((mistake["line"].as_u64(), mistake["column"].as_u64()), (Some(2), Some(37)));
    assert_eq!(mistake["file"], "moved.csv");
    let rows = ROW.replace("39.6 t", "heavy") + &ROW.replace("landing", "flight").repeat(60);
    let wrong = send(&served, path, &own, &form(&rows));
    assert_eq!(status(&wrong), "422", "{}", wrong.1);
    let told = json(&wrong);
    assert_eq!((told["mistakes"].as_array().map(Vec::len), &told["more"]), (Some(50), &11.into()));
    assert_eq!(
        (&told["mistakes"][1]["line"], &told["mistakes"][1]["column"]),
        (&3.into(), &11.into())
    );
    assert_eq!(told["error"], "moved.csv has 61 mistakes. Nothing was recorded.");
    assert_eq!(entries(&served), 1);
    let answer = send(&served, path, &own, &form(ROW));
    assert_eq!(status(&answer), "201", "{}", answer.1);
    let told = serde_json::json!({ "first": 2, "last": 2, "count": 1, "known": 0 });
    assert_eq!(json(&answer), told);
    let answer = send(&served, path, &own, &form(ROW));
    assert_eq!(status(&answer), "200", "{}", answer.1);
    assert_eq!(json(&answer), serde_json::json!({ "count": 0, "known": 1 }));
    let description = json(&get(&served, "/api/openapi.json"));
    let described = &description["paths"]["/api/books/{slug}/import"]["post"];
    for code in ["200", "201", "403", "413", "422", "503"] {
        assert!(described["responses"][code].is_object(), "{code}");
    }
    let sent = &described["requestBody"]["content"]["multipart/form-data"]["schema"];
    assert!(sent["properties"]["picture"].is_object(), "{sent}");
}

/// Places of a map lie on the strip that is named.
#[test]
fn places_of_a_map_are_laid_on_a_strip() {
    let folder = tempfile::tempdir().expect("a folder");
    let flights = folder.path().join("flights");
    let hardpan = || Command::new(env!("CARGO_BIN_EXE_hardpan"));
    demo_on_globe(&flights);
    let strip = flights.join("strip.toml");
    let book = flights.join("long.book");
    let made = hardpan()
        .arg("book")
        .arg(&book)
        .args(["add", "damage", "strip=Long Gravel", "tail=101", "date=2026-06-18", "zone=flap"])
        .args(["phase=taxi", "station=640 m", "--by", "Ada"])
        .status();
    assert!(made.expect("it runs").success());
    let map = hardpan().arg("book").arg(&book).arg("map").arg(&strip).output();
    let map = map.expect("it runs");
    assert!(map.status.success(), "{}", String::from_utf8_lossy(&map.stderr));
    let mut map: Value = serde_json::from_slice(&map.stdout).expect("JSON");
    for feature in map["features"].as_array_mut().expect("features") {
        if let Some(properties) = feature["properties"].as_object_mut() {
            properties.retain(|name, _| !name.starts_with("station"));
        }
    }
    let served = Served::with(&[&flights.to_string_lossy()]);
    let page = get(&served, "/books/long/import").1;
    let token =
        page.split("name=\"token\" value=\"").nth(1).and_then(|rest| rest.split('"').next());
    let form = |strip: &str| {
        part("token", token.expect("a token"))
            + &part("by", "Bea")
            + &part("strip", strip)
            + &file("map.geojson", &map.to_string())
    };
    let answer = send(&served, "/books/long/import", &[], &form("strip"));
    assert_eq!(status(&answer), "303", "{}", answer.1);
    let book = json(&get(&served, "/api/books/long"));
    let station = book["damage"][1]["station_m"].as_f64().expect("a station");
    assert!((station - 640.0).abs() < 0.5, "{station}");
}
