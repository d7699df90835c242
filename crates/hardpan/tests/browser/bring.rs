//! Bringing a survey: its mistakes are told by line, how far it is is shown, and
//! only a file that can be used is kept.

use crate::driver::{Browser, Served};
use serde_json::json;
use std::process::Command;

#[test]
fn a_survey_is_brought_with_its_mistakes_told_by_line() {
    let folder = tempfile::tempdir().expect("a folder");
    let flights = folder.path().join("flights");
    let made =
        Command::new(env!("CARGO_BIN_EXE_hardpan")).args(["new", "demo"]).arg(&flights).output();
    assert!(made.expect("the program starts").status.success());
    let good = std::fs::read_to_string(flights.join("survey.csv")).expect("the demo has levels");
    let bad: Vec<String> = good
        .lines()
        .enumerate()
        .map(|(index, line)| if index == 6 { line.replace('.', "x") } else { line.to_owned() })
        .collect();
    let (wrong, right) = (folder.path().join("wrong.csv"), folder.path().join("levels 2.csv"));
    std::fs::write(&wrong, bad.join("\n")).expect("a writable folder");
    std::fs::write(&right, &good).expect("a writable folder");
    let book = flights.join("long.book");
    let seen = ["add", "inspection", "strip=Long Gravel", "at=2026-06-18T09:00:00Z", "rut=0 mm"];
    let done = Command::new(env!("CARGO_BIN_EXE_hardpan"))
        .arg("book")
        .arg(&book)
        .args(seen)
        .args(["water=0 mm", "--by", "Ada"])
        .output();
    assert!(done.expect("the program starts").status.success());
    let served = Served::with(&[&flights.to_string_lossy()]);
    let browser = Browser::open(1280, 900);
    browser.go(&format!("{}/strips/strip", served.url));
    browser.click("a[href$='/bring']");
    browser.wait("the form", "return !!document.querySelector('form.bring')");
    browser.run(
        "window.shares = []; new MutationObserver((all) => all.forEach((one) =>
        window.shares.push(document.querySelector('.bring-share')?.value)))
        .observe(document.querySelector('.bring-share'), { attributes: true }); return true",
    );
    browser.keys("#what", "levels");
    browser.keys("#date", "2026-06-19");
    browser.keys("#book", "long");
    browser.keys("#by", "Ada");
    browser.keys("#file", &wrong.to_string_lossy());
    browser.click("form.bring button");
    browser.wait("the mistakes", "return !!document.querySelector('.mistake-list li')");
    browser.picture("bring-refused");
    assert!(
        browser.text(".mistake-list li").contains("Line 7"),
        "{}",
        browser.text(".mistake-list")
    );
    let shown = browser.run("return window.shares.some((one) => one === 1)");
    assert_eq!(shown, json!(true), "how far it is was shown");
    let received = flights.join("received");
    let kept = || {
        let files = std::fs::read_dir(&received).into_iter().flatten().flatten();
        let names = files.map(|one| one.file_name().to_string_lossy().into_owned());
        names.filter(|name| name != ".part").collect::<Vec<_>>()
    };
    assert_eq!(kept(), Vec::<String>::new(), "a file with mistakes was kept");
    assert_eq!(browser.run("return document.querySelector('#date').value"), json!("2026-06-19"));
    browser.keys("#file", &right.to_string_lossy());
    browser.click("form.bring button");
    browser.wait(
        "the end",
        "return document.querySelector('main .lead')?.textContent.startsWith('Kept as')",
    );
    browser.picture("bring-kept");
    assert_eq!(kept(), ["2026-06-19-levels-2.csv"]);
    let told = browser.text("main");
    for words in ["survey = \"received/2026-06-19-levels-2.csv\"", "entry 2", "No check changes"] {
        assert!(told.contains(words), "the page does not say {words}: {told}");
    }
    let part = std::fs::read_dir(received.join(".part")).expect("a folder").count();
    assert_eq!(part, 0, "a part was left");
    // What the page says to write is what the strip file takes.
    let strip = std::fs::read_to_string(flights.join("strip.toml")).expect("a strip");
    let strip = strip.replace("\"survey.csv\"", "\"received/2026-06-19-levels-2.csv\"");
    std::fs::write(flights.join("strip.toml"), strip).expect("a writable folder");
    browser.go(&format!("{}/strips/strip", served.url));
    browser.wait("the strip", "return !!document.querySelector('.strip-page h1 .verdict')");
    let bad = browser.complaints().into_iter().filter(|said| !said.contains("422")).count();
    assert_eq!(bad, 0);
}

#[test]
fn a_file_that_is_too_large_is_not_even_sent() {
    let folder = tempfile::tempdir().expect("a folder");
    let flights = folder.path().join("flights");
    let made =
        Command::new(env!("CARGO_BIN_EXE_hardpan")).args(["new", "demo"]).arg(&flights).output();
    assert!(made.expect("the program starts").status.success());
    let file = folder.path().join("large.csv");
    std::fs::write(&file, "x".repeat(4096)).expect("a writable folder");
    let served = Served::with(&[&flights.to_string_lossy()]);
    let browser = Browser::open(390, 844);
    browser.go(&format!("{}/strips/strip/bring", served.url));
    browser.run("document.querySelector('form.bring').dataset.most = 1000; return true");
    browser.keys("#what", "levels");
    browser.keys("#date", "2026-06-19");
    browser.keys("#file", &file.to_string_lossy());
    browser.click("form.bring button");
    browser.wait(
        "the word",
        "return document.querySelector('.bring-state').textContent.includes('Nothing was sent')",
    );
    let wide = browser.run("return document.documentElement.scrollWidth - window.innerWidth");
    assert!(wide.as_i64().is_some_and(|over| over <= 0), "wider than the phone by {wide}");
}
