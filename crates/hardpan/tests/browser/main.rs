//! The page in a real browser: what a newcomer does, with mouse, keys and
//! without script, in light, dark, print and on a small screen.
//!
//! Set `HARDPAN_SCREENSHOTS` to a folder to keep pictures of what was seen.

mod accounts;
mod books;
mod bring;
mod contrast;
mod demo_book;
mod driver;
mod field;
mod plan;
mod reader;

use driver::{Browser, OVER_THE_EDGE, Served};
use serde_json::{Value, json};

/// Right arrow, left arrow and End as the WebDriver protocol names them.
const RIGHT: &str = "\u{e014}";
const LEFT: &str = "\u{e012}";
const END: &str = "\u{e010}";

const ANSWERED: &str = "return !document.body.classList.contains('is-old')
    && !document.body.classList.contains('rest-is-old')";

fn sheet(browser: &Browser, served: &Served) {
    browser.go(&format!("{}/flights/demo.flight", served.url));
    browser.wait("the sheet", "return !!document.querySelector('#answer .verdict')");
}

fn no_complaints(browser: &Browser) {
    let said = browser.complaints();
    assert!(said.is_empty(), "the browser complains: {said:#?}");
}

#[test]
fn a_newcomer_gets_from_the_start_page_to_the_card() {
    let served = Served::demo();
    let browser = Browser::open(1440, 900);
    browser.go(&served.url);
    browser.picture("start");
    assert!(browser.text("h1").contains("May this flight use this strip"));
    assert!(browser.text("footer").contains("never a pass"));
    browser.click("ul.cards a");
    browser.wait("the sheet", "return !!document.querySelector('#answer .verdict')");
    browser.picture("sheet");
    let answer = browser.text("#answer");
    for words in ["conditional", "Governs:", "take-off mass", "at most", "Planning aid only"] {
        assert!(answer.contains(words), "the answer does not say {words}: {answer}");
    }
    let card = browser.run_later(
        "const done = arguments[arguments.length - 1];
         fetch([...document.querySelectorAll('.links a')].find((a) => a.textContent.includes('card')).href)
           .then(async (answer) => {
             const bytes = new Uint8Array(await answer.arrayBuffer());
             done([answer.headers.get('content-type'), String.fromCharCode(...bytes.slice(0, 5)), bytes.length]);
           });",
    );
    assert_eq!(card[0], json!("application/pdf"));
    assert_eq!(card[1], json!("%PDF-"));
    assert!(card[2].as_u64().is_some_and(|length| length > 10_000), "{card}");
    no_complaints(&browser);
}

