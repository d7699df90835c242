//! Figures of the pages that open to what they came from.

use crate::driver::Served;
use crate::{get, json, status};
use std::path::Path;
use std::process::Command;

fn hardpan() -> Command {
    Command::new(env!("CARGO_BIN_EXE_hardpan"))
}

fn add(book: &Path, values: &[&str]) {
    let out =
        hardpan().arg("book").arg(book).arg("add").args(values).args(["--by", "Ada"]).output();
    let out = out.expect("it runs");
    assert!(out.status.success(), "{}", String::from_utf8_lossy(&out.stderr));
}

fn with_a_book() -> (tempfile::TempDir, Served) {
    let folder = tempfile::tempdir().expect("a folder");
    let flights = folder.path().join("flights");
    let made = hardpan().args(["new", "demo"]).arg(&flights).status().expect("it runs");
    assert!(made.success());
    let book = flights.join("long.book");
    let strip = "strip=Long Gravel";
    for (day, rut) in [("16", "rut=9 mm"), ("17", "rut=12 mm"), ("18", "rut=15.5 mm")] {
        let at = format!("at=2026-06-{day}T08:00:00Z");
        let moved = ["movement", strip, "tail=101", "kind=landing", &at, "mass=39.6 t"];
        add(&book, &[&moved[..], &["pressure=100 psi"]].concat());
        let at = format!("at=2026-06-{day}T09:00:00Z");
        let seen = ["inspection", strip, &at, rut, "rut_station=640 m", "rut_lane=left main"];
        add(&book, &[&seen[..], &["water=0 mm"]].concat());
    }
    let done = ["damage", strip, "tail=101", "date=2026-06-18", "zone=flap", "phase=landing"];
    add(&book, &done);
    let due = ["equipment", "tail=101", "item=deflector", "state=serviceable", "due=2099-09-01"];
    add(&book, &[&due[..], &["at=2026-06-18T12:00:00Z"]].concat());
    let served = Served::with(&[&flights.to_string_lossy()]);
    (folder, served)
}

#[test]
fn the_figures_of_a_book_open_to_its_entries() {
    let (_folder, served) = with_a_book();
    let (_, page) = get(&served, "/books/long?strip=Long+Gravel");
    for said in [
        "How the passes come about",
        "How the damage figures come about",
        "How the days of grading come about",
        "How the movements come about",
        "How the days that are left come about",
        "1000 × (1) / (3)",
        "GARWOOD-1936",
        "<a href=\"/books/long/entries/7\">7</a>",
    ] {
        assert!(page.contains(said), "{said}: {page}");
    }
    let entry = get(&served, "/books/long/entries/7");
    assert_eq!(status(&entry), "200", "the link leads somewhere");
    assert!(entry.1.contains("flap"), "{}", entry.1);
    let address = "/books/long/ruts?strip=Long+Gravel&flight=flight&tail=101";
    let answer = get(&served, address);
    assert_eq!(status(&answer), "200");
    for said in [
        "How the passes, ruts and coverages come about",
        "coverages of nose, station 0 to 100 m",
        "How the ruts and passes come about",
        "mean tyre pressure, left main at station 640 m on 2026-06-18",
        "HOSANG-1975",
        "/entries/6\">6</a>",
    ] {
        assert!(answer.1.contains(said), "{said}: {}", answer.1);
    }
}

