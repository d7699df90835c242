//! Signing in, in a real browser: a wrong password, the right one, and what each
//! role is offered. The certificate is for tests only and known to everybody.

use crate::contrast;
use crate::driver::{Browser, Served};
use crate::field;
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

/// Served with accounts and the certificate of the tests, on a port.
fn guarded(address: &str, place: &Path, accounts: &Path) -> Served {
    let file = |name: &str| format!("{}/tests/certificate/{name}", env!("CARGO_MANIFEST_DIR"));
    Served::at(
        address,
        &[
            &place.to_string_lossy(),
            "--accounts",
            &accounts.to_string_lossy(),
            "--certificate",
            &file("for_tests_only.pem"),
            "--key",
            &file("for_tests_only.key"),
        ],
    )
}

fn sign_in(browser: &Browser, name: &str, password: &str) {
    browser.wait("the form", "return !!document.querySelector('#password')");
    browser.run("document.querySelector('#name').value = ''; return true");
    browser.keys("#name", name);
    browser.keys("#password", password);
    browser.follow("main form button");
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
    let served = guarded("127.0.0.1:0", &flights, &accounts);
    assert!(served.url.starts_with("https://"), "{}", served.url);
    let browser = Browser::open(390, 844);
    browser.go(&format!("{}/books/north", served.url));
    sign_in(&browser, "viewer", "a wrong password");
    browser.wait("the refusal", "return !!document.querySelector('.wrong')");
    assert!(browser.text(".wrong").contains("do not fit"));
    browser.picture("sign-in");
    for scheme in ["light", "dark"] {
        browser.colours(scheme);
        contrast::shown(&browser, "the refused sign-in");
    }
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
        contrast::shown(&browser, &format!("the book of a {role}"));
        browser.go(&format!("{}/plan", served.url));
        let plan = browser.run("return !!document.querySelector('main form')");
        assert_eq!(plan, json!(may_plan), "{role}");
        browser.go(&format!("{}/strips/strip/bring", served.url));
        let bring = browser.run("return !!document.querySelector('form.bring')");
        assert_eq!(bring, json!(may_bring), "{role}");
        browser.follow(".sign-out button");
        browser.wait("the way out", "return location.pathname === '/sign-in'");
        browser.go(&format!("{}/books/north", served.url));
        browser.wait("the form", "return !!document.querySelector('#password')");
    }
}

fn logged_in(browser: &Browser, url: &str, role: &str) {
    browser.go(&format!("{url}/books/north/field"));
    sign_in(browser, role, PASSWORD);
    browser.wait_for_the_kept_log();
}

/// The field log under encryption with an account: what is written while nothing
/// answers waits on the device, for nobody but the account that wrote it.
#[test]
fn a_signed_in_log_waits_for_its_own_account() {
    let folder = tempfile::tempdir().expect("a folder");
    let accounts = folder.path().join("accounts.json");
    for role in ["surveyor", "dispatcher"] {
        add(&accounts, role);
    }
    let book = folder.path().join("north.book");
    field::book(
        &book,
        &[
            "add",
            "inspection",
            "strip=North",
            "at=2026-06-18T09:00:00Z",
            "rut=0 mm",
            "water=0 mm",
            "--by",
            "Ada",
        ],
    );
    let served = guarded("127.0.0.1:0", folder.path(), &accounts);
    let url = served.url.clone();
    let address = url.trim_start_matches("https://").to_owned();
    let browser = Browser::open(390, 844);
    logged_in(&browser, &url, "dispatcher");
    drop(served);
    browser.go(&format!("{url}/books/north/field"));
    browser.wait(
        "that it is said",
        "return document.querySelector('#link-state')?.textContent.includes('No connection')",
    );
    let by = browser.run(
        "return [document.querySelector('#by').value, document.querySelector('#by').readOnly]",
    );
    assert_eq!(by, json!(["dispatcher", true]));
    field::log_movement(&browser, "101", "2026-06-18T15:00:00Z");
    field::waits(&browser, 1);

    // The server begins anew, so that the session is over; somebody else signs in.
    let _served = guarded(&address, folder.path(), &accounts);
    browser.click("#send");
    browser.wait(
        "that it is signed out",
        "return document.querySelector('#link-state').textContent.includes('Signed out')",
    );
    field::waits(&browser, 1);
    logged_in(&browser, &url, "surveyor");
    browser.wait(
        "whose it is",
        "return document.querySelector('.waiting li .wrong')?.textContent
            .includes('while dispatcher was signed in')",
    );
    assert_eq!(field::movements(&book).len(), 0, "somebody else sent it");
    browser.picture("field-of-another");
    browser.follow(".sign-out button");
    browser.wait("the way out", "return location.pathname === '/sign-in'");
    logged_in(&browser, &url, "dispatcher");
    field::waits(&browser, 0);
    let kept = field::movements(&book);
    assert_eq!(kept.len(), 1);
    assert_eq!((&kept[0]["tail"], &kept[0]["recorded_by"]), (&json!("101"), &json!("dispatcher")));
}
