//! A plan as a flight file and a day file.

use super::over::Over;
use super::{FileShelf, Source, places, sound};
use hardpan_files::{Memory, quoted, read_flight, render};
use hardpan_web::{Plan, Refusal, RefusedPlace};
use std::io::Write as _;
use std::path::Path;

/// Beginning of the name of a plan's file.
pub(super) const PLANNED: &str = "planned-";
/// Most plans of one name.
const MOST: usize = 200;
/// Longest name of a file, in characters.
const LONGEST: usize = 48;
/// Keys of `[landing]`, `[take_off]` and the flight, in the order of the file.
const FLIGHT: [&str; 6] = [
    "passes",
    "turn_round",
    "report_age",
    "survey_age",
    "main_tyre_pressure",
    "nose_tyre_pressure",
];

/// Text of a file, with the key of each line.
#[derive(Default)]
struct Written {
    text: String,
    keys: Vec<Option<String>>,
}

impl Written {
    fn line(&mut self, key: Option<&str>, text: &str) {
        self.text.push_str(text);
        self.text.push('\n');
        self.keys.push(key.map(str::to_owned));
    }

    fn key(&self, line: u32) -> Option<String> {
        let index = usize::try_from(line).ok()?.checked_sub(1)?;
        self.keys.get(index).cloned().flatten()
    }
}

/// Keep a plan: read first, written only when it is sound.
pub(super) fn keep(shelf: &FileShelf, plan: &Plan) -> Result<String, Refusal> {
    let (file, day_file) = free(shelf, &plan.name)?;
    let flight = flight_text(plan, &file, &day_file);
    let day = day_text(plan);
    let reader = shelf.reader();
    let over = Over {
        under: &*reader,
        over: Memory::default()
            .with(&file, flight.text.as_str())
            .with(&day_file, day.text.as_str()),
    };
    let reading = read_flight(&over, &file);
    if reading.value.is_none() {
        let text = render(&reading.diagnostics, &reading.sources, false);
        let mut found: Vec<RefusedPlace> = places(&reading.diagnostics, &reading.sources);
        for place in &mut found {
            let of = [(&file, &flight), (&day_file, &day)];
            let written = of.into_iter().find(|(name, _)| **name == place.file);
            place.key = written.and_then(|(_, written)| written.key(place.line));
        }
        return Err(Refusal { text, places: found });
    }
    sound(reading)?;
    match &shelf.source {
        Source::Demo(..) => shelf.remember([(&file, flight.text), (&day_file, day.text)]),
        Source::Folder(..) => {
            write(&day_file, &day.text)?;
            write(&file, &flight.text)?;
        }
    }
    Ok(file)
}

fn refusal(message: String, key: Option<&str>) -> Refusal {
    let place = RefusedPlace {
        code: "E600",
        file: "plan".to_owned(),
        line: 0,
        column: 0,
        key: key.map(str::to_owned),
        message: message.clone(),
        expected: "a plan that can be kept".to_owned(),
        hint: "nothing was kept".to_owned(),
    };
    Refusal { text: format!("{message}\n"), places: vec![place] }
}

/// Names that no file has: of the flight, and of its day.
fn free(shelf: &FileShelf, name: &str) -> Result<(String, String), Refusal> {
    let plain: String = name
        .to_lowercase()
        .chars()
        .map(|c| if c.is_ascii_alphanumeric() { c } else { '-' })
        .collect();
    let parts: Vec<&str> = plain.split('-').filter(|part| !part.is_empty()).collect();
    let plain: String = parts.join("-").chars().take(LONGEST).collect();
    if plain.is_empty() {
        let said = "A plan needs a name with letters or digits.".to_owned();
        return Err(refusal(said, Some("name")));
    }
    let taken = shelf.files();
    let named = |number: usize| {
        let number = if number == 1 { String::new() } else { format!("-{number}") };
        let place = |end: &str| shelf.place_of(&format!("{PLANNED}{plain}{number}{end}.toml"));
        (place(""), place("-day"))
    };
    let is_free = |(file, day): &(String, String)| {
        !taken.contains(file) && !taken.contains(day) && !Path::new(file).exists()
    };
    (1..=MOST).map(named).find(is_free).ok_or_else(|| {
        refusal(format!("There are {MOST} plans of that name already."), Some("name"))
    })
}

fn write(file: &str, text: &str) -> Result<(), Refusal> {
    let written = std::fs::File::create_new(file).and_then(|mut made| {
        made.write_all(text.as_bytes())?;
        made.sync_all()
    });
    written.map_err(|error| refusal(format!("{file} cannot be written: {error}."), None))
}

