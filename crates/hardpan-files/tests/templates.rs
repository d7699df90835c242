//! The starter files read without an error, and name every key of the format.

use hardpan_files::{Memory, Reading, Severity, read_flight, render, templates};
use hardpan_model::Flight;

fn read(change: impl Fn(&str) -> String) -> Reading<Flight> {
    let all = templates::all();
    let files =
        all.iter().fold(Memory::default(), |files, (name, text)| files.with(name, change(text)));
    read_flight(&files, "flight.toml")
}

/// A template with its commented keys and tables put in force.
fn uncommented(text: &str) -> String {
    let is_key = |line: &str| {
        let key = line.split(" = ").next().unwrap_or("");
        let name = key.bytes().all(|byte| byte.is_ascii_lowercase() || byte == b'_');
        (line.contains(" = ") && name && !key.is_empty())
            || (line.starts_with('[') && line.ends_with(']'))
    };
    let line = |line: &str| match line.strip_prefix("# ") {
        Some(bare) if is_key(bare) => format!("{bare}\n"),
        _ => format!("{line}\n"),
    };
    text.lines().map(line).collect()
}

#[test]
fn templates_read_without_an_error_and_hold_nothing() {
    let reading = read(str::to_owned);
    assert_eq!(reading.errors(), 0, "{}", render(&reading.diagnostics, &reading.sources, false));
    let codes: Vec<&str> = reading.diagnostics.iter().map(|one| one.code).collect();
    assert_eq!(codes, ["E516", "E516"], "only the two empty tables are worth a warning");
    let flight = reading.value.expect("no error");
    assert!(flight.landing.is_some_and(|landing| landing.mass.is_none()));
    assert!(flight.strip.survey.is_none() && flight.strip.soundings.is_empty());
    assert!(flight.day.standing_water.is_none(), "nobody looked is not the same as none");
    assert!(flight.aeroplane.flaps.is_empty() && flight.aeroplane.mass.minimum.is_none());
}

#[test]
fn every_key_of_the_format_stands_in_a_template() {
    let reading = read(uncommented);
    let shown = render(&reading.diagnostics, &reading.sources, false);
    assert_eq!(reading.errors(), 0, "{shown}");
    // A daily record stands in place of the monthly means, never beside them; what
    // is fitted is a file that the command writes.
    let named = |key: &&String| {
        (*key == "frost.daily" && templates::strip().contains("daily = "))
            || (*key == "fitted" && templates::aeroplane().contains("fitted = "))
    };
    let first = |key: &&String| !key.contains("[2]") && !named(key);
    let absent: Vec<&String> = reading.absent.iter().filter(first).collect();
    assert_eq!(absent, Vec::<&String>::new(), "keys that no template names");
    let warned: Vec<&str> = reading
        .diagnostics
        .iter()
        .filter(|one| one.severity == Severity::Warning)
        .map(|one| one.code)
        .collect();
    // Both kinds of engine stand in one template, and the day gives its weather twice.
    assert_eq!(
        warned,
        [
            "E414", "E414", "E414", "E414", "E516", "E516", "E516", "E516", "E516", "E420", "E420",
            "E420"
        ],
        "{shown}"
    );
}
