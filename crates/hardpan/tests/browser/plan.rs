//! Planning on the page: from the start page to a printed card, with the mistakes
//! of a newcomer on the way; and the aeroplane, the calendar and the lesson.

use crate::driver::{Browser, Served};
use serde_json::json;

fn state(browser: &Browser, key: &str, value: &str) {
    let script = format!(
        "const one = document.getElementById('{key}');
        one.value = '{value}'; return one.value === '{value}'"
    );
    assert_eq!(browser.run(&script), json!(true), "{key}");
}

fn no_complaints(browser: &Browser, but: &str) {
    let said = browser.complaints();
    let said: Vec<&String> =
        said.iter().filter(|one| but.is_empty() || !one.contains(but)).collect();
    assert!(said.is_empty(), "the browser complains: {said:#?}");
}

#[test]
fn a_newcomer_plans_a_flight_and_prints_its_card() {
    let served = Served::demo();
    let browser = Browser::open(1280, 900);
    browser.go(&served.url);
    browser.click("a[href='/plan']");
    browser.wait("the choice", "return !!document.querySelector('#strip')");
    browser.click(".plan button");
    browser.wait("the form", "return !!document.querySelector('.plan-form')");
    browser.picture("plan");
    let date = browser.run("return document.getElementById('day.date').value.length");
    assert_eq!(date, json!(10), "the present day is suggested");
    state(&browser, "name", "First try");
    state(&browser, "take_off.mass", "40.4");
    state(&browser, "take_off.centre_of_gravity", "23 %");
    state(&browser, "take_off.flap", "25");
    state(&browser, "take_off.direction", "25");
    state(&browser, "take_off.rule", "large-take-off");
    for (key, value) in [
        ("passes", "60"),
        ("report_age", "2 h"),
        ("survey_age", "365 d"),
        ("day.date", "2026-06-18"),
        ("day.time_utc", "15:00Z"),
        ("day.wind.from", "250 deg"),
        ("day.wind.speed", "9 kt"),
        ("day.temperature", "14 degC"),
        ("day.sea_level_pressure", "1013 hPa"),
        ("day.surface_state", "dry"),
        ("day.rain_in_an_hour", "0 mm"),
        ("day.inspected", "true"),
        ("day.standing_water", "none"),
        ("day.loose_material", "none"),
    ] {
        state(&browser, key, value);
    }
    browser.click(".plan-form button");
    browser.wait("the mistake", "return !!document.querySelector('.plan .field .wrong')");
    assert!(
        browser.text(".plan .field .wrong").contains("unit"),
        "{}",
        browser.text(".plan .field .wrong")
    );
    browser.picture("plan-refused");
    let kept = browser.run("return document.getElementById('day.wind.speed').value");
    assert_eq!(kept, json!("9 kt"), "what was written stays");
    state(&browser, "take_off.mass", "40.4 t");
    browser.click(".plan-form button");
    browser.wait("the sheet", "return !!document.querySelector('#answer .verdict')");
    browser.picture("planned");
    let address = browser.run("return location.pathname");
    assert_eq!(address, json!("/flights/demo.planned-first-try"));
    assert!(browser.text("#answer").contains("take-off mass"));
    let card = browser.run_later(
        "const done = arguments[arguments.length - 1];
         fetch(document.querySelector('.links .strong').href).then(async (answer) => {
           const bytes = new Uint8Array(await answer.arrayBuffer());
           done([answer.status, String.fromCharCode(...bytes.slice(0, 5)), bytes.length]); });",
    );
    assert_eq!((&card[0], &card[1]), (&json!(200), &json!("%PDF-")), "{card}");
    browser.go(&served.url);
    assert!(browser.text("ul.cards").contains("First try"), "the plan is listed to be compared");
    no_complaints(&browser, "422");
}

#[test]
fn an_aeroplane_by_itself_has_its_page() {
    let served = Served::demo();
    let browser = Browser::open(1280, 900);
    browser.go(&served.url);
    browser.click("a[href^='/aeroplanes/']");
    browser.wait(
        "the aeroplane",
        "return document.querySelector('h1')?.textContent.length > 0
        && location.pathname.startsWith('/aeroplanes/')",
    );
    browser.picture("aeroplane");
    let shown = browser.text("main");
    for words in
        ["Masses", "largest take-off", "Approved limits", "Protective equipment", "(invented)"]
    {
        assert!(shown.contains(words), "the page does not say {words}: {shown}");
    }
    no_complaints(&browser, "");
}

#[test]
fn a_lesson_asks_before_it_answers() {
    let served = Served::demo();
    let browser = Browser::open(1280, 900);
    browser.go(&format!("{}/flights/demo.flight/lesson", served.url));
    browser.wait("the lesson", "return document.querySelectorAll('.question').length > 5");
    let open = browser.run("return document.querySelectorAll('.question[open]').length");
    assert_eq!(open, json!(0), "no answer is open before it is asked for");
    browser.click(".question summary");
    browser.picture("lesson");
    let answer = browser.text(".question p");
    assert!(!answer.is_empty());
    no_complaints(&browser, "");
}
