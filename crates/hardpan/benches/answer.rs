//! A mass is changed on the sheet in a browser: how long until the new answer stands
//! there, until the sheet along the strip with every check does, until each check opens
//! to what it rests on, and until what would turn it or help stands there, the keys'
//! pause apart. The first two are held to 100 ms; it ends with an error where half of
//! them take longer. Run it alone on a machine that does nothing else:
//!
//! ```sh
//! cargo bench -p hardpan --bench answer
//! ```
#![allow(missing_docs, clippy::print_stdout)]

#[path = "../tests/browser/driver.rs"]
#[allow(dead_code)]
mod driver;

use driver::{Browser, Served};
use serde_json::Value;
use std::process::{Command, ExitCode};
use std::time::Duration;

/// What half of the answers are held to, ms.
const HELD: f64 = 100.0;

/// Changes one value as a reader does and gives the milliseconds until each part is
/// drawn: what is posted before a frame comes after its layout and painting.
const CHANGE: &str = "const done = arguments[arguments.length - 1];
    const field = document.getElementById('take_off.mass');
    field.value = MASS;
    field.dispatchEvent(new Event('input', { bubbles: true }));
    field.dispatchEvent(new Event('change', { bubbles: true }));
    const begun = performance.now();
    let first = null;
    let sheet = null;
    let opens = null;
    delete document.body.dataset.advised;
    const drawn = (take) => {
      const after = new MessageChannel();
      after.port1.onmessage = () => take(performance.now() - begun);
      after.port2.postMessage(null);
    };
    const look = () => {
      const is = (word) => document.body.classList.contains(word);
      if (first === null && !is('is-old')) drawn((at) => { first ??= at; });
      if (sheet === null && !is('is-old') && !is('rest-is-old')) drawn((at) => { sheet ??= at; });
      const follows = document.querySelector('.opened.follows');
      if (opens === null && sheet !== null && !follows) drawn((at) => { opens ??= at; });
      if (!document.body.dataset.advised) requestAnimationFrame(look);
      else drawn((at) => done([first, sheet, opens ?? at, at]));
    };
    requestAnimationFrame(look);";

fn main() -> ExitCode {
    let folder = tempfile::tempdir().expect("a folder");
    let flights = folder.path().join("flights");
    let place = flights.to_string_lossy();
    let made = Command::new(env!("CARGO_BIN_EXE_hardpan")).args(["new", "demo", &place]).output();
    assert!(made.expect("the program starts").status.success());
    // Files that were written a moment ago are read afresh each time.
    std::thread::sleep(Duration::from_secs(3));
    let served = Served::with(&[&place]);
    let browser = Browser::open(1440, 900);
    browser.go(&format!("{}/flights/flight", served.url));
    browser.wait("the sheet", "return !!document.querySelector('#answer .verdict')");
    let mut times: [Vec<f64>; 4] = Default::default();
    for step in 0..24 {
        let mass = format!("\"{:.1} t\"", 34.0 + 0.3 * f64::from(step));
        let took = browser.run_later(&CHANGE.replace("MASS", &mass));
        let number = |at: usize| took.get(at).and_then(Value::as_f64).expect("a time");
        // The first few warm the caches of browser and machine.
        if step >= 4 {
            times.iter_mut().enumerate().for_each(|(at, all)| all.push(number(at)));
        }
    }
    let names = [
        "the answer",
        "the sheet with every check",
        "what each check opens to",
        "what would turn it or help",
    ];
    let shares = times.map(|mut all| {
        all.sort_by(f64::total_cmp);
        (all[all.len() / 2], all[all.len() - 1], all.len())
    });
    for (name, (half, longest, count)) in names.iter().zip(shares) {
        println!(
            "{name}, {count} changes of a mass: half within {half:.0} ms, longest {longest:.0} ms; \
             {:.2} of {HELD} ms",
            half / HELD
        );
    }
    if shares[..2].iter().all(|(half, ..)| *half <= HELD) {
        ExitCode::SUCCESS
    } else {
        ExitCode::FAILURE
    }
}