#[test]
fn one_cursor_goes_through_all_bands() {
    let served = Served::demo();
    let browser = Browser::open(1440, 1000);
    sheet(&browser, &served);
    let station = || browser.text(".readout .here");
    let row = |name: &str| browser.text(&format!(".readout td[data-row='{name}']"));
    browser.click("#answer .governs a");
    browser.run("document.querySelector('#station').focus(); return true");
    let before = station();
    browser.keys("#station", RIGHT);
    assert_ne!(station(), before);
    browser.keys("#station", LEFT);
    assert_eq!(station(), before);
    browser.keys("#station", END);
    assert_eq!(station(), "1980 m");
    assert_eq!(browser.text(".ruler .here"), "1980 m");
    let seen = browser.run(
        "const rail = document.querySelector('.ruler .plot').getBoundingClientRect();
         const plumb = document.querySelector('.plumb').getBoundingClientRect();
         return Math.abs(plumb.left - rail.right) < 4",
    );
    assert_eq!(seen, json!(true), "the cursor does not stand over the end of the strip");
    assert!(row("level").ends_with("\u{a0}m"), "{}", row("level"));
    browser.run(
        "const rail = document.querySelector('#station');
         rail.value = JSON.parse(document.querySelector('#values').textContent).labels.indexOf('1520 m');
         rail.dispatchEvent(new Event('input', { bubbles: true })); return true",
    );
    assert_eq!(station(), "1520 m");
    let plain = |name: &str| row(name).replace('\u{a0}', " ");
    assert_eq!(plain("stones"), "40 per m², up to 32 mm");
    assert_eq!((plain("loose"), plain("water")), ("12 mm".to_owned(), "none seen".to_owned()));
    browser.keys("#station", END);
    // Arrow keys move it from anywhere on the page that takes no text.
    browser.run("document.activeElement.blur(); return true");
    browser.keys("body", LEFT);
    assert_ne!(station(), "1980 m");
    // A pointer over any band moves it too.
    let moved = browser.run(
        "const box = document.querySelector('.band-speed .plot').getBoundingClientRect();
         const event = new PointerEvent('pointermove', { bubbles: true,
           clientX: box.left + box.width / 2, clientY: box.top + 5 });
         document.querySelector('.band-speed .plot').dispatchEvent(event);
         return document.querySelector('.readout .here').textContent",
    );
    assert_eq!(moved, json!("990 m"));
    // Every band says the same as the table under it.
    let same = browser.run(
        "return [...document.querySelectorAll('.band dd[data-row]')].every((one) =>
           document.querySelector(`.readout td[data-row='${one.dataset.row}']`).textContent
             === one.textContent)",
    );
    assert_eq!(same, json!(true));
    browser.wait(
        "the spoken words",
        "return document.querySelector('#live').textContent.startsWith('Station 990 m')",
    );
    no_complaints(&browser);
}

#[test]
fn every_figure_opens_to_its_basis() {
    let served = Served::demo();
    let browser = Browser::open(1280, 900);
    sheet(&browser, &served);
    browser.run("document.querySelector('.finding .code').closest('summary').focus(); return true");
    let script = "const one = [...document.querySelectorAll('.finding')].find((f) =>
        f.querySelector('.code').textContent === 'G20'); one.querySelector('summary').click();
        one.scrollIntoView(); return one.innerText";
    let opened = browser.run(script).as_str().unwrap_or_default().to_owned();
    browser.picture("basis");
    let press = "document.querySelector('.open-all').click(); return true";
    browser.run(press);
    let all = "return [...document.querySelectorAll('.findings > .finding')].every((f) => f.open)";
    assert_eq!(browser.run(all), json!(true));
    browser.run(press);
    let none = "return [...document.querySelectorAll('.findings > .finding')].some((f) => f.open)";
    assert_eq!(browser.run(none), json!(false));
    for words in ["How the figure comes about", "soundings.csv", "source", "The rule G20"] {
        assert!(opened.contains(words), "an opened finding does not say {words}: {opened}");
    }
}

/// The way down opens in place; where the files are others by then, on a page of its own.
#[test]
fn a_check_opens_down_to_the_files_in_its_place() {
    let served = Served::demo();
    let browser = Browser::open(1280, 900);
    sheet(&browser, &served);
    let of = |wanted: &str, what: &str| {
        format!(
            "const one = [...document.querySelectorAll('.finding')].find((f) =>
               f.querySelector('summary').textContent.includes('{wanted}')); {what}"
        )
    };
    for (wanted, behind) in
        [("ground under the main wheels", "soundings.csv:"), ("V1", "day.toml:")]
    {
        let press =
            of(wanted, "one.open = true; one.querySelector('a.deeper').click(); return true");
        browser.run(&press);
        browser.wait("the way down", &of(wanted, "return !!one.querySelector('.basis h4')"));
        let opened = browser.run(&of(wanted, "return one.querySelector('.basis').textContent"));
        let opened = opened.as_str().unwrap_or_default().to_owned();
        assert!(opened.contains(behind), "{behind}: {opened}");
        assert!(!opened.contains("computed: "), "{opened}");
        let kept = browser
            .run(&of(wanted, "return document.activeElement === one.querySelector('.basis')"));
        assert_eq!(kept, json!(true), "the keys go on from there");
    }
    browser.picture("down");
    let at = browser.run("return location.pathname");
    assert_eq!(at, json!("/flights/demo.flight"));
    browser.run(
        "const ask = window.fetch.bind(window);
         window.fetch = async (url) => new Response(
           (await (await ask(url)).text()).replaceAll('class=\"title\">', 'class=\"title\">Other: '));
         return true",
    );
    browser.run(&of(
        "ground under the nose",
        "one.open = true; one.querySelector('a.deeper').click(); return true",
    ));
    browser.wait("its page", "return location.pathname.endsWith('/basis')");
    assert!(browser.text("main").contains("Planning aid only"));
}

