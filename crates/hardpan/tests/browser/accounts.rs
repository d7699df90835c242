//! Signing in, in a real browser: a wrong password, the right one, and what each
//! role is offered. The certificate is for tests only and known to everybody.

use crate::driver::{Browser, Served};
use serde_json::json;
use std::io::Write as _;
use std::path::Path;
use std::process::{Command, Stdio};

const PASSWORD: &str = "gravel, grass and dirt";

fn add(accounts: &Path, role: &str) {
    let mut child = Command::new(env!("CARGO_BIN_EXE_hardpan"))
        .arg("account")
        .arg(accounts)
        .args(["add", role, "--role", role])
        .stdin(Stdio::piped())
        .stdout(Stdio::null())
        .spawn()
        .expect("it starts");
    writeln!(child.stdin.as_mut().expect("a pipe"), "{PASSWORD}").expect("it reads");
    assert!(child.wait().expect("it ends").success());
}

fn sign_in(browser: &Browser, name: &str, password: &str) {
    browser.wait("the form", "return !!document.querySelector('#password')");
    browser.run("document.querySelector('#name').value = ''; return true");
    browser.keys("#name", name);
    browser.keys("#password", password);
    browser.click("main form button");
}

#[test]
fn each_role_signs_in_and_is_offered_what_it_may() {
    let folder = tempfile::tempdir().expect("a folder");
    let flights = folder.path().join("flights");
    let made =
        Command::new(env!("CARGO_BIN_EXE_hardpan")).args(["new", "demo"]).arg(&flights).output();
    assert!(made.expect("the program starts").status.success());
    let accounts = folder.path().join("accounts.json");
    for role in ["viewer", "surveyor", "dispatcher", "admin"] {
        add(&accounts, role);
    }
    let seen = ["add", "inspection", "strip=North", "at=2026-06-18T09:00:00Z", "rut=0 mm"];
    let done = Command::new(env!("CARGO_BIN_EXE_hardpan"))
        .arg("book")
        .arg(flights.join("north.book"))
        .args(seen)
        .args(["water=0 mm", "--by", "Ada"])
        .output();
    assert!(done.expect("the program starts").status.success());
    let file = |name: &str| format!("{}/tests/certificate/{name}", env!("CARGO_MANIFEST_DIR"));
    let (place, accounts) = (flights.to_string_lossy(), accounts.to_string_lossy());
    let served = Served::with(&[
        &place,
        "--accounts",
        &accounts,
        "--certificate",
        &file("for_tests_only.pem"),
        "--key",
        &file("for_tests_only.key"),
    ]);
    assert!(served.url.starts_with("https://"), "{}", served.url);
    let browser = Browser::open(390, 844);
    browser.go(&format!("{}/books/north", served.url));
    sign_in(&browser, "viewer", "a wrong password");
    browser.wait("the refusal", "return !!document.querySelector('.wrong')");
    assert!(browser.text(".wrong").contains("do not fit"));
    browser.picture("sign-in");
    for (role, records, may_plan, may_bring) in [
        ("viewer", json!([]), false, false),
        ("surveyor", json!(["inspection", "repair", "closure", "survey"]), false, true),
        ("dispatcher", json!(["movement", "damage", "closure", "equipment"]), true, false),
        (
            "admin",
            json!(["movement", "inspection", "damage", "repair", "closure", "equipment", "survey"]),
            true,
            true,
        ),
    ] {
        browser.go(&format!("{}/books/north", served.url));
        sign_in(&browser, role, PASSWORD);
        browser.wait("the book", "return !!document.querySelector('.book-page')");
        let offered = browser
            .run("return [...document.querySelectorAll('.log[id]')].map((one) => one.id.slice(4))");
        assert_eq!(offered, records, "{role}");
        assert!(browser.text("header").contains(&format!("{role}, {role}")));
        browser.picture(&format!("book-{role}"));
        browser.go(&format!("{}/plan", served.url));
        let plan = browser.run("return !!document.querySelector('main form')");
        assert_eq!(plan, json!(may_plan), "{role}");
        browser.go(&format!("{}/strips/strip/bring", served.url));
        let bring = browser.run("return !!document.querySelector('form.bring')");
        assert_eq!(bring, json!(may_bring), "{role}");
        browser.click(".sign-out button");
        browser.wait("the way out", "return location.pathname === '/sign-in'");
        browser.go(&format!("{}/books/north", served.url));
        browser.wait("the form", "return !!document.querySelector('#password')");
    }
}