/// A path as a file beside it names it.
fn beside(file: &str, other: &str) -> String {
    let folder = Path::new(file).parent().unwrap_or(Path::new(""));
    Path::new(other)
        .strip_prefix(folder)
        .map_or_else(|_| other.to_owned(), |short| short.to_string_lossy().into_owned())
}

/// A value as its key wants it: numbers, days and yes or no stand bare.
fn value(key: &str, text: &str) -> String {
    let is_bare = match key {
        "passes" => text.parse::<u32>().is_ok(),
        "date" => text.parse::<jiff::civil::Date>().is_ok() && text.len() == 10,
        "inspected" => matches!(text, "true" | "false"),
        _ => false,
    };
    if is_bare { text.to_owned() } else { quoted(text) }
}

fn flight_text(plan: &Plan, file: &str, day_file: &str) -> Written {
    let mut out = Written::default();
    out.line(None, "kind = \"flight\"");
    out.line(None, "");
    out.line(Some("name"), &format!("name = {}", quoted(&plan.name)));
    out.line(None, "source = \"Planned on the page\"");
    out.line(Some("aeroplane"), &format!("aeroplane = {}", quoted(&beside(file, &plan.aeroplane))));
    out.line(Some("strip"), &format!("strip = {}", quoted(&beside(file, &plan.strip))));
    out.line(None, &format!("day = {}", quoted(&beside(file, day_file))));
    for (key, text) in &plan.values {
        let is_own = FLIGHT.contains(&key.as_str());
        // An unknown key is written too, so that the reader refuses it by name.
        if is_own || (!key.contains('.') && !key.starts_with("day")) {
            out.line(Some(key), &format!("{} = {}", bare(key), value(key, text)));
        }
    }
    for table in ["landing", "take_off"] {
        let begins = format!("{table}.");
        let mine: Vec<_> = plan.values.iter().filter(|(key, _)| key.starts_with(&begins)).collect();
        if mine.is_empty() {
            continue;
        }
        out.line(None, "");
        out.line(None, &format!("[{table}]"));
        for (key, text) in mine {
            let own = key.strip_prefix(&begins).unwrap_or(key);
            out.line(Some(key), &format!("{} = {}", bare(own), value(own, text)));
        }
    }
    out
}

fn day_text(plan: &Plan) -> Written {
    let mut out = Written::default();
    out.line(None, "kind = \"day\"");
    out.line(None, "source = \"Planned on the page\"");
    for (key, text) in &plan.values {
        if let Some(own) = key.strip_prefix("day.") {
            let name: Vec<String> = own.split('.').map(bare).collect();
            out.line(Some(key), &format!("{} = {}", name.join("."), value(own, text)));
        }
    }
    out
}

/// A key as TOML takes it.
fn bare(key: &str) -> String {
    let is_bare = !key.is_empty() && key.chars().all(|c| c.is_ascii_alphanumeric() || c == '_');
    if is_bare { key.to_owned() } else { quoted(key) }
}

#[cfg(test)]
mod tests {
    use super::{beside, day_text, flight_text, value};
    use hardpan_web::Plan;

    #[test]
    fn a_plan_is_plain_toml_whatever_is_written_into_it() {
        let plan = Plan {
            name: "a\"\nb = 1".to_owned(),
            aeroplane: "flights/a/tail.toml".to_owned(),
            strip: "flights/strip.toml".to_owned(),
            values: vec![
                ("landing.mass".to_owned(), "39 t\"\nrule = \"x".to_owned()),
                ("day.date".to_owned(), "2026-06-18".to_owned()),
                ("passes".to_owned(), "60".to_owned()),
            ],
        };
        let text = flight_text(&plan, "flights/planned-a.toml", "flights/planned-a-day.toml").text;
        assert!(text.contains("name = \"a\\\"\\u000Ab = 1\""), "{text}");
        assert!(text.contains("aeroplane = \"a/tail.toml\"") && text.contains("passes = 60"));
        assert_eq!(text.matches("\nrule").count(), 0, "{text}");
        assert!(day_text(&plan).text.contains("date = 2026-06-18"));
        assert_eq!(value("date", "2026-06-18\nx"), "\"2026-06-18\\u000Ax\"");
        assert_eq!(beside("flights/p.toml", "flights/a/s.toml"), "a/s.toml");
    }
}