#[test]
fn a_changed_value_is_answered_and_the_old_answer_is_marked() {
    let served = Served::demo();
    let browser = Browser::open(1440, 900);
    sheet(&browser, &served);
    let mass = r"#take_off\.mass";
    // Watch every moment: while the field and the answer differ, the page says so.
    browser.keys(mass, "44 t");
    let marked = browser.run("return document.body.classList.contains('is-old')");
    assert_eq!(marked, json!(true), "the old answer is not marked as old");
    browser.wait(
        "the clock of the new answer",
        "return document.querySelector('.old-word')?.textContent.includes('Working out')
           || !document.body.classList.contains('is-old')",
    );
    browser.picture("old");
    browser.wait("the new answer", ANSWERED);
    browser.picture("changed");
    browser.wait("what would turn it", "return document.body.dataset.advised === 'yes'");
    // Below the window, where nothing is laid out yet: what is written there counts.
    let written = |place: &str| {
        let script = format!("return document.querySelector('{place}').textContent");
        browser.run(&script).as_str().unwrap_or_default().to_owned()
    };
    assert!(written("#advice").contains("What would turn the answer"));
    assert!(!written("#advice").contains("is being tried"));
    assert!(written("#other-figures").contains("Every other figure"));
    assert!(!written(".findings").contains("is on its way"));
    assert!(written(".findings").contains("How the figure comes about"));
    assert!(browser.text("#answer").contains("Why, in plain words"));
    let answer = browser.text("#answer");
    let closed: String = answer.split_whitespace().collect();
    assert!(closed.contains("44000kg"), "{answer}");
    assert!(answer.contains("With changes that no file has: take-off mass 44 t"), "{answer}");
    let address = browser.run("return location.search");
    assert_eq!(address, json!("?take_off.mass=44+t"));
    let card = browser.run("return document.querySelector('.links .strong').getAttribute('href')");
    assert_eq!(card, json!("/flights/demo.flight/card.pdf?take_off.mass=44+t"));
    no_complaints(&browser);
}

/// What a check opens to is asked for after the sheet. It may not come, or be that of
/// other files: then it is said, and nothing is taken.
#[test]
fn what_a_check_opens_to_is_its_own_or_said_to_be_missing() {
    let served = Served::demo();
    let browser = Browser::open(1440, 900);
    sheet(&browser, &served);
    let other = "new Response(await (await ask(url, how)).text()
        .then((text) => text.replaceAll('class=\"title\">', 'class=\"title\">Other: ')))";
    let cases = [
        ("Promise.reject(new Error('away'))", "44 t", "does not answer"),
        (other, "43 t", "files have changed"),
    ];
    for (reply, mass, words) in cases {
        browser.run(&format!(
            "const ask = window.asked ?? (window.asked = window.fetch.bind(window));
             window.fetch = async (url, how) =>
               how.headers['x-hardpan-part'] === 'bases' ? await {reply} : ask(url, how);
             return true"
        ));
        browser.keys(r"#take_off\.mass", mass);
        let told = format!(
            "const all = [...document.querySelectorAll('.opened.follows')];
             return all.length > 20 && all.every((one) => one.textContent.includes('{words}'))"
        );
        browser.wait("what is said in place", &told);
        browser.run("document.querySelector('#take_off\\\\.mass').value = ''; return true");
    }
}