/// Addresses of links that lead to a figure.
fn links<'a>(page: &'a str, begins: &str) -> Vec<String> {
    let links = page.split("href=\"").skip(1).filter_map(|rest| rest.split('"').next());
    let meant = links.filter(|link: &&'a str| link.starts_with(begins));
    meant.map(|link| link.replace("&amp;", "&")).collect()
}

#[test]
fn the_figures_of_a_ranking_open() {
    let served = Served::demo();
    let (_, page) = get(&served, "/compare?flight=demo.flight&both-ends=yes&take_off.mass=40+t");
    let opened = links(&page, "/flights/demo.flight/basis?");
    // Four choices, each with two largest masses, their loads and a reason.
    assert!(opened.len() >= 12, "{opened:?}");
    // Two of them have a largest mass for both movements, and so something to spare.
    assert_eq!(page.matches("mass to spare over the plan = ").count(), 4, "{page}");
    assert!(opened.iter().all(|one| one.contains("take_off.mass=40+t")), "{opened:?}");
    let of_landing = opened.iter().find(|one| one.contains("largest+landing+mass")).expect("one");
    let answer = get(&served, of_landing);
    assert_eq!(status(&answer), "200", "{of_landing}");
    assert!(answer.1.contains(">largest landing mass = "), "{}", answer.1);
    assert!(answer.1.contains("class=\"steps\"") && answer.1.contains("Planning aid only"));
    let of_check = opened.iter().find(|one| !one.contains("mass%") && one.contains("figure=F"));
    if let Some(of_check) = of_check {
        assert_eq!(status(&get(&served, of_check)), "200", "{of_check}");
    }
    let missing = get(&served, "/flights/demo.flight/basis?figure=no+such");
    assert_eq!(status(&missing), "404");
    assert_eq!(status(&get(&served, "/flights/demo.flight/basis")), "400");
}

/// What a row says where there is no figure.
fn is_no_figure(text: &str) -> bool {
    let none = ["–", "not known", "nobody looked", "none seen", "nothing"];
    none.contains(&text) || text.ends_with("not counted")
}

/// Every reading of the section opens, to the value that the section shows.
#[test]
fn every_reading_along_the_strip_opens() {
    let served = Served::demo();
    let (_, sheet) = get(&served, "/flights/demo.flight");
    assert!(sheet.contains("id=\"station-opened\""), "the readings can be asked for");
    let values = sheet.split("id=\"values\" type=\"application/json\">").nth(1);
    let values = values.and_then(|rest| rest.split("</script>").next()).expect("the values");
    let values: serde_json::Value = serde_json::from_str(values).expect("JSON");
    let labels = values["labels"].as_array().expect("labels");
    let mut opened = 0;
    for at in [0, labels.len() / 5, labels.len() / 3, labels.len() / 2, labels.len() - 1] {
        let label = labels[at].as_str().expect("a label");
        let place = label.replace(' ', "+");
        let page = get(&served, &format!("/flights/demo.flight/station?at={place}"));
        assert_eq!(status(&page), "200", "{label}");
        let told = json(&get(&served, &format!("/api/flights/demo.flight/station?at={place}")));
        for (id, row) in values["rows"].as_object().expect("rows") {
            let shown = row[at].as_str().expect("a text");
            let readings = told["readings"].as_array().expect("readings");
            let reading = readings.iter().find(|one| one["id"] == id.as_str());
            let reading = reading.unwrap_or_else(|| panic!("{id} at {label} has no reading"));
            let figures = reading["figures"].as_array().expect("figures");
            assert_eq!(
                figures.is_empty(),
                is_no_figure(shown),
                "{id} at {label}: {shown} {reading:#}"
            );
            assert_eq!(figures.is_empty(), reading["none"].is_string(), "{id} at {label}");
            for figure in figures {
                let last = figure["basis"].as_array().and_then(|steps| steps.last());
                let last = last.unwrap_or_else(|| panic!("{id} at {label}"));
                assert_eq!(last["result"], figure["value"], "{id} at {label}");
                assert!(!last["inputs"].as_array().is_none_or(Vec::is_empty), "{id} at {label}");
                opened += 1;
            }
            // The value itself, as it is shown.
            if figures.len() == 1 && !["lying", "stones", "level"].contains(&id.as_str()) {
                let plain = |text: &str| text.replace('\u{a0}', " ");
                let told = plain(&format!("= {shown}<"));
                assert!(plain(&page.1).contains(&told), "{id} at {label}: {shown}");
            }
        }
    }
    assert!(opened >= 40, "{opened}");
    let (_, page) = get(&served, "/flights/demo.flight/station?at=2100+ft&units=imperial");
    assert!(page.contains("level of the centre line at 2100 ft = "), "in the reader's units");
    for (at, code) in [("", "400"), ("?at=far", "400"), ("?at=9+km", "404"), ("?at=-1+m", "404")] {
        let address = format!("/flights/demo.flight/station{at}");
        assert_eq!(status(&get(&served, &address)), code, "{at}");
    }
}

/// The level by hand: the mean of the survey over 30 m, straight between its points.
#[test]
fn a_level_comes_out_of_the_survey_by_hand() {
    let served = Served::demo();
    let told = json(&get(&served, "/api/flights/demo.flight/station?at=642+m"));
    let level = &told["readings"][0]["figures"][0];
    let steps = level["basis"].as_array().expect("steps");
    assert_eq!(steps.len(), 3);
    let [before, after, last] = [0, 1, 2].map(|at| &steps[at]);
    let survey = include_str!("../../../../demo/survey.csv");
    for step in [before, after] {
        let inputs = step["inputs"].as_array().expect("inputs");
        assert!(inputs.len() >= 3, "{step:#}");
        for input in inputs {
            let file = &input["from"]["file"];
            assert!(file["file"].as_str().is_some_and(|name| name.ends_with("survey.csv")));
            let line = file["line"].as_u64().expect("a line") as usize;
            let cells = survey.lines().nth(line - 1).expect("the line stands in the file");
            let metres = input["value"]["value"].as_f64().expect("metres");
            let is_there = cells.split(',').any(|cell| {
                cell.trim().parse::<f64>().is_ok_and(|found| (found - metres).abs() < 1e-9)
            });
            assert!(is_there, "{metres} in `{cells}`");
        }
    }
    let of = |symbol: &str| {
        let inputs = last["inputs"].as_array().expect("inputs");
        let input = inputs.iter().find(|input| input["symbol"] == symbol);
        input.expect(symbol)["value"]["value"].as_f64().expect("a number")
    };
    assert_eq!((of("A"), of("B"), of("s")), (640.0, 645.0, 642.0));
    let by_hand = of("a") + 2.0 * (of("b") - of("a")) / 5.0;
    assert!((by_hand - level["value"]["value"].as_f64().expect("metres")).abs() < 1e-9);
}

/// A page and its JSON open the same down to the files, as the command does.
#[test]
fn every_check_and_figure_opens_down_to_the_files() {
    let served = Served::demo();
    let api = "/api/flights/demo.flight/explain";
    let names = json(&get(&served, api));
    let figures = names["figures"].as_array().expect("figures").iter();
    let checks = names["checks"].as_array().expect("checks").iter().map(|one| &one["code"]);
    let mut wanted: Vec<&str> =
        checks.chain(figures).map(|name| name.as_str().expect("a name")).collect();
    wanted.dedup();
    assert!(wanted.len() > 60, "{}", wanted.len());
    for name in wanted {
        let coded = |byte: u8| match byte {
            b'a'..=b'z' | b'A'..=b'Z' | b'0'..=b'9' => char::from(byte).to_string(),
            byte => format!("%{byte:02X}"),
        };
        let name: String = name.bytes().map(coded).collect();
        let told = json(&get(&served, &format!("{api}?figure={name}")));
        assert!(told["caution"].as_str().is_some_and(|one| one.starts_with("Planning aid")));
        let all = ["findings", "figures"].map(|key| told[key].as_array().expect("a list"));
        assert!(all.iter().any(|list| !list.is_empty()), "{name}");
        for one in all.into_iter().flatten() {
            let own = one["basis"].as_array().expect("steps");
            let further = one["further"].as_array().expect("parts");
            let further = further.iter().flat_map(|part| part["steps"].as_array().expect("steps"));
            let count = own.len() + further.clone().count();
            for input in own
                .iter()
                .chain(further)
                .flat_map(|step| step["inputs"].as_array().expect("inputs"))
            {
                let step = input["from"]["step"].as_u64();
                assert!(step.is_none_or(|step| (step as usize) < count), "{name}: {input:#}");
                let words = input["from"]["computed"].as_str().unwrap_or_default();
                let ends = ["ground", "figure", "G", "F", "T", "wind", "flight", "day"];
                assert!(!ends.contains(&words), "{name}: {input:#}");
            }
        }
    }
    let address = "/flights/demo.flight/basis?figure=G20";
    let page = get(&served, address).1;
    for said in ["<details class=\"finding\" open>", "From ", "soundings.csv:", "start=\""] {
        assert!(page.contains(said), "{said}: {page}");
    }
    assert!(!page.contains("computed: "), "{page}");
    assert_eq!(links(&page, api).len(), 1, "the same for programs");
    let words = get(&served, "/flights/demo.flight/basis?figure=ground+under+the+main");
    assert!(words.1.contains("<span class=\"code\">G20</span>"), "words of a title");
    assert_eq!(status(&get(&served, &format!("{api}?figure=no+such"))), "404");
    let (_, sheet) = get(&served, "/flights/demo.flight?take_off.mass=40+t");
    let ways = links(&sheet, "/flights/demo.flight/basis?take_off.mass=40+t&amp;figure=");
    assert!(ways.len() > 60, "{} ways down from the sheet", ways.len());
}
