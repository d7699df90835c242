//! What a screen reader is told, from the accessibility tree of the browser: names of
//! everything that can be used and of every picture (WCAG 2.1 sections 1.1.1 and 4.1.2),
//! headings in their order and heads of tables (1.3.1), title and language (2.4.2 and
//! 3.1.1), and that every page is gone through with the Tab key alone, the place always
//! seen (2.1.1, 2.1.2 and 2.4.7).

use crate::demo_book::demo_with_book;
use crate::driver::{Browser, Served};
use serde_json::{Value, json};

/// Roles that can be used, and pictures.
const NAMED: [&str; 14] = [
    "button",
    "link",
    "textbox",
    "searchbox",
    "spinbutton",
    "combobox",
    "listbox",
    "checkbox",
    "radio",
    "slider",
    "image",
    "progressbar",
    "DisclosureTriangle",
    "Date",
];

const OUTLINE: &str = "const told = [];
    const heads = [...document.querySelectorAll('h1, h2, h3, h4, h5')];
    if (heads.filter((one) => one.tagName === 'H1').length !== 1) told.push('not one h1');
    let before = 0;
    for (const one of heads) {
      const level = Number(one.tagName[1]);
      if (level > before + 1) told.push(`h${level} after h${before}: ${one.textContent}`);
      before = level;
    }
    const ids = [...document.querySelectorAll('[id]')].map((one) => one.id);
    ids.filter((id, at) => ids.indexOf(id) !== at).forEach((id) => told.push(`twice #${id}`));
    document.querySelectorAll('table').forEach((one) => {
      if (!one.querySelector('th')) told.push(`a table without a head: ${one.textContent.slice(0, 60)}`);
    });
    document.querySelectorAll('[aria-labelledby], [aria-describedby], [aria-controls]').forEach((one) => {
      for (const by of ['aria-labelledby', 'aria-describedby', 'aria-controls']) {
        for (const id of (one.getAttribute(by) ?? '').split(' ').filter(Boolean)) {
          if (!document.getElementById(id)) told.push(`${by} names no place: ${id}`);
        }
      }
    });
    if (!document.title) told.push('no title');
    if (!document.documentElement.lang.startsWith('en')) told.push('no language');
    if (document.querySelectorAll('main').length !== 1) told.push('not one main');
    return told";

/// Where the keys are now, and whether that is seen.
const PLACE: &str = "const one = document.activeElement;
    if (!one || one === document.body) return ['nowhere', true];
    const all = [...document.querySelectorAll('*')];
    const style = getComputedStyle(one);
    const box = one.getBoundingClientRect();
    const seen = one.type === 'range' || (style.outlineStyle !== 'none' && parseFloat(style.outlineWidth) >= 2);
    return [`${all.indexOf(one)} ${one.tagName} ${one.id}`, seen && box.width > 0]";

/// Most steps that a page is gone through in.
const MOST_STEPS: usize = 60;

fn nameless(browser: &Browser) -> Vec<String> {
    browser.command("Accessibility.enable", &json!({}));
    let tree = browser.command("Accessibility.getFullAXTree", &json!({}));
    let nodes = tree["nodes"].as_array().expect("a tree");
    assert!(nodes.len() > 10, "an empty tree");
    let word = |node: &Value, key: &str| node[key]["value"].as_str().unwrap_or("").to_owned();
    nodes
        .iter()
        .filter(|node| node["ignored"] != json!(true))
        .filter(|node| NAMED.contains(&word(node, "role").as_str()))
        .filter(|node| word(node, "name").trim().is_empty())
        .map(|node| format!("{} {}", word(node, "role"), node["backendDOMNodeId"]))
        .collect()
}

fn tab(browser: &Browser) {
    for kind in ["keyDown", "keyUp"] {
        let key = json!({ "type": kind, "key": "Tab", "code": "Tab", "windowsVirtualKeyCode": 9 });
        browser.command("Input.dispatchKeyEvent", &key);
    }
}

#[test]
fn a_screen_reader_and_the_keys_find_everything() {
    let folder = tempfile::tempdir().expect("a folder");
    let flights = folder.path().join("flights");
    demo_with_book(&flights);
    let served = Served::with(&[&flights.to_string_lossy()]);
    let browser = Browser::open(1280, 900);
    let mut wrong = Vec::new();
    for page in [
        "/",
        "/flights/flight",
        "/flights/flight/masses",
        "/flights/flight/masses?temperatures=14+degC&headwinds=9+kt",
        "/flights/flight/masses/place?movement=landing&temperature=14+degC&headwind=9+kt",
        "/flights/flight/year",
        "/flights/flight/year/hour?from=6-18&hour=18",
        "/flights/flight/basis?figure=G20",
        "/flights/flight/basis?figure=largest+landing+mass",
        "/flights/flight/station?at=640+m",
        "/flights/flight/lesson",
        "/flights/flight/confidence",
        "/flights/flight/remedies?take_off.mass=42.6+t",
        "/aeroplanes/aeroplane",
        "/strips/strip",
        "/strips/strip/bring",
        "/plan",
        "/compare?flight=flight&both-ends=yes",
        "/books/long",
        "/books/long/ruts?flight=flight",
        "/books/long/field",
        "/books/long/entries/3",
        "/flights/flight/keep",
        "/nothing-has-this-address",
    ] {
        browser.go(&format!("{}{page}", served.url));
        browser.wait("the page", "return !!document.querySelector('footer .caution')");
        let outline = browser.run(OUTLINE);
        let told = outline.as_array().cloned().unwrap_or_default();
        wrong.extend(told.iter().map(|one| format!("{page}: {one}")));
        wrong.extend(nameless(&browser).into_iter().map(|one| format!("{page}: no name, {one}")));
        let mut last = String::new();
        for _ in 0..MOST_STEPS {
            tab(&browser);
            let now = browser.run(PLACE);
            let place = now[0].as_str().expect("a place").to_owned();
            if place == "nowhere" {
                break;
            }
            if place == last {
                wrong.push(format!("{page}: the keys are caught at {place}"));
                break;
            }
            if now[1] != json!(true) {
                wrong.push(format!("{page}: the place is not seen at {place}"));
            }
            last = place;
        }
        if last.is_empty() {
            wrong.push(format!("{page}: the keys reach nothing"));
        }
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
}