#[test]
fn a_value_that_cannot_be_used_gets_no_answer() {
    let served = Served::demo();
    let browser = Browser::open(1440, 900);
    sheet(&browser, &served);
    browser.keys("#temperature", "soft");
    browser.wait("the refusal", "return !!document.querySelector('.wrong')");
    assert!(browser.text(".wrong").contains("temperature"), "{}", browser.text(".wrong"));
    assert!(browser.text(".old-word").starts_with("Old answer"));
    assert_eq!(browser.run(ANSWERED), json!(false), "the old answer passes for the new one");
    browser.picture("refused");
    // The same without script: the address alone gives no answer either.
    browser.go(&format!("{}/flights/demo.flight?temperature=soft", served.url));
    assert!(browser.text("#answer").contains("Not answered"));
    assert_eq!(browser.run("return document.querySelector('#rest')"), Value::Null);
}

#[test]
fn it_works_without_script() {
    let served = Served::demo();
    let browser = Browser::open(1280, 900);
    browser.command("Emulation.setScriptExecutionDisabled", &json!({ "value": true }));
    browser.go(&format!("{}/flights/demo.flight", served.url));
    browser.keys("#temperature", "30 degC");
    browser.follow("#bench button");
    let answer = browser.text("#answer");
    assert!(answer.contains("With changes that no file has: temperature 30 degC"), "{answer}");
    assert!(browser.text(".readout").contains("bearing ratio available"));
}

#[test]
fn it_fits_a_phone_the_dark_and_paper() {
    let served = Served::demo();
    let browser = Browser::open(390, 844);
    sheet(&browser, &served);
    browser.picture("phone");
    let wide = browser.run("return document.documentElement.scrollWidth - window.innerWidth");
    assert!(wide.as_i64().is_some_and(|over| over <= 0), "wider than the phone by {wide}");
    browser.run("document.querySelector('#section').scrollIntoView(); return true");
    browser.picture("phone-section");
    let out = browser.run(
        "return [...document.querySelectorAll('#answer, #verdict .verdict, .governs, .margins div, \
           .margins dt, .margins dd, .margins strong, #answer .caution')].filter((one) => {
             const box = one.getBoundingClientRect();
             return box.left < 0 || box.right > innerWidth || box.top < 0 || box.bottom > innerHeight
               || one.scrollWidth > one.clientWidth + 1 && getComputedStyle(one).display !== 'inline';
           }).map((one) => one.outerHTML)",
    );
    assert_eq!(out, json!([]), "what must stay in sight does not");
    let margins = browser.run("return document.querySelectorAll('.margins > div').length");
    assert_eq!(margins, json!(5), "masses, tyre pressure, distance and the margin that governs");
    let cut = browser.run(
        "return [...document.querySelectorAll('.governs, .margins dt')].filter((one) =>
           one.scrollHeight > one.clientHeight + 1 || one.scrollWidth > one.clientWidth + 1).length",
    );
    assert_eq!(cut, json!(0), "what governs is cut short");
    let tall = browser.run("return document.querySelector('#answer').offsetHeight / innerHeight");
    assert!(tall.as_f64().is_some_and(|share| share < 0.35), "the answer takes {tall} of a phone");
    the_cursor_keeps_off_names(&browser);
    browser.click("#why summary");
    let whole = browser.run(
        "const one = document.querySelector('.sentence');
           return one.scrollHeight <= one.clientHeight + 1",
    );
    assert_eq!(whole, json!(true), "the sentence is not unfolded with its reasons");
    browser.click("#why summary");
    browser.resize(1440, 900);
    browser.colours("dark");
    browser.picture("dark");
    browser.colours("light");
    browser.paper(true);
    assert_eq!(browser.run(OVER_THE_EDGE), json!([]), "the sheet sticks out of the paper");
    browser.paper(false);
    let pdf = browser.print();
    assert!(pdf.starts_with(b"%PDF-"));
    let pages = pdf.windows(12).filter(|part| part.starts_with(b"/Type /Page\n")).count();
    assert!((1..=24).contains(&pages), "the closed sheet takes {pages} pages");
    browser.keep("sheet.pdf", &pdf);
}

/// Every name of a band that the line of the cursor crosses lies over it.
fn the_cursor_keeps_off_names(browser: &Browser) {
    let crossed = browser.run(
        "const line = () => document.querySelector('.plumb').getBoundingClientRect().left + 1;
           document.querySelector('.cursor').style.pointerEvents = 'auto';
           document.querySelector('.plumb').style.pointerEvents = 'auto';
           const struck = [...document.querySelectorAll('.bands .name')].filter((name) => {
             name.scrollIntoView({ block: 'center' });
             const box = name.getBoundingClientRect();
             const at = document.elementFromPoint(line(), box.top + box.height / 2);
             return box.height > 0 && !(at && name.contains(at));
           }).map((name) => name.innerText);
           const plot = document.querySelector('.band-speed .plot');
           plot.scrollIntoView({ block: 'center' });
           document.querySelector('.cursor').style.pointerEvents = '';
           document.querySelector('.plumb').style.pointerEvents = '';
           return struck",
    );
    assert_eq!(crossed, json!([]), "the line of the cursor strikes through names");
}

#[test]
fn text_can_be_read_in_light_and_dark() {
    let served = Served::demo();
    let browser = Browser::open(1440, 900);
    contrast::holds(
        &browser,
        &served,
        &[
            "/",
            "/strips/demo.strip",
            "/strips/demo.strip/bring",
            "/aeroplanes/demo.aeroplane",
            "/plan?strip=demo.strip&aeroplane=demo.aeroplane",
            "/flights/demo.flight",
            "/flights/demo.flight?take_off.mass=soft",
            "/flights/demo.flight/masses",
            "/flights/demo.flight/masses?temperatures=14+degC&headwinds=9+kt",
            "/flights/demo.flight/masses/place?movement=landing&temperature=14+degC&headwind=9+kt",
            "/flights/demo.flight/lesson",
            "/flights/demo.flight/year",
            "/flights/demo.flight/confidence",
            "/flights/demo.flight/remedies?take_off.mass=42.6+t",
            "/compare?flight=demo.flight&both-ends=yes",
            "/compare",
            "/nothing-has-this-address",
        ],
    );
}

#[test]
fn a_strip_by_itself_has_its_page() {
    let served = Served::demo();
    let browser = Browser::open(1280, 900);
    browser.go(&served.url);
    browser.click("ul.rows a");
    browser.wait("the strip", "return !!document.querySelector('.strip-page h1')");
    browser.wait(
        "its figures",
        "return [...document.images].every((one) => { one.loading = 'eager';
           return one.complete && one.naturalWidth > 0; })",
    );
    browser.picture("strip");
    assert!(browser.text("main").contains("Long Gravel"));
    let opened = browser.run(
        "const one = [...document.querySelectorAll('.finding')].find((f) => f.querySelector('.steps'));
         one.querySelector('summary').click(); one.scrollIntoView(); return one.innerText",
    );
    let opened = opened.as_str().unwrap_or_default();
    assert!(opened.contains("How the figure comes about") && opened.contains("demo/"), "{opened}");
    browser.picture("strip-opened");
    no_complaints(&browser);
}

#[test]
fn an_inspection_is_logged_from_a_phone() {
    let folder = tempfile::tempdir().expect("a folder");
    let book = folder.path().join("north.book");
    let done = std::process::Command::new(env!("CARGO_BIN_EXE_hardpan"))
        .arg("book")
        .arg(&book)
        .args(["add", "movement", "strip=North", "tail=101", "kind=landing", "mass=39.6 t"])
        .args(["at=2026-06-18T15:00:00Z", "--by", "Ada"])
        .status()
        .expect("the program starts");
    assert!(done.success());
    let served = Served::with(&[&folder.path().to_string_lossy()]);
    let browser = Browser::open(390, 844);
    browser.go(&served.url);
    browser.click("a[href='/books/north']");
    browser.wait("the book", "return !!document.querySelector('#log-inspection')");
    browser.click("#log-inspection summary");
    // Everything that is missing is told at once, where the form is.
    browser.follow("#log-inspection button");
    let wrong = browser.run(
        "return [...document.querySelectorAll('#log-inspection [aria-invalid]')]
           .map((one) => one.name)",
    );
    assert_eq!(wrong, json!(["rut", "water", "by"]));
    let top = "const one = document.querySelector('#log-inspection').getBoundingClientRect().top;
               return one >= 0 && one < innerHeight / 2";
    assert_eq!(browser.run(top), json!(true), "the form is out of sight");
    browser.picture("book-missing");
    for scheme in ["dark", "light"] {
        browser.colours(scheme);
        contrast::shown(&browser, "a form that is refused");
    }
    browser.keys("#inspection-rut", "12 mm");
    browser.keys("#inspection-water", "0 mm");
    browser.keys("#inspection-by", "Ada");
    browser.click("#log-inspection button");
    // A rut without its station and lane is refused, and what was written stays.
    browser.wait("the refusal", "return !!document.querySelector('#inspection-rut_lane-wrong')");
    assert!(browser.text("#log-inspection .wrong").contains("station of the rut"));
    assert_eq!(
        browser.run("return document.querySelector('#inspection-rut').value"),
        json!("12 mm")
    );
    browser.picture("book-refused");
    browser.keys("#inspection-rut_station", "640 m");
    browser.keys("#inspection-rut_lane", "left main");
    browser.click("#log-inspection button");
    browser.wait("the entry", "return !!document.querySelector('.history .fresh')");
    let entry = browser.text(".history .fresh").replace('\u{a0}', " ");
    for words in ["inspection", "12 mm", "left main", "by Ada"] {
        assert!(entry.contains(words), "the entry does not say {words}: {entry}");
    }
    browser.keys("#inspected-within", "7 d");
    browser.click(".choose button");
    browser.wait("the state", "return !!document.querySelector('.state-word')");
    assert!(browser.text(".state-word").contains("restricted"), "no survey is recorded");
    browser.run("scrollTo(0, 0); return true");
    browser.picture("book");
    let wide = browser.run("return document.documentElement.scrollWidth - window.innerWidth");
    assert!(wide.as_i64().is_some_and(|over| over <= 0), "wider than the phone by {wide}");
    assert_eq!(browser.complaints().iter().filter(|said| !said.contains("422")).count(), 0);
}

#[test]
fn largest_masses_are_tabled_over_a_range_of_days() {
    let served = Served::demo();
    let browser = Browser::open(1280, 900);
    sheet(&browser, &served);
    let to = "document.querySelector(\"a[href$='/masses']\").click(); return true";
    browser.run(to);
    browser.wait("the form", "return !!document.querySelector('.masses-form')");
    let state = |key: &str, value: &str| {
        browser.run(&format!("document.querySelector('#{key}').value = '{value}'; return true"))
    };
    state("temperatures", "warm");
    state("headwinds", "0 kt, 10 kt");
    browser.click(".masses-form button");
    browser.wait("the refusal", "return !!document.querySelector('.masses-form .wrong')");
    assert!(browser.text(".wrong").contains("temperatures"), "{}", browser.text(".wrong"));
    state("temperatures", "30 degC, 14 degC");
    browser.click(".masses-form button");
    browser.wait(
        "the tables",
        "return document.querySelectorAll('.sheet-table tbody tr').length === 4",
    );
    browser.picture("masses");
    let shown = browser.text("main").replace('\u{a0}', " ");
    for words in ["Largest take-off mass", "10 kt ahead", "Planning aid only", "without crosswind"]
    {
        assert!(shown.contains(words), "the table does not say {words}: {shown}");
    }
}
